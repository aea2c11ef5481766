import type { Citation } from "../citations.js";

/** A method of the layer: where it is, what it is checked against, where it is published. */
export interface Method {
  readonly name: string;
  /** The exported functions that compute it. */
  readonly functions: readonly string[];
  /** Said after the functions, where they compute other methods as well or not all are named. */
  readonly detail?: string;
  /** Files or folders below `src/statistics/`. */
  readonly files: readonly string[];
  /** Cases of the reference data (`tests/reference/data/`), or what else its numbers are held against. */
  readonly checkedAgainst: string;
  readonly sources: readonly Citation[];
  /** In place of a publication, where there is none to cite. */
  readonly sourceNote?: string;
}
