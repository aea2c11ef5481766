import { chiSquareUpperTail, normalCritical } from "../../shared/distributions.js";
import type { Reason } from "../../shared/figure.js";
import { blocksAt } from "./blocks.js";
import { devianceAt, type Method } from "./criterion.js";
import { type FoundVariance, findRatio } from "./find-variance.js";
import type { GroupSums } from "./group-sums.js";
import type { GroupPrediction, VarianceComponents, VarianceFigure, VarianceTest } from "./mixed-types.js";
import { figuresOfIntercept, figuresOfSlope } from "./profiled-figures.js";
import { type Profiled, profileInterval } from "./variance-intervals.js";

/** A fitted variance and how it is to be reported. */
export interface VarianceSetting {
  readonly sums: GroupSums;
  readonly found: FoundVariance;
  readonly method: Method;
  readonly intervals: "profile" | "none";
  readonly level: number;
}

export const noFigure = (reason: Reason | null): VarianceFigure => ({
  estimate: null,
  lower: null,
  upper: null,
  reason,
});

/** @param scale by which the figure is divided on its way to the caller's units */
function figureOf(
  { sums, found, method, intervals, level }: VarianceSetting,
  of: { profiled: Profiled; scale?: number },
): VarianceFigure {
  const { profiled, scale = 1 } = of;
  const estimate = profiled.estimate / scale;
  if (intervals === "none") return { estimate, lower: null, upper: null, reason: null };
  const { lower, upper } = profileInterval({ sums, found, method, profiled }, normalCritical(level) ** 2);
  const over = (limit: number | null): number | null =>
    limit !== null && Number.isFinite(limit) ? limit / scale : null;
  return { estimate, lower: over(lower), upper: over(upper), reason: null };
}

/** Deviations, correlation, share between groups, each with its profile interval. */
export function componentsOf(setting: VarianceSetting): VarianceComponents {
  const { sums, found } = setting;
  const { variance } = found.at;
  const own = inOwnUnits(sums, found.ratio);
  if (own.slope === null || own.covariance === null) {
    const figures = figuresOfIntercept({ ratio: own.intercept, variance });
    return {
      interceptDeviation: figureOf(setting, { profiled: figures.interceptDeviation }),
      slopeDeviation: null,
      correlation: null,
      residualDeviation: figureOf(setting, { profiled: figures.residualDeviation }),
      intraclassCorrelation: figureOf(setting, { profiled: figures.intraclassCorrelation }),
    };
  }
  const { scale } = sums;
  const figures = figuresOfSlope({
    intercept: own.intercept,
    slope: own.slope * scale * scale,
    covariance: own.covariance * scale,
    variance,
  });
  return {
    interceptDeviation: figureOf(setting, { profiled: figures.interceptDeviation }),
    slopeDeviation: figureOf(setting, { profiled: figures.slopeDeviation, scale }),
    correlation:
      figures.correlation === null
        ? noFigure("no-variance")
        : figureOf(setting, { profiled: figures.correlation }),
    residualDeviation: figureOf(setting, { profiled: figures.residualDeviation }),
    intraclassCorrelation: null,
  };
}

/** Likelihood-ratio test against the model with one random effect less. */
export function varianceTest(
  { sums, found, method }: Pick<VarianceSetting, "sums" | "found" | "method">,
  interceptOnly: GroupSums | null,
): VarianceTest {
  const without =
    interceptOnly === null
      ? devianceAt(sums, { ratio: Float64Array.of(0), method }).value
      : findRatio(interceptOnly, method)?.at.value;
  const df = interceptOnly === null ? 1 : 2;
  if (without === undefined)
    return { statistic: null, df, p: null, logLikelihoodWithout: null, reason: "no-variance" };
  const statistic = Math.max(0, without - found.at.value);
  const upper = chiSquareUpperTail(statistic, df);
  const lower = df === 1 ? 0 : chiSquareUpperTail(statistic, 1);
  const p = statistic <= 1e-12 ? 1 : (upper + lower) / 2;
  return { statistic, df, p, logLikelihoodWithout: -without / 2, reason: null };
}

/**
 * Expected effect of each group given the data: L Z'W (y - Xb), with variance s2 (L - L Z'WZ L).
 *
 * @source Henderson 1975, Biometrics 31:423
 */
export function predictionsOf(sums: GroupSums, found: FoundVariance): GroupPrediction[] {
  const { q, codes, counts, centre, scale } = sums;
  const { ratio } = found;
  const { variance } = found.at;
  const { zwe, zwz } = blocksAt(sums, ratio);
  const times = (matrix: Float64Array, vector: readonly number[]): number[] =>
    vector.map((_, i) => vector.reduce((sum, x, j) => sum + matrix[i * q + j]! * x, 0));
  return codes.map((group, g) => {
    const effect = times(ratio, Array.from(zwe.subarray(g * q, (g + 1) * q)));
    const shift = q === 2 ? centre / scale : 0;
    const spread = (along: number[]): number => {
      const moved = times(ratio, along);
      const taken = times(zwz.subarray(g * q * q, (g + 1) * q * q), moved);
      const left = along.reduce((sum, x, i) => sum + x * moved[i]!, 0);
      return Math.sqrt(Math.max(0, variance * (left - moved.reduce((sum, x, i) => sum + x * taken[i]!, 0))));
    };
    return {
      group,
      n: counts[g]!,
      intercept: effect[0]! - shift * (effect[1] ?? 0),
      interceptDeviation: spread(q === 2 ? [1, -shift] : [1]),
      slope: q === 2 ? effect[1]! / scale : null,
      slopeDeviation: q === 2 ? spread([0, 1 / scale]) : null,
    };
  });
}

/** Variances of the group effects over the residual variance, in the caller's units of the slope's covariate. */
interface OwnUnits {
  readonly intercept: number;
  /** Null without a slope. */
  readonly slope: number | null;
  readonly covariance: number | null;
}

/** From the centred and scaled covariate back to the caller's. */
function inOwnUnits(
  { q, centre, scale }: Pick<GroupSums, "q" | "centre" | "scale">,
  matrix: Float64Array,
): OwnUnits {
  if (q === 1) return { intercept: matrix[0]!, slope: null, covariance: null };
  const shift = centre / scale;
  return {
    intercept: Math.max(0, matrix[0]! - 2 * shift * matrix[1]! + shift * shift * matrix[3]!),
    slope: matrix[3]! / (scale * scale),
    covariance: (matrix[1]! - shift * matrix[3]!) / scale,
  };
}
