import type { Case, Cohort, Rec, Subject } from "./cases.js";

/** What a column may hold, and so what is tried on it. */
export type Holds =
  | "finite"
  | "not negative"
  | "zero or one"
  | "code"
  | "count"
  | "p-value"
  | "end of an interval"
  | "site estimate"
  | "site variance"
  | "site share"
  | "median time";

/** One row of the table: a public function with its data. */
export interface Row {
  /** As exported, with the folder where two indexes export one name. */
  readonly name: string;
  /** The exported function itself: by it the row is found in the indexes. */
  readonly of: (...given: never[]) => unknown;
  /** What its data have; "rows" always. */
  readonly subjects: readonly Subject[];
  readonly given: (cohort: Cohort) => readonly unknown[];
  /** Columns that may be left out: by path, for the same records. */
  readonly optional?: Readonly<Record<string, (records: readonly Rec[]) => unknown>>;
  /** Every column by its path in the arguments ("0.times"), and what it may hold; with a name of its own where the path does not end in it. */
  readonly columns: Readonly<Record<string, Holds | readonly [Holds, string]>>;
  /** Single numbers by path, and values that each must refuse. */
  readonly numbers?: Readonly<Record<string, readonly unknown[]>>;
  /** Names that an error uses for a path, where they are not its last step. */
  readonly called?: Readonly<Record<string, string>>;
  /** Columns that need not be as long as others. */
  readonly ofAnyLength?: readonly string[];
  /** Columns of the well-formed arguments that may be left out. */
  readonly mayBeLeftOut?: readonly string[];
  /** Where the first argument is another's result or a function: what to walk of the answer. */
  readonly read?: (answer: never, cohort: Cohort) => unknown;
  /** Paths that may be null without a reason, as the doc comment says; `[]` for any place. */
  readonly nulls?: readonly string[];
  /** Paths whose two limits may be one number: ordered values where all are alike, bounds of what is known, a share that is 1 by definition. */
  readonly onePoint?: readonly string[];
  /**
   * What comes of each case: the reasons in the answer, joined by " + ", or "! times[3]" for an ArgumentError that names argument and index.
   * Every case not listed gets a full answer.
   */
  readonly outcomes: Readonly<Record<string, readonly Case[]>>;
}

export const level = [0, 1, Number.NaN, null] as const;
export const timeOption = [-1, Number.NaN, Number.POSITIVE_INFINITY, null] as const;
export const horizonOption = [0, -1, Number.NaN, Number.POSITIVE_INFINITY, null] as const;
export const shareOption = [0, 1, Number.NaN, null] as const;
export const seedOption = [0.5, Number.NaN, Number.POSITIVE_INFINITY, null] as const;
export const drawsOption = [0, 0.5, -1, Number.NaN, null] as const;
export const iterationsOption = [0.5, -1, Number.NaN, null] as const;
export const toleranceOption = [0, -1, Number.NaN, null] as const;
export const countNumber = [-1, 0.5, Number.NaN, Number.POSITIVE_INFINITY, null, undefined] as const;

export const pick = (records: readonly Rec[], name: keyof Rec): readonly number[] =>
  records.map((record) => record[name]);
