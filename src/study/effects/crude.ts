import { differenceOf, productLimit, restrictedMean, shareAt } from "../../statistics/index.js";
import { estimateOf, missing } from "../estimates.js";
import { type Group, timeToEventOf } from "../groups.js";
import type { Pair } from "../pairs.js";
import type { Plan } from "../plan.js";
import { daysOf } from "../question-of.js";
import type { EffectResult } from "../results.js";
import { effectOf } from "./effect.js";

/** Difference in the share back at each landmark, compared less reference, groups as they are. */
export function crudeLandmarkDifferences(pair: Pair, plan: Plan): EffectResult[] {
  const curveOf = ({ records }: Group) =>
    productLimit(timeToEventOf(records, pair.clustered), { level: plan.confidence_level });
  const compared = curveOf(pair.compared);
  const reference = curveOf(pair.reference);
  return plan.landmarks_weeks.map((week) => {
    const sides = [compared, reference].map((curve) => shareAt(curve, daysOf(week)));
    const silent = sides.find(({ reason }) => reason !== null)?.reason;
    const [a, b] = sides.map(({ returned, standardError }) => ({
      estimate: returned,
      // where the curve has come to its end nothing is left to vary by Greenwood's formula
      standardError: returned === 1 ? 0 : standardError,
    }));
    const found = differenceOf(a!, b!, { level: plan.confidence_level });
    return effectOf(pair, plan, {
      measure: "landmark_difference",
      unit: "share",
      at_day: daysOf(week),
      main: week === plan.main_landmark_weeks,
      estimate: silent
        ? missing(silent)
        : estimateOf({
            value: found.difference,
            lower: found.lower,
            upper: found.upper,
            reason: found.reason,
          }),
      standard_error: found.standardError,
      p: found.p,
      method: "product_limit",
    });
  });
}

/** Difference in restricted mean days to the milestone, compared less reference, groups as they are. */
export function crudeRestrictedMeanDifference(pair: Pair, plan: Plan): EffectResult {
  const horizon = daysOf(plan.horizon_weeks);
  const [a, b] = [pair.compared, pair.reference].map(({ records }) =>
    restrictedMean(timeToEventOf(records, pair.clustered), { horizon, level: plan.confidence_level }),
  );
  const found = differenceOf(a!, b!, { level: plan.confidence_level });
  const beyond = a!.beyondFollowUp || b!.beyondFollowUp;
  return effectOf(pair, plan, {
    measure: "restricted_mean_difference",
    unit: "d",
    at_day: horizon,
    main: true,
    estimate: beyond
      ? missing("beyond-follow-up")
      : estimateOf({ value: found.difference, lower: found.lower, upper: found.upper, reason: found.reason }),
    standard_error: beyond ? null : found.standardError,
    p: beyond ? null : found.p,
    method: "product_limit",
  });
}
