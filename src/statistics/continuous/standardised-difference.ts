import { factorSymmetric, quadraticForm } from "../linear/symmetric.js";
import { checkColumn, checkSameLength } from "../shared/arguments.js";
import type { Figure } from "../shared/figure.js";
import { momentsOf } from "./describe.js";

/**
 * Standardised difference of a numeric characteristic, a - b: (mean_a - mean_b) / sqrt((s_a^2 + s_b^2) / 2).
 *
 * Describes imbalance between groups whatever their size; no test.
 *
 * @returns `no-rows` where a side is empty, `too-few-rows` with one value on a side, `no-variance` where all are equal but the means
 *   differ; 0 where all values are the same
 * @throws ArgumentError naming the side and index of a value that is not finite
 * @source Austin 2009, Stat Med 28:3083
 */
export function standardisedDifference(a: ArrayLike<number>, b: ArrayLike<number>): Figure {
  checkColumn({ name: "a", values: a }, "finite");
  checkColumn({ name: "b", values: b }, "finite");
  if (a.length === 0 || b.length === 0) return { value: null, reason: "no-rows" };
  const one = momentsOf(a);
  const two = momentsOf(b);
  if (one.variance === null || two.variance === null) return { value: null, reason: "too-few-rows" };
  const spread = Math.sqrt((one.variance + two.variance) / 2);
  const difference = one.mean - two.mean;
  if (spread > 0) return { value: difference / spread };
  return difference === 0 ? { value: 0 } : { value: null, reason: "no-variance" };
}

/**
 * Standardised difference of a characteristic with two or more categories, from counts; 0 or more.
 *
 * sqrt((t - c)' S^-1 (t - c)) over all categories but the first, t and c being the shares in a and b, and S the mean of the two
 * multinomial covariance matrices. For two categories this is |p_a - p_b| / sqrt((p_a (1 - p_a) + p_b (1 - p_b)) / 2). A category that
 * nobody is in is passed over.
 *
 * @param a counts by category, in the same order as b
 * @returns `no-rows` where a side is empty; 0 where everybody is in one category; `no-variance` where the two sides share no spread
 * @throws ArgumentError naming the side and index of a count at fault
 * @source Yang & Dalton 2012, A unified approach to measuring the effect size between two groups (conference paper 335-2012)
 */
export function standardisedDifferenceOfShares(a: ArrayLike<number>, b: ArrayLike<number>): Figure {
  checkSameLength({ name: "b", values: b }, { name: "a", values: a });
  checkColumn({ name: "a", values: a }, "not negative");
  checkColumn({ name: "b", values: b }, "not negative");
  const one = sharesOf(a);
  const two = sharesOf(b);
  if (one === null || two === null) return { value: null, reason: "no-rows" };
  const used = one.map((_, k) => k).filter((k) => one[k]! + two[k]! > 0);
  const rest = used.slice(1);
  const size = rest.length;
  if (size === 0) return { value: 0 };
  const apart = rest.map((k) => one[k]! - two[k]!);
  const covariance = new Float64Array(size * size);
  rest.forEach((k, i) => {
    rest.forEach((l, j) => {
      const own = (p: readonly number[]): number => (k === l ? p[k]! : 0) - p[k]! * p[l]!;
      covariance[i * size + j] = (own(one) + own(two)) / 2;
    });
  });
  const factor = factorSymmetric(covariance, { size, tolerance: 1e-12 });
  if (factor.kept.length < size) return { value: null, reason: "no-variance" };
  return { value: Math.sqrt(quadraticForm(factor, apart)) };
}

function sharesOf(counts: ArrayLike<number>): number[] | null {
  const list = Array.from(counts);
  const total = list.reduce((sum, count) => sum + count, 0);
  return total > 0 ? list.map((count) => count / total) : null;
}
