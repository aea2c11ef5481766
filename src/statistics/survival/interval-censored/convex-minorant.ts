import type { AlikeRows } from "./alike-rows.js";
import { logLikelihoodAt } from "./likelihood.js";

/** Weighted isotonic regression of values 1 .. count - 1 in place (pool adjacent violators); entries 0 and count are left alone. */
function makeAscending(values: Float64Array, weights: Float64Array, work: { block: Int32Array }): void {
  const { block } = work; // block[k]: one past the last index of pooled block k
  const last = values.length - 1;
  let blocks = 0;
  for (let i = 1; i < last; i++) {
    let value = values[i]!;
    let weight = weights[i]!;
    let begin = i;
    while (blocks > 0) {
      const before = block[blocks - 1]!;
      if (values[before]! < value) break;
      const sum = weight + weights[before]!;
      value += (values[before]! - value) * (weights[before]! / sum);
      weight = sum;
      begin = before;
      blocks--;
    }
    values[begin] = value;
    weights[begin] = weight;
    block[blocks++] = begin;
  }
  for (let k = blocks - 1, end = last; k >= 0; k--) {
    const begin = block[k]!;
    values.fill(values[begin]!, begin, end);
    end = begin;
  }
}

/** Part of the way below which a step that does not help is given up. */
const shortestPart = 1e-9;

/**
 * One step of the iterative convex minorant: Newton's step on the sums F(1) .. F(count - 1) with the diagonal of the information alone,
 * brought back to ascending values between 0 and 1, shortened until the likelihood does not fall.
 *
 * @returns the new sums, or the old ones where no step helps
 * @source Groeneboom & Wellner 1992, Information Bounds and Nonparametric Maximum Likelihood Estimation; Jongbloed 1998,
 *   J Comput Graph Stat 7:310 (shortened steps)
 */
export function convexMinorantStep(rows: AlikeRows, mass: Float64Array): Float64Array {
  const { start, end, weight, count } = rows;
  const slope = new Float64Array(count + 1);
  const information = new Float64Array(count + 1);
  for (let i = 0; i < weight.length; i++) {
    const [a, b] = [start[i]!, end[i]!];
    const probability = mass[b]! - mass[a]!;
    const ratio = weight[i]! / probability;
    slope[a]! -= ratio;
    slope[b]! += ratio;
    information[a]! += ratio / probability;
    information[b]! += ratio / probability;
  }
  const target = mass.slice();
  for (let b = 1; b < count; b++) target[b]! += slope[b]! / information[b]!;
  makeAscending(target, information, { block: new Int32Array(count + 1) });
  for (let b = 1; b < count; b++) target[b] = Math.min(1, Math.max(0, target[b]!));
  const before = logLikelihoodAt(rows, mass);
  const trial = new Float64Array(count + 1);
  for (let part = 1; part > shortestPart; part /= 2) {
    for (let b = 0; b <= count; b++) trial[b] = mass[b]! + part * (target[b]! - mass[b]!);
    if (logLikelihoodAt(rows, trial) > before) return trial;
  }
  return mass;
}
