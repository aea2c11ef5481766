import { normalCritical, tCritical } from "../shared/distributions.js";
import type { LimitInterval } from "./limits-of-agreement.js";
import { varianceLimits } from "./variance-interval.js";

/** A mean square and what it counts for in the variance of a difference: factor * variance. */
export interface VariancePart {
  readonly factor: number;
  readonly variance: number;
  readonly df: number;
}

/** A limit of agreement from repeated readings with two intervals. */
export interface RepeatedLimit {
  readonly estimate: number;
  /** Normal, by the delta method: Var(limit) = Var(bias) + m^2 sum (2 f^2 v^2 / df) / (4 S^2), for parts f v. */
  readonly approximate: (LimitInterval & { readonly standardError: number }) | null;
  /**
   * Recovered from the limits of the bias (Student's t, subjects - 1) and of each part (chi-square): not symmetric, and the
   * better of the two when subjects are few.
   */
  readonly recovered: LimitInterval | null;
}

interface Found {
  readonly bias: number;
  readonly biasVariance: number;
  readonly biasDf: number;
  readonly parts: readonly VariancePart[];
}

/**
 * Limits, and their intervals, from independent parts of the variance.
 *
 * @source Bland & Altman 1999, Stat Methods Med Res 8:135; Zou 2013, Stat Methods Med Res 22:630
 */
export function limitsFromParts(
  { bias, biasVariance, biasDf, parts }: Found,
  { level, multiplier }: { readonly level: number; readonly multiplier: number },
): {
  biasLower: number;
  biasUpper: number;
  standardDeviation: number;
  lower: RepeatedLimit;
  upper: RepeatedLimit;
} {
  const used = parts.filter(({ factor, variance, df }) => factor > 0 && variance > 0 && df > 0);
  const total = used.reduce((sum, { factor, variance }) => sum + factor * variance, 0);
  const deviation = Math.sqrt(total);
  const doubtOfTotal = used.reduce(
    (sum, { factor, variance, df }) => sum + (2 * (factor * variance) ** 2) / df,
    0,
  );
  const standardError = Math.sqrt(biasVariance + (multiplier ** 2 * doubtOfTotal) / (4 * total));
  const range = recoveredRange(used, { total, level });
  const biasHalf = tCritical(level, biasDf) * Math.sqrt(biasVariance);
  const inner = Math.hypot(biasHalf, multiplier * (deviation - Math.sqrt(range.lower)));
  const outer = Math.hypot(biasHalf, multiplier * (Math.sqrt(range.upper) - deviation));
  const half = normalCritical(level) * standardError;
  const limit = (estimate: number, below: number, above: number): RepeatedLimit => ({
    estimate,
    approximate: { standardError, lower: estimate - half, upper: estimate + half },
    recovered: { lower: estimate - below, upper: estimate + above },
  });
  return {
    biasLower: bias - biasHalf,
    biasUpper: bias + biasHalf,
    standardDeviation: deviation,
    lower: limit(bias - multiplier * deviation, outer, inner),
    upper: limit(bias + multiplier * deviation, inner, outer),
  };
}

/** Limits of a sum of independent variances: the distances of the parts' own limits, added in squares. */
function recoveredRange(
  parts: readonly VariancePart[],
  { total, level }: { readonly total: number; readonly level: number },
): LimitInterval {
  let below = 0;
  let above = 0;
  for (const { factor, variance, df } of parts) {
    const { lower, upper } = varianceLimits({ variance, df }, level);
    below += (factor * (variance - lower)) ** 2;
    above += (factor * (upper - variance)) ** 2;
  }
  return { lower: Math.max(0, total - Math.sqrt(below)), upper: total + Math.sqrt(above) };
}
