import { checkColumn } from "../shared/arguments.js";
import { chiSquareQuantile, tCritical } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import { type LevelOption, levelOption, readOptions } from "../shared/options.js";
import { momentsOf } from "./describe.js";

/** An estimate with its limits; null limits with the reason. */
export interface Interval {
  readonly estimate: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly level: number;
  readonly n: number;
  readonly reason: Reason | null;
}

/** Without limits. */
export const withoutLimits = (
  mean: { readonly estimate: number | null; readonly n: number; readonly level: number },
  reason: Reason,
): Interval => ({ ...mean, lower: null, upper: null, reason });

/**
 * A mean with its interval by Student's t: mean -+ t_(n-1) s / sqrt(n).
 *
 * @returns `no-rows` without values; the mean alone with `too-few-rows` (one value) or `no-variance` (all equal)
 * @throws ArgumentError naming the index of a value that is not finite, or the level
 * @source Student 1908, Biometrika 6:1
 */
export function meanInterval(values: ArrayLike<number>, options: LevelOption = {}): Interval {
  const { level } = readOptions(levelOption, options);
  checkColumn({ name: "values", values }, "finite");
  const n = values.length;
  if (n === 0) return withoutLimits({ estimate: null, n, level }, "no-rows");
  const { mean, variance } = momentsOf(values);
  if (variance === null) return withoutLimits({ estimate: mean, n, level }, "too-few-rows");
  if (variance === 0) return withoutLimits({ estimate: mean, n, level }, "no-variance");
  const half = tCritical(level, n - 1) * Math.sqrt(variance / n);
  return { estimate: mean, lower: mean - half, upper: mean + half, level, n, reason: null };
}

/**
 * A variance (n - 1) with its interval by chi-square: (n - 1) s^2 over the upper and the lower quantile. Exact for normal values, and far
 * off for skewed ones at any size. Square roots of the three figures are those of the standard deviation.
 *
 * @returns as meanInterval
 * @throws ArgumentError naming the index of a value that is not finite, or the level
 * @source Fisher 1925, Statistical Methods for Research Workers
 */
export function varianceInterval(values: ArrayLike<number>, options: LevelOption = {}): Interval {
  const { level } = readOptions(levelOption, options);
  checkColumn({ name: "values", values }, "finite");
  const n = values.length;
  if (n === 0) return withoutLimits({ estimate: null, n, level }, "no-rows");
  const { variance } = momentsOf(values);
  if (variance === null) return withoutLimits({ estimate: null, n, level }, "too-few-rows");
  if (variance === 0) return withoutLimits({ estimate: 0, n, level }, "no-variance");
  const squares = (n - 1) * variance;
  const limit = (p: number): number => squares / chiSquareQuantile(p, n - 1);
  const tail = (1 - level) / 2;
  return { estimate: variance, lower: limit(1 - tail), upper: limit(tail), level, n, reason: null };
}
