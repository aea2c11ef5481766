import { useEffect, useRef, useState } from "preact/hooks";
import type {
  AnswerGiven,
  AskView,
  Brought,
  CheckView,
  ColumnsChange,
  ReadView,
  SectionView,
  TaskName,
  Tasks,
} from "../engine/tasks.js";
import { type EngineClient, engineClient, Refused, Stopped } from "./engine-client.js";
import { keepFocus } from "./keep-focus.js";
import type { KeptWork } from "./kept-work.js";
import { goTo, type StepId } from "./step.js";
import { useKeptWork } from "./use-kept-work.js";

/** What the page knows so far; a change of an earlier step takes away what rests on it. */
export interface Known {
  readonly brought: Brought | null;
  readonly checked: CheckView | null;
  readonly asked: AskView | null;
  readonly answer: ReadView | null;
  readonly sections: readonly SectionView[] | null;
}

const nothing: Known = { brought: null, checked: null, asked: null, answer: null, sections: null };

/** Where something did not work: a step of the path, or the page on which sites are pooled. */
type Place = StepId | "pool";

export interface Trouble {
  readonly step: Place;
  readonly message: string;
  readonly isInput: boolean;
}

/** The path from data to an answer: what is known, what is being done, and every way to go on. */
export function usePath() {
  const [known, setKnown] = useState(nothing);
  const [doing, setDoing] = useState<string | null>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const kept = useRef<EngineClient | null>(null);
  // what is prepared while nobody waits is not told
  kept.current ??= engineClient((step) => setDoing((now) => (now === null ? null : step)));
  const client = kept.current;
  const work = useKeptWork();

  useEffect(() => {
    client.warm();
  }, []);

  useEffect(() => {
    const { brought, checked, asked, answer } = known;
    if ((checked ?? asked) !== null && answer === null) client.prepare();
    if (brought !== null)
      void work.store({ log: client.log(), files: namesOf(brought), reached: reachedBy(known) });
  }, [known, work.keeping]);

  const attempt = async <Result>(step: Place, act: () => Promise<Result>): Promise<Result | null> => {
    const giveBack = keepFocus();
    setDoing(client.step() ?? "working");
    setTrouble(null);
    try {
      return await act();
    } catch (error) {
      if (error instanceof Stopped) return null;
      const isInput = error instanceof Refused && error.isInput;
      setTrouble({ step, message: error instanceof Error ? error.message : String(error), isInput });
      return null;
    } finally {
      setDoing(null);
      giveBack();
    }
  };

  const run = <Name extends TaskName>(step: Place, task: Name, input: Parameters<Tasks[Name]>[0]) =>
    attempt(step, () => client.run(task, input));

  const check = async () => {
    const checked = await run("queries", "check", undefined as never);
    if (checked === null) return;
    setKnown(({ brought }) => ({ ...nothing, brought, checked }));
    goTo("queries");
  };

  const takeIn = async (brought: Brought | null) => {
    if (brought === null) return;
    work.offerNoMore();
    setKnown({ ...nothing, brought });
    if (brought.kind === "sheet") goTo("columns");
    else await check();
  };

  const takeQuestion = (asked: AskView | null) => {
    if (asked !== null) setKnown((before) => ({ ...before, asked, answer: null, sections: null }));
    return asked;
  };
  const ask = async (change: Parameters<Tasks["ask"]>[0]) => takeQuestion(await run("ask", "ask", change));

  const read = async () => {
    const answer = await run("read", "read", undefined as never);
    if (answer === null) return;
    setKnown((before) => ({ ...before, answer, sections: null }));
    goTo("read");
  };

  /** Lays everything out as it was when the page was closed, as far as the path had been walked. */
  const goOn = async ({ log, reached }: KeptWork) => {
    const brought = await attempt("bring", () => client.layOut(log));
    if (brought === null) return;
    work.take();
    const place = order.indexOf(reached);
    const isPast = (step: StepId) => place >= order.indexOf(step);
    const checked = isPast("queries") ? await run("queries", "check", undefined as never) : null;
    const asked = checked !== null && isPast("ask") ? await run("ask", "ask", {}) : null;
    const answer = asked !== null && isPast("read") ? await run("read", "read", undefined as never) : null;
    setKnown({ brought, checked, asked, answer, sections: null });
    goTo(reached);
  };

  return {
    known,
    doing,
    trouble,
    work,
    bring: async (files: Parameters<Tasks["bring"]>[0]) => takeIn(await run("bring", "bring", files)),
    invent: async (scenario: Parameters<Tasks["invent"]>[0]) =>
      takeIn(await run("bring", "invent", scenario)),
    changeColumns: async (change: ColumnsChange) => {
      const columns = await run("columns", "columns", change);
      if (columns !== null) setKnown({ ...nothing, brought: { kind: "sheet", columns } });
    },
    check,
    settle: async (given: AnswerGiven) => {
      const checked = await run("queries", "settle", given);
      if (checked !== null) setKnown(({ brought }) => ({ ...nothing, brought, checked }));
    },
    orderDates: async (dateOrder: CheckView["dateOrder"]) => {
      if (dateOrder !== null && (await run("queries", "ask", { dateOrder })) !== null) await check();
    },
    ask,
    agree: async (file: Parameters<Tasks["agree"]>[0]) => takeQuestion(await run("ask", "agree", file)),
    read,
    drawWhole: async () => {
      const sections = await run("read", "sections", undefined as never);
      if (sections !== null) setKnown((before) => ({ ...before, sections }));
    },
    takeAway: () => run("take-away", "takeAway", undefined as never),
    talk: (group: string) => run("take-away", "talk", group),
    contribute: (site: string) => run("take-away", "contribute", site),
    pooling: {
      view: (files: Parameters<Tasks["poolView"]>[0]) => run("pool", "poolView", files),
      report: (files: Parameters<Tasks["poolReport"]>[0]) => run("pool", "poolReport", files),
      merged: (files: Parameters<Tasks["poolMerged"]>[0]) => run("pool", "poolMerged", files),
    },
    goOn,
    stop: () => client.stop(),
    /** A task that stands on no step, as those of the record. */
    runAside: <Name extends TaskName>(task: Name, input: Parameters<Tasks[Name]>[0]) =>
      client.run(task, input),
    forget: async () => {
      await Promise.all([client.forget(), work.forget()]);
      setKnown(nothing);
      setTrouble(null);
      goTo("bring");
    },
  };
}

const order: readonly StepId[] = ["bring", "columns", "queries", "ask", "read"];

function reachedBy({ brought, checked, asked, answer }: Known): StepId {
  if (answer !== null) return "read";
  if (asked !== null) return "ask";
  if (checked !== null) return "queries";
  return brought?.kind === "sheet" ? "columns" : "bring";
}

function namesOf(brought: Brought): readonly string[] {
  if (brought.kind === "study") return brought.files;
  return brought.kind === "sheet" ? [brought.columns.file] : brought.tables.map(({ file }) => file);
}
