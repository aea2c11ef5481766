import type { LinkedInjury, OutcomeRecord } from "../../cohort/record.js";

/** An analysed injury beside the rows it was made from. */
export interface Analysed {
  readonly record: OutcomeRecord;
  readonly linked: LinkedInjury;
}
