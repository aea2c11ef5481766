import type { ExactResults } from "./exact-results.js";
import type { Warning } from "./results.js";

/** What a warning is found in. */
export type SoFar = Omit<ExactResults, "warnings" | "small_cells">;

/** A warning before it is computed what it could do. */
export type Found = Omit<Warning, "could_move">;

export const warn = (code: Warning["code"], facts: Warning["facts"] = {}): Found => ({ code, facts });
