import { checkColumn, checkSameLength } from "../shared/arguments.js";
import {
  checkedBy,
  checkWord,
  type NamesOf,
  needed,
  number,
  type OptionsOf,
  readNested,
  withDefault,
} from "../shared/options.js";
import { checkTimeToEvent } from "../shared/time-to-event.js";

/** Rows with the group of each, and a stratum where the comparison is within strata. Weights are not used here. */
export interface GroupedTimes {
  readonly times: ArrayLike<number>;
  readonly events: ArrayLike<number>;
  readonly entries?: ArrayLike<number>;
  /** Whole numbers. */
  readonly groups: ArrayLike<number>;
  /** Whole numbers. */
  readonly strata?: ArrayLike<number>;
  /** Whole numbers; rows with the same number belong together (fingers of one person). */
  readonly clusters?: ArrayLike<number>;
}

export const groupedTimesNames: NamesOf<GroupedTimes> = {
  times: true,
  events: true,
  entries: true,
  groups: true,
  strata: true,
  clusters: true,
};

/**
 * What each event time counts for: 1; the number at risk; its square root; the product of (1 - d / (n + 1)) over the times up to and
 * including this one ("peto-prentice"); or S(t-)^rho (1 - S(t-))^gamma, S being the curve of all groups pooled within the stratum, just before t.
 */
const timeWeights = ["equal", "at-risk", "root-at-risk", "peto-prentice"] as const;
const powers = {
  /** Of S(t-). */
  rho: needed(number("not negative")),
  /** Of 1 - S(t-). Default 0. */
  gamma: number("not negative", 0),
};

export type TimeWeight = (typeof timeWeights)[number] | OptionsOf<typeof powers>;

export const timeWeight = withDefault(
  checkedBy<TimeWeight>((value, name) => {
    if (typeof value !== "object" || value === null) checkWord({ name, value }, timeWeights);
    else readNested(powers, { name, value: value as OptionsOf<typeof powers> });
  }),
  "equal",
);

/** @throws ArgumentError naming the column and index at fault */
export function checkGroupedTimes(columns: GroupedTimes): void {
  const onlyTimes = {
    times: columns.times,
    events: columns.events,
    ...(columns.entries !== undefined && { entries: columns.entries }),
    ...(columns.clusters !== undefined && { clusters: columns.clusters }),
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
