import type { AlikeRows } from "./alike-rows.js";

/** Sum of weight x log(F(end) - F(start)); -Infinity where a row has no mass. */
export function logLikelihoodAt(rows: AlikeRows, mass: Float64Array): number {
  const { start, end, weight } = rows;
  let sum = 0;
  for (let i = 0; i < weight.length; i++) {
    const probability = mass[end[i]!]! - mass[start[i]!]!;
    if (!(probability > 0)) return Number.NEGATIVE_INFINITY;
    sum += weight[i]! * Math.log(probability);
  }
  return sum;
}

/**
 * For each innermost interval the sum over the rows that contain it of weight / probability. At the maximum it is at most the total weight
 * everywhere, and equal to it where there is mass.
 */
export function gradientAt(rows: AlikeRows, mass: Float64Array): Float64Array {
  const { start, end, weight, count } = rows;
  const gradient = new Float64Array(count + 1);
  for (let i = 0; i < weight.length; i++) {
    const [a, b] = [start[i]!, end[i]!];
    const ratio = weight[i]! / (mass[b]! - mass[a]!);
    gradient[a]! += ratio;
    gradient[b]! -= ratio;
  }
  for (let j = 1; j < count; j++) gradient[j]! += gradient[j - 1]!;
  return gradient.subarray(0, count);
}

/** How far the conditions for the maximum are missed, as a part of the total weight. */
export function distanceFromMaximum(
  gradient: Float64Array,
  at: { readonly mass: Float64Array; readonly total: number },
): number {
  let most = 0;
  for (let j = 0; j < gradient.length; j++) {
    const surplus = gradient[j]! / at.total - 1;
    const here = at.mass[j + 1]! > at.mass[j]! ? Math.abs(surplus) : surplus;
    if (Number.isNaN(here)) return Number.POSITIVE_INFINITY;
    if (here > most) most = here;
  }
  return most;
}

/** The least that the distance can come down to: a probability is the difference of two sums near 1 and keeps their rounding. */
export function roundingOf(rows: AlikeRows, mass: Float64Array): number {
  let least = 1;
  for (let i = 0; i < rows.weight.length; i++) {
    const probability = mass[rows.end[i]!]! - mass[rows.start[i]!]!;
    if (probability < least) least = probability;
  }
  return (4 * Number.EPSILON) / least;
}
