import { meanTimeInterval, shareAt } from "../statistics/index.js";
import { exactLimitsOfShare } from "../statistics/proportions/one-proportion.js";
import { estimateOf, missing } from "./estimates.js";
import type { Group } from "./groups.js";
import type { Estimate } from "./results-parts.js";
import type { Specification } from "./specification.js";

type Asked = Pick<Specification, "horizonDay" | "level">;
type OfGroup = Pick<Group, "columns" | "curve" | "restrictedMean">;

/** Mean days not yet back within the horizon; no figure where follow-up ends before it. */
export function meanTimeOf(
  group: OfGroup,
  { horizonDay: horizon, level }: Asked,
): { readonly days: Estimate; readonly standard_error: number | null } {
  const { beyondFollowUp, estimate, standardError, reason } = group.restrictedMean();
  if (beyondFollowUp) return { days: missing("beyond-follow-up"), standard_error: null };
  if (estimate === null || standardError === null)
    return { days: missing(reason ?? "no-rows"), standard_error: null };
  const { units } = group.columns;
  const interval = meanTimeInterval({ estimate, standardError }, { units, curves: 1, horizon, level });
  const days = estimateOf({ ...interval, value: estimate, reason: reason ?? interval.reason });
  const { returned } = shareAt(group.curve, horizon);
  return {
    days:
      returned === null ? days : withoutLimitsOfFew(days, { notBack: 1 - returned, units, horizon, level }),
    standard_error: standardError,
  };
}

/** Whether the interval of a group's mean time hangs on a handful of people; one of its differences from another then does as well. */
export const meanHangsOnFew = (group: OfGroup, asked: Asked): boolean =>
  meanTimeOf(group, asked).days.reason === "few-not-back";

/** Further than this many times its distance from the mean, and the upper limit is no limit: measured, tests/simulations/rarely-never-back. */
const tooFar = 2.5;

/**
 * A mean time without its limits, where they hang on how many are never back and too few were seen to tell: as many as the exact upper limit of
 * that share allows, each with all days of the horizon, would carry the mean further than 2.5 times the distance of its own upper limit. With one in
 * twenty never back, and the others back soon, no such person is among 20 in a third of draws, and the interval then never holds the truth.
 */
function withoutLimitsOfFew(
  days: Estimate,
  {
    notBack,
    units,
    horizon,
    level,
  }: {
    readonly notBack: number;
    readonly units: number;
    readonly horizon: number;
    readonly level: number;
  },
): Estimate {
  const { value, upper } = days;
  if (value === null || upper === null || notBack >= 1) return days;
  const successes = Math.round(notBack * units);
  const [, share] = exactLimitsOfShare({ successes, n: units }, level);
  const ofOthers = (value - notBack * horizon) / (1 - notBack);
  const carried = share * horizon + (1 - share) * ofOthers;
  return carried - value > tooFar * (upper - value) ? withoutLimits(days) : days;
}

/** A figure whose limits hang on too few who are never back; one that is not there keeps its reason. */
export const withoutLimits = (days: Estimate): Estimate =>
  days.value === null ? days : { value: days.value, lower: null, upper: null, reason: "few-not-back" };
