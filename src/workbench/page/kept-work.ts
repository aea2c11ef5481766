import { clear, createStore, get, set, type UseStore } from "idb-keyval";
import type { TaskDone } from "./engine-client.js";
import type { StepId } from "./step.js";

// What this browser keeps of the path between two openings of the page, after somebody has said yes to it.

const place = "the path";
const form = 1;

/** The path as far as it was walked. */
export interface KeptWork {
  /** What changed what lies on the desk, in turn. */
  readonly log: readonly TaskDone[];
  readonly files: readonly string[];
  readonly reached: StepId;
}

let store: UseStore | null = null;
const opened = (): UseStore => {
  store ??= createStore("pulley-outcomes", "workbench");
  return store;
};

/** What was kept; null where nothing was, or where the browser keeps nothing. */
export async function keptWork(): Promise<KeptWork | null> {
  try {
    const kept = await get<KeptWork & { readonly form: number }>(place, opened());
    return kept?.form === form ? kept : null;
  } catch {
    return null;
  }
}

/** Keeps the work. @returns whether the browser took it: its storage may be full, or forbidden */
export async function keepWork(work: KeptWork): Promise<boolean> {
  try {
    await set(place, { form, ...work }, opened());
    return true;
  } catch {
    return false;
  }
}

/** Forgets what was kept. */
export async function forgetWork(): Promise<void> {
  try {
    await clear(opened());
  } catch {
    // where storage is forbidden, nothing was kept
  }
}
