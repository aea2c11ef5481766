import { normalCritical, normalTwoSided } from "../../shared/distributions.js";
import type { Reason } from "../../shared/figure.js";
import type { AcceleratedRatio } from "./accelerated-fit.js";

/** What ratios are made from; the covariance is flat, of intercept, coefficients, log scale. */
export interface RatioSource {
  readonly names: readonly string[];
  readonly coefficients: readonly (number | null)[];
  readonly scale: number;
  readonly scaleIsFree: boolean;
  readonly covariance: Float64Array;
  readonly level: number;
  /** Why a coefficient is missing, and where its time ratio was going; null where it is not. */
  readonly missing: readonly ({
    readonly reason: Reason;
    readonly limit: "zero" | "infinity" | null;
  } | null)[];
}

const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);

function ratioOf(log: number, of: { name: string; standardError: number; level: number }): AcceleratedRatio {
  const { name, standardError, level } = of;
  const half = normalCritical(level) * standardError;
  const z = standardError > 0 ? log / standardError : null;
  return {
    name,
    estimate: finite(Math.exp(log)),
    lower: z === null ? null : finite(Math.exp(log - half)),
    upper: z === null ? null : finite(Math.exp(log + half)),
    standardError,
    z,
    p: z === null ? null : normalTwoSided(z),
    reason: z === null ? "no-variance" : null,
    limit: null,
  };
}

function missingRatio(
  name: string,
  why: { readonly reason: Reason; readonly limit: "zero" | "infinity" | null },
): AcceleratedRatio {
  const none = { estimate: null, lower: null, upper: null, standardError: null, z: null, p: null };
  return { name, ...none, reason: why.reason, limit: why.limit };
}

/** exp(b): by what a time is multiplied for one unit more of a covariate. */
export function timeRatios(source: RatioSource): AcceleratedRatio[] {
  const size = Math.sqrt(source.covariance.length);
  return source.names.map((name, i) => {
    const why = source.missing[i];
    if (why) return missingRatio(name, why);
    const j = i + 1;
    const standardError = Math.sqrt(source.covariance[j * size + j]!);
    return ratioOf(source.coefficients[i]!, { name, standardError, level: source.level });
  });
}

const opposite = { zero: "infinity", infinity: "zero" } as const;

/** exp(-b / scale), with Var(b / scale) = (Var b - 2 b Cov(b, log scale) + b^2 Var log scale) / scale^2. */
export function eventRatios(source: RatioSource): AcceleratedRatio[] {
  const { covariance, scale, scaleIsFree } = source;
  const size = Math.sqrt(covariance.length);
  const last = size - 1;
  return source.names.map((name, i) => {
    const why = source.missing[i];
    if (why) return missingRatio(name, { ...why, limit: why.limit && opposite[why.limit] });
    const b = source.coefficients[i]!;
    const j = i + 1;
    const own = covariance[j * size + j]!;
    const shared = scaleIsFree ? covariance[j * size + last]! : 0;
    const ofScale = scaleIsFree ? covariance[last * size + last]! : 0;
    const variance = (own - 2 * b * shared + b * b * ofScale) / (scale * scale);
    return ratioOf(-b / scale, {
      name,
      standardError: Math.sqrt(Math.max(0, variance)),
      level: source.level,
    });
  });
}
