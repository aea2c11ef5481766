import { useEffect, useRef, useState } from "preact/hooks";
import { forgetWork, type KeptWork, keepWork, keptWork } from "./kept-work.js";

/** Whether this browser keeps the path: nobody has said yes, it does, or it cannot. */
export type KeepingWork = "not-asked" | "kept" | "failed";

/** The path as this browser keeps it, as far as somebody has said yes to it. */
export function useKeptWork() {
  const [offered, setOffered] = useState<KeptWork | null>(null);
  const [keeping, setKeeping] = useState<KeepingWork>("not-asked");
  /** Writes in turn: an earlier state must not arrive after a later one. */
  const writing = useRef(Promise.resolve());

  useEffect(() => {
    void keptWork().then(setOffered);
  }, []);

  return {
    offered,
    keeping,
    store: (work: KeptWork): Promise<void> => {
      if (keeping === "not-asked") return Promise.resolve();
      writing.current = writing.current.then(async () =>
        setKeeping((await keepWork(work)) ? "kept" : "failed"),
      );
      return writing.current;
    },
    startKeeping: () => setKeeping("kept"),
    /** The offered work lies on the desk again, and is kept further. */
    take: () => {
      setOffered(null);
      setKeeping("kept");
    },
    /** Other data were brought instead. */
    offerNoMore: () => setOffered(null),
    forget: async (): Promise<void> => {
      setOffered(null);
      setKeeping("not-asked");
      await writing.current;
      await forgetWork();
    },
  };
}

export type WorkInBrowser = ReturnType<typeof useKeptWork>;
