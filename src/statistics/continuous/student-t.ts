import { checkColumnNames, type LevelOption, levelOption, readOptions } from "../shared/options.js";
import { momentsOf } from "./describe.js";
import { byStudent, type MeanDifference, withoutSpread } from "./mean-comparison.js";
import { checkTwoSamples, type TwoSamples, twoSamplesNames } from "./two-samples.js";

/**
 * Difference of two independent means, a - b, taking the two variances for equal.
 *
 * s^2 = ((n_a - 1) s_a^2 + (n_b - 1) s_b^2) / (n_a + n_b - 2); SE^2 = s^2 (1 / n_a + 1 / n_b). `welch` does without that assumption.
 *
 * @returns nulls with `no-rows` where a side is empty; the difference alone with `too-few-rows` (one value on each side) or
 *   `no-variance` (no spread within either side)
 * @throws ArgumentError naming the side and index of a value that is not finite, or the level
 * @source Student 1908, Biometrika 6:1
 * @example
 * studentT({ a: [1, 2, 3], b: [2, 3, 4] }).t // => -1.224744871391589
 */
export function studentT(samples: TwoSamples, options: LevelOption = {}): MeanDifference {
  checkColumnNames(twoSamplesNames, { samples });
  const { level } = readOptions(levelOption, options);
  checkTwoSamples(samples);
  const { a, b } = samples;
  const common = { level, n: [a.length, b.length] as const };
  if (a.length === 0 || b.length === 0) return withoutSpread(null, common);
  const one = momentsOf(a);
  const two = momentsOf(b);
  const difference = one.mean - two.mean;
  const df = one.n + two.n - 2;
  if (df === 0) return withoutSpread(difference, common);
  const squares = (one.n - 1) * (one.variance ?? 0) + (two.n - 1) * (two.variance ?? 0);
  const standardError = Math.sqrt((squares / df) * (1 / one.n + 1 / two.n));
  return byStudent({ difference, standardError, df }, common);
}
