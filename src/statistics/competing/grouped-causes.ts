import type { NamesOf } from "../shared/options.js";
import type { TimesAndCauses } from "./causes.js";

/** Rows with the event that came first, the group of each, and a stratum where the comparison is within strata. */
export interface GroupedCauses extends TimesAndCauses {
  /** Whole numbers. */
  readonly groups: ArrayLike<number>;
  /** Whole numbers. */
  readonly strata?: ArrayLike<number>;
}

export const groupedCausesNames: NamesOf<GroupedCauses> = {
  groups: true,
  strata: true,
  times: true,
  causes: true,
};
