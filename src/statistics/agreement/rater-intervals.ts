import { factorSymmetric, invertFactored } from "../linear/symmetric.js";
import type { Reason } from "../shared/figure.js";
import type { LikelihoodAt, VarianceRatios } from "./rater-likelihood.js";

/** Variances of one reading. */
export interface ComponentShares {
  readonly subjects: number;
  readonly raters: number;
  readonly residual: number;
}

/** An intraclass correlation from variance components. */
export interface ComponentCorrelation {
  readonly estimate: number | null;
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly reason: Reason | null;
}

type Part = keyof ComponentShares;
type Covariance = (one: Part, two: Part) => number;

/**
 * Covariance of the variance components from the expected information, tr(P V_i P V_j) / 2 with P over the residual variance; 0 for a
 * component that is 0. The residual's entries follow from P V P = P. Null where the information is singular.
 *
 * @source Harville 1977, J Am Stat Assoc 72:320
 */
export function componentCovariance(
  {
    at,
    ratios,
    readings,
  }: { readonly at: LikelihoodAt; readonly ratios: VarianceRatios; readonly readings: number },
  { model }: { readonly model: "one-way" | "two-way" },
): Covariance | null {
  const { traces, residualVariance } = at;
  const { subjects: a, raters: b } = ratios;
  const subjectsResidual = traces.subjects - a * traces.subjectsSquared - b * traces.both;
  const ratersResidual = traces.raters - a * traces.both - b * traces.ratersSquared;
  const squared =
    readings - 1 - a * traces.subjects - b * traces.raters - a * subjectsResidual - b * ratersResidual;
  const whole = [
    [traces.subjectsSquared, traces.both, subjectsResidual],
    [traces.both, traces.ratersSquared, ratersResidual],
    [subjectsResidual, ratersResidual, squared],
  ];
  const parts: readonly Part[] = ["subjects", "raters", "residual"];
  const used = [0, 1, 2].filter((part) => part === 2 || (part === 0 ? a > 0 : model === "two-way" && b > 0));
  const information = used.flatMap((i) => used.map((j) => whole[i]![j]! / (2 * residualVariance ** 2)));
  const factor = factorSymmetric(information, { size: used.length, tolerance: 1e-10 });
  if (factor.kept.length < used.length) return null;
  const inverse = invertFactored(factor);
  return (one, two) => {
    const i = used.indexOf(parts.indexOf(one));
    const j = used.indexOf(parts.indexOf(two));
    return i < 0 || j < 0 ? 0 : inverse[i * used.length + j]!;
  };
}

/** s / (s + noise / m) with the delta method on Fisher's scale. */
export function shareWithInterval(
  { variances, covariance }: { readonly variances: ComponentShares; readonly covariance: Covariance },
  options: {
    readonly noise: readonly ("raters" | "residual")[];
    readonly averaged: number;
    readonly readingsASubject: number;
    readonly z: number;
  },
): ComponentCorrelation {
  const { noise, averaged, readingsASubject, z } = options;
  const s = variances.subjects;
  const rest = noise.reduce((sum, part) => sum + variances[part], 0) / averaged;
  const estimate = s / (s + rest);
  if (estimate === 0)
    return { estimate, standardError: null, lower: null, upper: null, reason: "no-variance" };
  const bySubjects = rest / (s + rest) ** 2;
  const byNoise = -s / (s + rest) ** 2 / averaged;
  const slopes: readonly (readonly [Part, number])[] = [
    ["subjects", bySubjects],
    ...noise.map((part) => [part, byNoise] as const),
  ];
  const variance = slopes.reduce(
    (sum, [one, f]) => sum + slopes.reduce((within, [two, g]) => within + f * g * covariance(one, two), 0),
    0,
  );
  const standardError = Math.sqrt(variance);
  // at least two, below which the scale would be that of a single reading
  const k = Math.max(2, readingsASubject / averaged);
  const middle = Math.log((1 + (k - 1) * estimate) / (1 - estimate)) / 2;
  const half = (z * standardError * k) / (2 * (1 + (k - 1) * estimate) * (1 - estimate));
  const back = (value: number): number => Math.expm1(2 * value) / (Math.exp(2 * value) + k - 1);
  return { estimate, standardError, lower: back(middle - half), upper: back(middle + half), reason: null };
}
