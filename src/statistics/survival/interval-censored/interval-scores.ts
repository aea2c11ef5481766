import type { IntervalFit } from "./interval-curve.js";

/**
 * - `log-rank`: for right-censored data the scores of the log-rank test, so that their sum in a group is observed less expected events
 * - `proportional-hazards`: derivative of the interval-censored likelihood by the log hazard ratio at no effect
 */
export const intervalScoreKinds = ["log-rank", "proportional-hazards"] as const;
export type IntervalScores = (typeof intervalScoreKinds)[number];

/**
 * For each number of innermost intervals passed, S times its logarithm; the log-rank scores take the logarithm of the curve that has the same
 * steps of hazard, -sum of mass / share before.
 */
function shareTimesLog(mass: Float64Array, kind: IntervalScores): Float64Array {
  let hazard = 0;
  return mass.map((sum, b) => {
    const share = 1 - sum;
    if (b > 0) hazard += (sum - mass[b - 1]!) / (1 - mass[b - 1]! || 1);
    if (!(share > 0)) return 0;
    return share * (kind === "log-rank" ? -hazard : Math.log(share));
  });
}

/** Score of each row: [h(S(left)) - h(S(right))] / [S(left) - S(right)] with h as above; 0 for a row of weight 0. They sum to 0. */
export function scoresOfRows({ innermost, maximum }: IntervalFit, kind: IntervalScores): Float64Array {
  const { first, last } = innermost;
  const { mass } = maximum;
  const h = shareTimesLog(mass, kind);
  return Float64Array.from(first, (start, row) => {
    if (start < 0) return 0;
    const end = last[row]! + 1;
    return (h[start]! - h[end]!) / (mass[end]! - mass[start]!);
  });
}
