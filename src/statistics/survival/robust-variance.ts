import { floatsOf } from "../arguments.js";
import { codeRange } from "./code-range.js";
import type { RiskSets } from "./risk-sets.js";
import type { TimeToEvent } from "./time-to-event.js";

/** Cluster number of each row, from 0 in the order in which they first appear; every row its own where no clusters are given. */
export function clusterIndex(columns: {
  readonly times: ArrayLike<number>;
  readonly clusters?: ArrayLike<number>;
}): {
  readonly of: Int32Array;
  readonly count: number;
} {
  if (columns.clusters !== undefined) return numberedInOrder(floatsOf(columns.clusters));
  const of = new Int32Array(columns.times.length);
  for (let row = 0; row < of.length; row++) of[row] = row;
  return { of, count: of.length };
}

function numberedInOrder(codes: Float64Array): { readonly of: Int32Array; readonly count: number } {
  const of = new Int32Array(codes.length);
  const range = codeRange(codes);
  let count = 0;
  if (range === null) {
    const seen = new Map<number, number>();
    for (let row = 0; row < of.length; row++) {
      const known = seen.get(codes[row]!);
      if (known === undefined) seen.set(codes[row]!, count);
      of[row] = known ?? count++;
    }
    return { of, count };
  }
  const numbers = new Int32Array(range.range); // one more than the number; 0: not seen yet
  for (let row = 0; row < of.length; row++) {
    const place = codes[row]! - range.low;
    if (numbers[place] === 0) numbers[place] = ++count;
    of[row] = numbers[place]! - 1;
  }
  return { of, count };
}

/** The rows in order of an index from 0 to count - 1: first row of k is at start[k]. Stable, linear. */
export function rowsByIndex(index: Int32Array, count: number): { rows: Int32Array; start: Int32Array } {
  const start = new Int32Array(count + 1);
  for (let row = 0; row < index.length; row++) start[index[row]! + 1]!++;
  for (let k = 0; k < count; k++) start[k + 1]! += start[k]!;
  const next = start.slice();
  const rows = new Int32Array(index.length);
  for (let row = 0; row < index.length; row++) rows[next[index[row]!]!++] = row;
  return { rows, start };
}

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
