import { type Difference, type StandardisedCurves, standardisedCurves } from "../../statistics/index.js";
import { estimateOf, missing } from "../estimates.js";
import { timeToEventOf } from "../groups.js";
import type { Pair } from "../pairs.js";
import type { Plan } from "../plan.js";
import { daysOf } from "../question-of.js";
import type { EffectResult } from "../results.js";
import { adjustersOf, strataOf } from "../strata.js";
import { effectOf } from "./effect.js";

/**
 * Landmark and restricted-mean differences stratum for stratum (grade for grade), averaged over the strata in which
 * both groups are present, at the mix of those strata in both groups together.
 */
export function standardisedDifferences(pair: Pair, plan: Plan): EffectResult[] {
  const fields = adjustersOf(plan).strata;
  if (fields.length === 0) return [];
  const { codes, labels } = strataOf(pair.records, fields);
  const horizon = daysOf(plan.horizon_weeks);
  const curves = standardisedCurves(
    { ...timeToEventOf(pair.records, pair.clustered), groups: pair.isCompared, strata: codes },
    {
      times: plan.landmarks_weeks.map(daysOf),
      horizon,
      smallest: plan.compare.smallest_group,
      level: plan.confidence_level,
    },
  );
  const common = {
    adjusted_for: fields,
    method: "product_limit_standardised",
    strata_used: curves.used.map(({ stratum }) => labels[stratum]!),
    left_out: leftOutOf(curves, labels),
    ...countsIn(curves, { pair, codes }),
  } as const;
  const landmarks = plan.landmarks_weeks.map((week, at) =>
    effectOf(pair, plan, {
      ...common,
      measure: "landmark_difference",
      unit: "share",
      at_day: daysOf(week),
      main: week === plan.main_landmark_weeks,
      ...differenceParts(curves.shares?.[at]?.difference, curves),
    }),
  );
  const mean = effectOf(pair, plan, {
    ...common,
    measure: "restricted_mean_difference",
    unit: "d",
    at_day: horizon,
    main: true,
    ...differenceParts(curves.restrictedMean?.difference, curves),
  });
  return [...landmarks, mean];
}

function differenceParts(found: Difference | undefined, { reason }: StandardisedCurves) {
  if (found === undefined)
    return { estimate: missing(reason ?? "no-overlap"), standard_error: null, p: null };
  const { difference, lower, upper, standardError } = found;
  return {
    estimate: estimateOf({ value: difference, lower, upper, reason: found.reason }),
    standard_error: standardError,
    p: found.p,
  };
}

const leftOutOf = ({ leftOut }: StandardisedCurves, labels: readonly string[]): EffectResult["left_out"] =>
  leftOut.map(({ stratum, n, reason }) => ({ stratum: labels[stratum]!, n: n[0] + n[1], reason }));

/** Injuries, and milestones among them, in the strata that are used. */
function countsIn({ used }: StandardisedCurves, { pair, codes }: { pair: Pair; codes: Int32Array }) {
  const kept = new Set(used.map(({ stratum }) => stratum));
  const n = { compared: 0, reference: 0 };
  const events = { compared: 0, reference: 0 };
  pair.records.forEach(({ end }, row) => {
    if (!kept.has(codes[row]!)) return;
    const side = pair.isCompared[row] === 1 ? "compared" : "reference";
    n[side]++;
    if (end === "milestone") events[side]++;
  });
  return { n, events };
}
