import { baselineAdjusted, welch } from "../../statistics/index.js";
import { differenceOverPersons, personCodes } from "../change-over-persons.js";
import { completePairs, type DistanceBeforeAfter } from "../distances.js";
import { estimateOf, missing } from "../estimates.js";
import type { ExactEffect } from "../exact-results.js";
import type { Pair } from "../pairs.js";
import type { Plan } from "../plan.js";
import { effectOf } from "./effect.js";

/** Difference in the change of the tendon-phalanx distance: crude, and adjusted for the distance at baseline. */
export function distanceEffects(pair: Pair, plan: Plan): ExactEffect[] {
  const compared = completePairs(pair.compared.records, plan);
  const reference = completePairs(pair.reference.records, plan);
  if (compared.length + reference.length === 0) return [];
  const common = {
    measure: "distance_change_difference",
    unit: "mm",
    n: { compared: compared.length, reference: reference.length },
    events: { compared: 0, reference: 0 },
  } as const;
  return [
    effectOf(pair, plan, {
      ...common,
      ...crudeParts(compared, reference, plan),
    }),
    effectOf(pair, plan, {
      ...common,
      adjusted_for: ["distance at baseline"],
      main: true,
      ...adjustedParts(compared, reference, plan),
      method: "baseline_adjusted_regression",
    }),
  ];
}

/** Means compared: with unequal variances, or where a person has several fingers here over persons. */
function crudeParts(
  compared: readonly DistanceBeforeAfter[],
  reference: readonly DistanceBeforeAfter[],
  { confidence_level: level }: Plan,
) {
  const rows = [...compared, ...reference];
  const clusters = personCodes(rows);
  if (clusters === undefined || compared.length === 0 || reference.length === 0) {
    const found = welch(compared.map(changeOf), reference.map(changeOf), { level });
    const { difference: value, lower, upper, reason, standardError, p } = found;
    const estimate = estimateOf({ value, lower, upper, reason });
    return { estimate, standard_error: standardError, p, method: "welch", clustered: false } as const;
  }
  const groups = rows.map((_, row) => (row < compared.length ? 1 : 0));
  const found = differenceOverPersons(rows.map(changeOf), { groups, clusters, level });
  return { ...found, method: "clustered_means", clustered: true } as const;
}

const changeOf = ({ beforeMm, afterMm }: DistanceBeforeAfter): number => afterMm - beforeMm;

function adjustedParts(
  compared: readonly DistanceBeforeAfter[],
  reference: readonly DistanceBeforeAfter[],
  plan: Plan,
) {
  if (compared.length === 0 || reference.length === 0) {
    return { estimate: missing("one-group"), standard_error: null, p: null, clustered: false };
  }
  const rows = [...compared, ...reference];
  const clusters = personCodes(rows);
  const fit = baselineAdjusted(
    {
      baseline: rows.map(({ beforeMm }) => beforeMm),
      followUp: rows.map(({ afterMm }) => afterMm),
      groups: [...compared.map(() => 1), ...reference.map(() => 0)],
      ...(clusters && { clusters }),
    },
    { reference: 0, level: plan.confidence_level, ...(clusters && { variance: "reduced-bias" }) },
  );
  const { difference, lower, upper, standardError, p, reason } = fit.differences[0]!;
  return {
    estimate: estimateOf({ value: difference, lower, upper, reason: reason ?? fit.reason }),
    standard_error: standardError,
    p,
    clustered: clusters !== undefined,
  };
}
