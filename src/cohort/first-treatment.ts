import type { Treatment } from "../schema/terms.js";

/** The first treatment of interest and its day number (1970-01-01 = 0). */
export interface FirstTreatment {
  /**
   * `several` where two different ones began on one day, `order_not_known` where a start is missing that would tell,
   * `not_read` where the first is recorded and it is not known which treatment it was.
   */
  readonly treatment: Treatment | "several" | "order_not_known" | "not_read";
  /** Null where the start was not recorded. */
  readonly day: number | null;
  /** Whether the day is that of the injury, taken because the start was not recorded. */
  readonly isAssumed: boolean;
}

/** What began before the first treatment of interest. */
export interface EarlierTreatments {
  /** Other treatments that began before it, each once, in the order of the terms. */
  readonly treatments: readonly Treatment[];
  /** Whether another treatment has neither a start nor a place in order that would tell if it began before. */
  readonly isNotKnown: boolean;
}
