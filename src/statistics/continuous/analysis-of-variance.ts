import { fUpperTail } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import { checkColumnNames, type OptionsOf, oneOf, readOptions } from "../shared/options.js";
import { type GroupedValues, groupedValuesNames, groupsOf } from "./groups-of-values.js";

/** Analysis of variance of one factor. */
export interface AnalysisOfVariance {
  /** Codes of the groups, ascending, with their sizes and means. */
  readonly groups: readonly number[];
  readonly n: readonly number[];
  readonly means: readonly number[];
  readonly f: number | null;
  readonly df: number;
  /** Whole for equal variances, any number for unequal ones. */
  readonly dfWithin: number | null;
  readonly p: number | null;
  /** Sums of squares between and within the groups, whatever the variances. */
  readonly between: number | null;
  readonly within: number | null;
  readonly variances: "equal" | "unequal";
  readonly reason: Reason | null;
}

export const analysisOfVarianceOptions = {
  /** Of the values within groups. Default "unequal". */
  variances: oneOf(["equal", "unequal"], "unequal"),
};

export interface AnalysisOfVarianceOptions extends OptionsOf<typeof analysisOfVarianceOptions> {}

/**
 * Analysis of variance of one factor: are the means of several independent groups alike?
 *
 * Equal variances: F = (between / (k - 1)) / (within / (N - k)). Unequal: weights n_g / s_g^2, F corrected and its degrees of freedom
 * taken from the weights. Values are taken from the first one before anything is squared, so that a large common part costs no digits.
 *
 * @returns F null with `no-rows`, `one-group`, `too-few-rows` (no group with two values; unequal: a group with one) or `no-variance`
 *   (no spread within groups; unequal: within a group)
 * @throws ArgumentError naming the column and index at fault
 * @source Fisher 1925, Statistical Methods for Research Workers; Welch 1951, Biometrika 38:330
 */
export function analysisOfVariance(
  rows: GroupedValues,
  options: AnalysisOfVarianceOptions = {},
): AnalysisOfVariance {
  checkColumnNames(groupedValuesNames, { rows });
  const { variances } = readOptions(analysisOfVarianceOptions, options);
  const { codes, index } = groupsOf(rows);
  const start = rows.values[0] ?? 0;
  const found = groupMoments(rows.values, { index, count: codes.length, start });
  const { n, apart, squares } = found;
  const total = index.length;
  const middle = total > 0 ? apart.reduce((sum, mean, g) => sum + mean * n[g]!, 0) / total : 0;
  const between = apart.reduce((sum, mean, g) => sum + n[g]! * (mean - middle) ** 2, 0);
  const within = squares.reduce((sum, own) => sum + own, 0);
  const common = {
    groups: codes,
    n: Array.from(n),
    means: Array.from(apart, (mean) => start + mean),
    df: Math.max(0, codes.length - 1),
    between: total > 0 ? between : null,
    within: total > 0 ? within : null,
    variances,
  };
  const reason = whyNot(found, variances);
  if (reason) return { ...common, f: null, dfWithin: null, p: null, reason };
  const k = codes.length;
  const { f, dfWithin } =
    variances === "equal"
      ? { f: between / (k - 1) / (within / (total - k)), dfWithin: total - k }
      : unequal(found);
  const p = fUpperTail(f, { numerator: k - 1, denominator: dfWithin });
  return { ...common, f, dfWithin, p, reason: null };
}

interface GroupMoments {
  readonly n: Float64Array;
  /** Mean of each group less the starting value. */
  readonly apart: Float64Array;
  /** Squares within each group. */
  readonly squares: Float64Array;
}

function groupMoments(
  values: ArrayLike<number>,
  by: { readonly index: Int32Array; readonly count: number; readonly start: number },
): GroupMoments {
  const n = new Float64Array(by.count);
  const apart = new Float64Array(by.count);
  const squares = new Float64Array(by.count);
  by.index.forEach((group, row) => {
    n[group]! += 1;
    apart[group]! += values[row]! - by.start;
  });
  apart.forEach((sum, group) => {
    apart[group] = sum / n[group]!;
  });
  const left = new Float64Array(by.count);
  by.index.forEach((group, row) => {
    const residual = values[row]! - by.start - apart[group]!;
    squares[group]! += residual * residual;
    left[group]! += residual;
  });
  squares.forEach((sum, group) => {
    // what the rounding of the mean has left in the residuals
    const slip = left[group]! / n[group]!;
    apart[group]! += slip;
    squares[group] = Math.max(0, sum - n[group]! * slip * slip);
  });
  return { n, apart, squares };
}

function whyNot({ n, squares }: GroupMoments, variances: "equal" | "unequal"): Reason | null {
  if (n.length === 0) return "no-rows";
  if (n.length === 1) return "one-group";
  const small = (size: number): boolean => size < 2;
  if (variances === "equal") {
    if (n.every(small)) return "too-few-rows";
    return squares.every((own) => own === 0) ? "no-variance" : null;
  }
  if (n.some(small)) return "too-few-rows";
  return squares.some((own) => own === 0) ? "no-variance" : null;
}

function unequal({ n, apart, squares }: GroupMoments): { f: number; dfWithin: number } {
  const k = n.length;
  const weight = n.map((size, g) => (size * (size - 1)) / squares[g]!);
  const total = weight.reduce((sum, w) => sum + w, 0);
  const middle = weight.reduce((sum, w, g) => sum + w * apart[g]!, 0) / total;
  const between = weight.reduce((sum, w, g) => sum + w * (apart[g]! - middle) ** 2, 0);
  const shortfall = weight.reduce((sum, w, g) => sum + (1 - w / total) ** 2 / (n[g]! - 1), 0);
  const scale = shortfall / (k * k - 1);
  return { f: between / (k - 1) / (1 + 2 * (k - 2) * scale), dfWithin: 1 / (3 * scale) };
}
