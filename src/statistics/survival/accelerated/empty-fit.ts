import type { Reason, TestResult } from "../../shared/figure.js";
import type { AcceleratedLayout } from "./accelerated-columns.js";
import type { AcceleratedFit, AcceleratedStatus } from "./accelerated-fit.js";
import type { Ascent } from "./accelerated-newton.js";
import type { TimeLaw } from "./error-laws.js";

/** A test that could not be made. */
export const noTest = (reason: Reason): TestResult => ({ statistic: null, df: 0, p: null, reason });

/** Summed weights by kind of row. */
export const countsOf = ([
  exact,
  rightCensored,
  leftCensored,
  interval,
  uninformative,
]: readonly number[]) => ({
  exact: exact!,
  rightCensored: rightCensored!,
  leftCensored: leftCensored!,
  interval: interval!,
  uninformative: uninformative!,
});

/** What a fit is told of besides its estimates. */
export interface Frame {
  readonly law: TimeLaw;
  readonly names: readonly string[];
  readonly level: number;
  readonly layout: AcceleratedLayout;
  readonly clustered: boolean;
}

/** A fit without estimates. */
export function emptyFit(
  { law, names, level, layout, clustered }: Frame,
  why: { readonly status: AcceleratedStatus; readonly reason: Reason; readonly ascent: Ascent | null },
): AcceleratedFit {
  const { status, reason, ascent } = why;
  const nothing = names.map(() => null);
  const size = names.length + (law === "exponential" ? 1 : law === "generalised-gamma" ? 3 : 2);
  const matrix = Array.from({ length: size }, () => new Array<null>(size).fill(null));
  const none = { lower: null, upper: null, standardError: null, z: null, p: null, limit: null };
  const ratios = names.map((name) => ({ name, estimate: null, ...none, reason }));
  return {
    law,
    names,
    intercept: null,
    coefficients: nothing,
    scale: null,
    logScale: null,
    shape: null,
    interceptStandardError: null,
    standardErrors: nothing,
    logScaleStandardError: null,
    shapeStandardError: null,
    covariance: matrix,
    robustCovariance: clustered ? matrix : null,
    timeRatios: ratios,
    hazardRatios: law === "weibull" || law === "exponential" ? ratios : null,
    oddsRatios: law === "log-logistic" ? ratios : null,
    logLikelihood: null,
    logLikelihoodNull: null,
    likelihoodRatio: noTest(reason),
    wald: noTest(reason),
    robustWald: clustered ? noTest(reason) : null,
    aic: null,
    parameters: 0,
    iterations: ascent?.iterations ?? 0,
    converged: false,
    finalGradient: ascent && gradientOf(ascent),
    n: layout.n,
    rows: countsOf(layout.totals),
    level,
    status,
  };
}

/** Largest absolute first derivative. */
export const gradientOf = ({ at, free }: Ascent): number =>
  free.reduce((most, j) => Math.max(most, Math.abs(at.score[j]!)), 0);
