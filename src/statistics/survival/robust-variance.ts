import { clusterIndex, rowsByIndex } from "../shared/clusters.js";
import type { TimeToEvent } from "../shared/time-to-event.js";
import type { RiskSets } from "./risk-sets.js";

/** Part of the terms of a sum that is only rounding. */
const rounding = 1e-13;

/** Weighted count left after the events of a time; rounding of fractional weights is not a remainder. */
export function remaining(atRisk: number, events: number): number {
  const left = atRisk - events;
  return left > 1e-14 * atRisk ? left : 0;
}

/**
 * Variance of log S at each time by the infinitesimal jackknife, summed within clusters.
 *
 * The derivative of log S(t) by the weight of row i is
 *   h_i(t) = sum over u <= t at which i is at risk of (1 / (n_u - d_u) - 1 / n_u), less 1 / (n_u - d_u) if i had the event at u,
 * and the variance is the sum over clusters of (sum of w_i h_i(t))^2. Written as A + B g(t) for each cluster, where g is the
 * running sum over times, A and B change only when one of its rows enters or leaves; so the work is linear in rows and no table
 * of rows by times is ever held. Infinity from the time at which the curve reaches 0.
 *
 * @source Efron & Stein 1981, Ann Stat 9:586 (jackknife); Lin & Wei 1989, J Am Stat Assoc 84:1074 (sums within clusters)
 */
export function robustVarianceOfLog(riskSets: RiskSets, columns: TimeToEvent): Float64Array {
  const { times, atRisk, events, rowTime, rowStart } = riskSets;
  const count = times.length;
  const cluster = clusterIndex(columns);
  const fixed = new Float64Array(cluster.count); // A
  const slope = new Float64Array(cluster.count); // B
  let fixedSquares = 0;
  let products = 0;
  let slopeSquares = 0;
  const change = (k: number, toFixed: number, toSlope: number): void => {
    const a = fixed[k]!;
    const b = slope[k]!;
    const newA = a + toFixed;
    const newB = b + toSlope;
    fixedSquares += newA * newA - a * a;
    products += newA * newB - a * b;
    slopeSquares += newB * newB - b * b;
    fixed[k] = newA;
    slope[k] = newB;
  };

  const leaving = rowsByIndex(rowTime, count);
  const entering = rowsByIndex(rowStart ?? new Int32Array(riskSets.n), count);
  const variance = new Float64Array(count);
  let running = 0;
  let size = 0; // largest terms so far
  for (let at = 0; at < count; at++) {
    for (let i = entering.start[at]!; i < entering.start[at + 1]!; i++) {
      const row = entering.rows[i]!;
      const weight = columns.weights?.[row] ?? 1;
      change(cluster.of[row]!, -weight * running, weight);
    }
    const left = remaining(atRisk[at]!, events[at]!);
    if (left === 0 && events[at]! > 0) return variance.fill(Number.POSITIVE_INFINITY, at);
    if (events[at]! > 0) running += 1 / left - 1 / atRisk[at]!;
    for (let i = leaving.start[at]!; i < leaving.start[at + 1]!; i++) {
      const row = leaving.rows[i]!;
      const weight = columns.weights?.[row] ?? 1;
      const own = columns.events[row] === 1 && weight > 0 ? weight / left : 0;
      change(cluster.of[row]!, weight * running - own, -weight);
    }
    size = Math.max(size, fixedSquares + Math.abs(2 * running * products) + running * running * slopeSquares);
    const sum = fixedSquares + 2 * running * products + running * running * slopeSquares;
    // rows that cancel within their cluster leave rounding behind, not a variance
    variance[at] = sum > rounding * size ? sum : 0;
  }
  return variance;
}
