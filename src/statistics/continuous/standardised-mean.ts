import { checkColumn, checkSameLength } from "../shared/arguments.js";
import { logGamma, normalCritical } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import {
  checkColumnNames,
  type LevelOption,
  levelOption,
  type NamesOf,
  readOptions,
} from "../shared/options.js";
import { momentsOf } from "./describe.js";
import { shiftLimits } from "./noncentral-t.js";
import { spreadIsRounding } from "./spread-is-rounding.js";
import { studentT } from "./student-t.js";
import type { TwoSamples } from "./two-samples.js";
import { twoSamplesNames } from "./two-samples.js";

/** Difference of two means in standard deviations, with the small-sample correction. */
export interface StandardisedMeanDifference {
  /** (mean_a - mean_b) over the pooled standard deviation. */
  readonly d: number | null;
  /** The correction by gamma functions, below 1. */
  readonly correction: number | null;
  /** 1 - 3 / (4 df - 1), the usual approximation of it. */
  readonly approximateCorrection: number | null;
  /** d times the correction. */
  readonly g: number | null;
  /** Of g: 1/n_a + 1/n_b + g^2 / (2 (n_a + n_b)). */
  readonly variance: number | null;
  /** g -+ z times the root of its variance. */
  readonly normal: readonly [number, number] | null;
  /** Limits of d by the distribution of t with a shift. */
  readonly exactOfD: readonly [number, number] | null;
  /** The same, corrected. */
  readonly exactOfG: readonly [number, number] | null;
  readonly level: number;
  readonly n: readonly [number, number];
  readonly reason: Reason | null;
}

/**
 * Factor that takes the small-sample bias off a standardised difference: Gamma(df/2) / (sqrt(df/2) Gamma((df-1)/2)). Null for df below 2.
 *
 * @source Hedges 1981, J Educ Stat 6:107
 */
export function smallSampleCorrection(df: number): number | null {
  if (df < 2) return null;
  // the two log gammas share nearly all their digits for large df
  if (df > 1e5) return 1 - 3 / (4 * df - 1);
  return Math.exp(logGamma(df / 2) - logGamma((df - 1) / 2)) / Math.sqrt(df / 2);
}

/**
 * Standardised difference of two independent means, a - b, corrected for small samples, with three intervals.
 *
 * d = (mean_a - mean_b) / s, s pooled; g = J d, J by gamma functions. The normal interval uses the variance of g; the exact ones invert
 * the distribution of t with a shift (exact for normal values of equal variance).
 *
 * @returns nulls with `no-rows` where a side is empty, `too-few-rows` with fewer than four values in all, `no-variance` without spread
 * @throws ArgumentError naming the side and index of a value that is not finite, or the level
 * @source Hedges 1981, J Educ Stat 6:107; Steiger & Fouladi 1997, in What If There Were No Significance Tests?
 */
export function standardisedMeanDifference(
  samples: TwoSamples,
  options: LevelOption = {},
): StandardisedMeanDifference {
  checkColumnNames(twoSamplesNames, { samples });
  const { level } = readOptions(levelOption, options);
  const compared = studentT(samples, { level });
  const n = compared.n;
  const df = n[0] + n[1] - 2;
  const correction = smallSampleCorrection(df);
  if (compared.t === null || correction === null) {
    const none = { d: null, correction: null, approximateCorrection: null, g: null, variance: null };
    const reason = compared.reason ?? "too-few-rows";
    return { ...none, normal: null, exactOfD: null, exactOfG: null, level, n, reason };
  }
  const root = Math.sqrt(1 / n[0] + 1 / n[1]);
  const d = compared.t * root;
  const g = correction * d;
  const variance = 1 / n[0] + 1 / n[1] + (g * g) / (2 * (n[0] + n[1]));
  const half = normalCritical(level) * Math.sqrt(variance);
  const shifts = shiftLimits(compared.t, { df, level });
  const exactOfD = [shifts[0] * root, shifts[1] * root] as const;
  return {
    d,
    correction,
    approximateCorrection: 1 - 3 / (4 * df - 1),
    g,
    variance,
    normal: [g - half, g + half],
    exactOfD,
    exactOfG: [correction * exactOfD[0], correction * exactOfD[1]],
    level,
    n,
    reason: null,
  };
}

/** Mean change within pairs in standard deviations. */
export interface StandardisedChange {
  /** Over the standard deviation of the changes. */
  readonly byChange: number | null;
  /** Over the root of the mean of the two variances, before and after. */
  readonly byAverage: number | null;
  /** Small-sample correction for n - 1 degrees of freedom; null for fewer than three pairs. */
  readonly correction: number | null;
  /** Of before and after. */
  readonly correlation: number | null;
  readonly n: number;
  readonly reason: Reason | null;
}

const standardisedChangeNames: NamesOf<Parameters<typeof standardisedChange>[0]> = {
  before: true,
  after: true,
};

/**
 * Mean change within pairs, after - before, in standard deviations: of the changes, and of the values.
 *
 * The two answer different questions; pairs that agree closely make the first large.
 *
 * @param pairs before and after: equally long, row by row the same subject
 * @returns `no-rows`, `too-few-rows` (one pair); a figure is null with `no-variance` where what it divides by is 0
 * @throws ArgumentError naming the column and index of a value at fault
 * @source Cumming 2012, Understanding the New Statistics, chapter 11
 */
export function standardisedChange(pairs: {
  readonly before: ArrayLike<number>;
  readonly after: ArrayLike<number>;
}): StandardisedChange {
  checkColumnNames(standardisedChangeNames, { pairs });
  const before = { name: "before", values: pairs.before };
  const after = { name: "after", values: pairs.after };
  checkSameLength(after, before);
  checkColumn(before, "finite");
  checkColumn(after, "finite");
  const n = before.values.length;
  const nothing = { byChange: null, byAverage: null, correction: null, correlation: null, n };
  if (n < 2) return { ...nothing, reason: n === 0 ? "no-rows" : "too-few-rows" };
  const change = Array.from(after.values, (value, row) => value - before.values[row]!);
  const of = { change: momentsOf(change), before: momentsOf(pairs.before), after: momentsOf(pairs.after) };
  const spread = (variance: number | null): number => Math.sqrt(variance ?? 0);
  const average = spread(((of.before.variance ?? 0) + (of.after.variance ?? 0)) / 2);
  const rounding = spreadIsRounding(spread(of.change.variance), { first: pairs.before, second: pairs.after });
  const changes = rounding ? 0 : spread(of.change.variance);
  let products = 0;
  for (let row = 0; row < n; row++)
    products += (before.values[row]! - of.before.mean) * (after.values[row]! - of.after.mean);
  const scale = spread(of.before.variance) * spread(of.after.variance) * (n - 1);
  return {
    byChange: changes > 0 ? of.change.mean / changes : null,
    byAverage: average > 0 ? of.change.mean / average : null,
    correction: smallSampleCorrection(n - 1),
    correlation: scale > 0 ? products / scale : null,
    n,
    reason: changes > 0 && scale > 0 ? null : "no-variance",
  };
}
