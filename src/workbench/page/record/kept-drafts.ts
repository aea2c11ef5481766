import type { Draft } from "../../engine/record/draft.js";
import type { ClinicRecord } from "../../engine/record/record.js";

// What this browser keeps of a record between two openings of the page, after somebody has said yes to it.

const place = "pulley-outcomes record";
const form = 1;

/** A record as it is being written. */
export interface KeptRecord {
  readonly name: string;
  readonly record: ClinicRecord;
  readonly draft: Draft | null;
  /** How many changes are not yet in the file. */
  readonly changes: number;
}

/** What was kept; null where nothing was, or where it cannot be read. */
export function keptRecord(): KeptRecord | null {
  try {
    const text = localStorage.getItem(place);
    if (text === null) return null;
    const kept = JSON.parse(text) as KeptRecord & { readonly form: number };
    return kept.form === form ? kept : null;
  } catch {
    return null;
  }
}

/** Keeps a record. @returns whether the browser took it: its storage may be full, or forbidden */
export function keep(record: KeptRecord): boolean {
  try {
    localStorage.setItem(place, JSON.stringify({ form, ...record }));
    return true;
  } catch {
    return false;
  }
}

/** Forgets everything that was kept. */
export function forgetKept(): void {
  try {
    localStorage.removeItem(place);
  } catch {
    // where storage is forbidden, nothing was kept
  }
}

/** Calls back when another window of the workbench keeps or forgets a record; gives what ends that. */
export function onOtherWindow(changed: () => void): () => void {
  const hear = ({ key }: StorageEvent) => {
    if (key === place || key === null) changed();
  };
  addEventListener("storage", hear);
  return () => removeEventListener("storage", hear);
}
