import {
  differenceOf,
  productLimit,
  restrictedMean,
  shareAt,
  shareDifference,
} from "../../statistics/index.js";
import { estimateOf, missing, smallSample } from "../estimates.js";
import type { ExactEffect } from "../exact-results.js";
import { type Group, timeToEventOf, unitsAmong } from "../groups.js";
import type { Pair } from "../pairs.js";
import type { Plan } from "../plan.js";
import { daysOf } from "../question-of.js";
import { effectOf } from "./effect.js";

/** Difference in the share back at each landmark, compared less reference, groups as they are. */
export function crudeLandmarkDifferences(pair: Pair, plan: Plan): ExactEffect[] {
  const curveOf = ({ records }: Group) =>
    productLimit(timeToEventOf(records, pair.clustered), { level: plan.confidence_level });
  const compared = curveOf(pair.compared);
  const reference = curveOf(pair.reference);
  return plan.landmarks_weeks.map((week) => {
    const sides = [
      { ...shareAt(compared, daysOf(week)), n: compared.n },
      { ...shareAt(reference, daysOf(week)), n: reference.n },
    ] as const;
    const silent = sides.find(({ reason }) => reason !== null)?.reason;
    const common = {
      measure: "landmark_difference",
      unit: "share",
      at_day: daysOf(week),
      main: week === plan.main_landmark_weeks,
      method: "product_limit",
    } as const;
    if (silent)
      return effectOf(pair, plan, { ...common, estimate: missing(silent), standard_error: null, p: null });
    const [a, b] = sides.map((side) => ({ ...side, returned: side.returned! }));
    const found = shareDifference(a!, b!, { level: plan.confidence_level });
    return effectOf(pair, plan, {
      ...common,
      estimate: estimateOf({ ...found, value: found.estimate }),
      // where the curve has come to its end nothing is left to vary by Greenwood's formula
      standard_error: Math.hypot(a!.standardError ?? 0, b!.standardError ?? 0),
      p: found.p,
    });
  });
}

/** Difference in restricted mean days to the milestone, compared less reference, groups as they are. */
export function crudeRestrictedMeanDifference(pair: Pair, plan: Plan): ExactEffect {
  const horizon = daysOf(plan.horizon_weeks);
  const [a, b] = [pair.compared, pair.reference].map(({ records }) =>
    restrictedMean(timeToEventOf(records, pair.clustered), { horizon, level: plan.confidence_level }),
  );
  const difference = differenceOf(a!, b!, { level: plan.confidence_level });
  const beyond = a!.beyondFollowUp || b!.beyondFollowUp;
  const found = smallSample(difference, { units: unitsAmong(pair.records, pair.clustered), curves: 2 }, plan);
  return effectOf(pair, plan, {
    measure: "restricted_mean_difference",
    unit: "d",
    at_day: horizon,
    main: true,
    estimate: beyond ? missing("beyond-follow-up") : found.estimate,
    standard_error: beyond ? null : difference.standardError,
    p: beyond ? null : found.p,
    method: "product_limit",
  });
}
