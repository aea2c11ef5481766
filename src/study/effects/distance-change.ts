import { baselineAdjusted, welch } from "../../statistics/index.js";
import { completePairs, type DistanceBeforeAfter } from "../distances.js";
import { estimateOf, missing } from "../estimates.js";
import type { Pair } from "../pairs.js";
import type { Plan } from "../plan.js";
import type { EffectResult } from "../results.js";
import { effectOf } from "./effect.js";

/** Difference in the change of the tendon-phalanx distance: crude, and adjusted for the distance at baseline. */
export function distanceEffects(pair: Pair, plan: Plan): EffectResult[] {
  const compared = completePairs(pair.compared.records, plan);
  const reference = completePairs(pair.reference.records, plan);
  if (compared.length + reference.length === 0) return [];
  const common = {
    measure: "distance_change_difference",
    unit: "mm",
    clustered: false,
    n: { compared: compared.length, reference: reference.length },
    events: { compared: 0, reference: 0 },
  } as const;
  const crude = welch(compared.map(changeOf), reference.map(changeOf), { level: plan.confidence_level });
  return [
    effectOf(pair, plan, {
      ...common,
      estimate: estimateOf({
        value: crude.difference,
        lower: crude.lower,
        upper: crude.upper,
        reason: crude.reason,
      }),
      standard_error: crude.standardError,
      p: crude.p,
      method: "welch",
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

const changeOf = ({ beforeMm, afterMm }: DistanceBeforeAfter): number => afterMm - beforeMm;

function adjustedParts(
  compared: readonly DistanceBeforeAfter[],
  reference: readonly DistanceBeforeAfter[],
  plan: Plan,
) {
  if (compared.length === 0 || reference.length === 0) {
    return { estimate: missing("one-group"), standard_error: null, p: null };
  }
  const rows = [...compared, ...reference];
  const persons = new Map(
    [...new Set(rows.map(({ person }) => person))].map((person, code) => [person, code]),
  );
  const clustered = persons.size < rows.length;
  const fit = baselineAdjusted(
    {
      baseline: rows.map(({ beforeMm }) => beforeMm),
      followUp: rows.map(({ afterMm }) => afterMm),
      groups: [...compared.map(() => 1), ...reference.map(() => 0)],
      ...(clustered ? { clusters: rows.map(({ person }) => persons.get(person)!) } : {}),
    },
    { reference: 0, level: plan.confidence_level },
  );
  const { difference, lower, upper, standardError, p, reason } = fit.differences[0]!;
  return {
    estimate: estimateOf({ value: difference, lower, upper, reason: reason ?? fit.reason }),
    standard_error: standardError,
    p,
    clustered,
  };
}
