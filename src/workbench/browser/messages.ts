import type { TaskName } from "../engine/tasks.js";
import type { Assets } from "./machine.js";

/** What the page sends to the engine. */
export type ToWorker =
  | { readonly kind: "start"; readonly assets: Assets }
  | { readonly kind: "pixels"; readonly code: Uint8Array }
  | { readonly kind: "run"; readonly id: number; readonly task: TaskName; readonly input: unknown };

/** What it hears from it. */
export type FromWorker =
  | { readonly kind: "progress"; readonly step: string }
  | { readonly kind: "needs-pixels" }
  | { readonly kind: "done"; readonly id: number; readonly result: unknown }
  | { readonly kind: "failed"; readonly id: number; readonly isInput: boolean; readonly message: string };
