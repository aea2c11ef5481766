import { useEffect, useRef, useState } from "preact/hooks";
import type { LinkedTableName } from "../../../schema/table-names.js";
import { type Draft, isChanged, withDraft } from "../../engine/record/draft.js";
import {
  type ClinicRecord,
  emptyRecord,
  type RemovedRow,
  withoutRow,
  withRowsBack,
} from "../../engine/record/record.js";
import { forgetKept, type KeptRecord, keep, keptRecord, onOtherWindow } from "./kept-drafts.js";
import type { OpenFile } from "./record-files.js";

/** Whether this browser keeps what is written: nobody has said yes, it does, it cannot, or another window does. */
export type Keeping = "not-asked" | "kept" | "failed" | "elsewhere";

const nothing: KeptRecord = { name: "record", record: emptyRecord, draft: null, changes: 0 };

/** So long after the last letter what is written is kept, in milliseconds. */
const pause = 300;

/** A record as the page holds it, kept in the browser as far as somebody has said yes to it. */
export function useRecord() {
  const [state, setState] = useState(nothing);
  const [offered, setOffered] = useState<KeptRecord | null>(keptRecord);
  const [keeping, setKeeping] = useState<Keeping>("not-asked");
  const [removed, setRemoved] = useState<readonly RemovedRow[]>([]);
  const [file, setFile] = useState<OpenFile | null>(null);
  const latest = useRef({ state, keeping });
  latest.current = { state, keeping };

  const store = () => {
    const { state: now, keeping: how } = latest.current;
    if (how !== "kept" && how !== "failed") return;
    setKeeping(keep(now) ? "kept" : "failed");
  };

  useEffect(() => {
    const later = setTimeout(store, pause);
    return () => clearTimeout(later);
  }, [state]);

  useEffect(() => {
    const isAtRisk = () => {
      const { state: now, keeping: how } = latest.current;
      const isUnsaved = now.changes > 0 || (now.draft !== null && isChanged(now.record, now.draft));
      return isUnsaved && how !== "kept";
    };
    const leave = (event: BeforeUnloadEvent) => {
      store();
      if (isAtRisk()) event.preventDefault();
    };
    addEventListener("beforeunload", leave);
    addEventListener("pagehide", store);
    const endHearing = onOtherWindow(() => {
      if (latest.current.keeping === "kept") setKeeping("elsewhere");
    });
    return () => {
      removeEventListener("beforeunload", leave);
      removeEventListener("pagehide", store);
      endHearing();
    };
  }, []);

  const changed = (record: ClinicRecord, more: Partial<KeptRecord> = {}) =>
    setState((before) => ({ ...before, record, changes: before.changes + 1, ...more }));

  return {
    ...state,
    /** The file that this page may write to, where there is one. */
    file,
    setFile,
    keeping,
    /** What this browser has kept from before, until it is taken or forgotten. */
    offered,
    /** What was taken out last and can be put back. */
    removed,
    isEmpty: state.record === emptyRecord,
    write: (draft: Draft | null) => setState((before) => ({ ...before, draft })),
    rename: (name: string) => setState((before) => ({ ...before, name })),
    keepDraft: () => {
      if (state.draft !== null) changed(withDraft(state.record, state.draft), { draft: null });
    },
    takeOut: (row: { readonly table: LinkedTableName; readonly key: number }) => {
      const { record, removed: gone } = withoutRow(state.record, row);
      setRemoved(gone);
      changed(record);
    },
    putBack: () => {
      changed(withRowsBack(state.record, removed));
      setRemoved([]);
    },
    open: (record: ClinicRecord, name: string) => {
      setRemoved([]);
      setState({ ...nothing, record, name });
    },
    /** So many changes have arrived in the file. */
    saved: (count: number) =>
      setState((before) => ({ ...before, changes: Math.max(0, before.changes - count) })),
    startKeeping: () => setKeeping(keep(state) ? "kept" : "failed"),
    takeOffered: () => {
      if (offered !== null) setState(offered);
      setOffered(null);
      setKeeping("kept");
    },
    forget: () => {
      forgetKept();
      setFile(null);
      setOffered(null);
      setKeeping("not-asked");
      setRemoved([]);
      setState(nothing);
    },
  };
}

export type RecordInPage = ReturnType<typeof useRecord>;
