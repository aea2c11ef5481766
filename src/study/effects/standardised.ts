import { type Difference, type StandardisedCurves, standardisedCurves } from "../../statistics/index.js";
import { missing, smallSample } from "../estimates.js";
import type { ExactEffect } from "../exact-results.js";
import { timeToEventOf, unitsAmong } from "../groups.js";
import type { Pair } from "../pairs.js";
import type { Plan } from "../plan.js";
import { daysOf } from "../question-of.js";
import { adjustersOf, strataOf } from "../strata.js";
import { effectOf } from "./effect.js";

/**
 * Landmark and restricted-mean differences stratum for stratum (grade for grade), averaged over the strata in which
 * both groups are present, at the mix of those strata in both groups together.
 */
export function standardisedDifferences(pair: Pair, plan: Plan): ExactEffect[] {
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
  const units = unitsAmong(recordsIn(curves, { pair, codes }), pair.clustered);
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
      ...differenceParts(curves.shares?.[at]?.difference, { curves, units }, plan),
    }),
  );
  const mean = effectOf(pair, plan, {
    ...common,
    measure: "restricted_mean_difference",
    unit: "d",
    at_day: horizon,
    main: true,
    ...differenceParts(curves.restrictedMean?.difference, { curves, units }, plan),
  });
  return [...landmarks, mean];
}

function differenceParts(
  found: Difference | undefined,
  at: { curves: StandardisedCurves; units: number },
  plan: Plan,
) {
  const { curves, units } = at;
  if (found === undefined) {
    return { estimate: missing(curves.reason ?? "no-overlap"), standard_error: null, p: null };
  }
  // a curve for each group in each stratum
  const { estimate, p } = smallSample(found, { units, curves: 2 * curves.used.length }, plan);
  return { estimate, standard_error: found.standardError, p };
}

const leftOutOf = ({ leftOut }: StandardisedCurves, labels: readonly string[]): ExactEffect["left_out"] =>
  leftOut.map(({ stratum, n, reason }) => ({ stratum: labels[stratum]!, n: n[0] + n[1], reason }));

/** Injuries of the strata that are used. */
function recordsIn({ used }: StandardisedCurves, { pair, codes }: { pair: Pair; codes: Int32Array }) {
  const kept = new Set(used.map(({ stratum }) => stratum));
  return pair.records.filter((_, row) => kept.has(codes[row]!));
}

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
