import type * as written from "./results.js";
import type { smallCell } from "./results-parts.js";

/** The same with a number in place of every count that could be left out. */
export type Exact<T> = T extends object
  ? {
      [Key in keyof T]: written.Count extends T[Key] ? Exclude<T[Key], typeof smallCell> : Exact<T[Key]>;
    }
  : T;

/**
 * Results as they are computed: every count is a number. They become the `Results` of a report when it is settled
 * what may be written of small cells.
 */
export type ExactResults = Exact<written.Results>;
export type ExactCell = Exact<written.CohortCell>;
export type ExactRow = Exact<written.CohortRow>;
export type ExactFamily = Exact<written.CurveFamily>;
export type ExactPoint = Exact<written.CurvePoint>;
export type ExactOtherEnd = Exact<written.OtherEnd>;
export type ExactStatesOverTime = Exact<written.StatesOverTime>;
export type ExactCurve = Exact<written.CurveResult>;
export type ExactDifference = Exact<written.DifferenceOverTime>;
export type ExactEffect = Exact<written.EffectResult>;
export type ExactTest = Exact<written.TestResult>;
