import { checkColumn, checkSameLength } from "../arguments.js";
import { checkTimeToEvent } from "../survival/time-to-event.js";

/** Rows with the group of each, and a stratum where the comparison is within strata. Weights and clusters are not used here. */
export interface GroupedTimes {
  readonly times: ArrayLike<number>;
  readonly events: ArrayLike<number>;
  readonly entries?: ArrayLike<number>;
  /** Whole numbers. */
  readonly groups: ArrayLike<number>;
  /** Whole numbers. */
  readonly strata?: ArrayLike<number>;
}

/**
 * What each event time counts for: 1; the number at risk; its square root; or S(t-)^rho (1 - S(t-))^gamma, S being the curve of all
 * groups pooled within the stratum, just before t.
 */
export type TimeWeight =
  | "equal"
  | "at-risk"
  | "root-at-risk"
  | { readonly rho: number; readonly gamma?: number };

/** @throws ArgumentError naming the column and index at fault */
export function checkGroupedTimes(columns: GroupedTimes): void {
  const onlyTimes = {
    times: columns.times,
    events: columns.events,
    ...(columns.entries && { entries: columns.entries }),
  };
  checkTimeToEvent(onlyTimes);
  const times = { name: "times", values: columns.times };
  const groups = { name: "groups", values: columns.groups };
  checkSameLength(groups, times);
  checkColumn(groups, "code");
  if (columns.strata === undefined) return;
  const strata = { name: "strata", values: columns.strata };
  checkSameLength(strata, times);
  checkColumn(strata, "code");
}
