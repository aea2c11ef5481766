import { factorSymmetric, quadraticForm } from "../../linear/symmetric.js";
import { nothingTested } from "../../shared/covariates.js";
import { chiSquareUpperTail } from "../../shared/distributions.js";
import type { Reason, TestResult } from "../../shared/figure.js";
import { checkColumnNames, readOptions } from "../../shared/options.js";
import {
  type AcceleratedColumns,
  type AcceleratedLayout,
  acceleratedColumnsNames,
  layOutAccelerated,
} from "./accelerated-columns.js";
import { covariancesOf, influencesOf, inOwnUnits } from "./accelerated-covariance.js";
import type { Ending } from "./accelerated-ending.js";
import type { AcceleratedFit, AcceleratedOptions, AcceleratedStatus } from "./accelerated-fit.js";
import { acceleratedOptions } from "./accelerated-fit.js";
import { independentColumns } from "./accelerated-newton.js";
import { eventRatios, type RatioSource, timeRatios } from "./accelerated-ratios.js";
import { climbShaped, type ShapedAscent } from "./accelerated-shape.js";
import { countsOf, emptyFit, type Frame, gradientOf, noTest } from "./empty-fit.js";

const test = (statistic: number, df: number): TestResult => ({
  statistic,
  df,
  p: chiSquareUpperTail(statistic, df),
  reason: null,
});

function waldTest(source: RatioSource, covariance: Float64Array): TestResult {
  const size = Math.sqrt(covariance.length);
  const block = new Float64Array(size * size);
  const value = new Float64Array(size);
  source.coefficients.forEach((coefficient, i) => {
    if (coefficient === null) return;
    value[i + 1] = coefficient;
    source.coefficients.forEach((other, column) => {
      if (other !== null) block[(i + 1) * size + column + 1] = covariance[(i + 1) * size + column + 1]!;
    });
  });
  const factor = factorSymmetric(block, { size, tolerance: 1e-12 });
  const some = source.coefficients.some((coefficient) => coefficient !== null);
  if (some && factor.kept.length === 0) return noTest("no-variance");
  return test(quadraticForm(factor, value), factor.kept.length);
}

/** What stands in the way of any estimate, or null. */
function hopeless({
  ending,
  shapeAtLimit,
}: ShapedAscent): { status: AcceleratedStatus; reason: Reason } | null {
  if (shapeAtLimit) return { status: "shape-to-limit", reason: "monotone-likelihood" };
  if (ending.kind === "scale-to-zero") return { status: ending.kind, reason: "no-variance" };
  if (ending.kind === "scale-to-infinity") return { status: ending.kind, reason: "monotone-likelihood" };
  const onlyIntercept = ending.kind === "monotone" && ending.columns.includes(0);
  return onlyIntercept ? { status: "monotone-likelihood", reason: "monotone-likelihood" } : null;
}

function statusOf(ending: Ending, collinear: boolean): AcceleratedStatus {
  if (ending.kind === "monotone") return "monotone-likelihood";
  if (ending.kind === "not-converged") return "not-converged";
  return collinear ? "collinear" : "ok";
}

/** Which parameters are free and which of them finite, and the estimates in their own units. */
function fittedOf(layout: AcceleratedLayout, ascent: ShapedAscent) {
  const { ending, shape } = ascent;
  const free = shape === null ? ascent.free : [...ascent.free, layout.size + 1];
  const infinite = ending.kind === "monotone" ? ending.columns : [];
  const finite = free.filter((j) => !infinite.includes(j));
  return { free, infinite, finite, ...inOwnUnits(layout, ascent) };
}

/** The fit from where the iterations ended, with or without a maximum in every covariate. */
function describeFit(
  frame: Frame,
  fitted: {
    readonly ascent: ShapedAscent;
    readonly start: ShapedAscent;
    readonly clusters: ArrayLike<number> | undefined;
  },
): AcceleratedFit {
  const { law, names, level, layout } = frame;
  const { ascent, start, clusters } = fitted;
  const { size } = layout;
  const { ending, shape } = ascent;
  const { free, infinite, finite, values, derivatives } = fittedOf(layout, ascent);
  const all = values.length;
  const { model, robust, groups } = covariancesOf(layout, { ascent, finite, derivatives, law, clusters });
  // the intercept is where every covariate is 0, which an infinite coefficient leaves undefined
  const known = (j: number): boolean => finite.includes(j) && !(j === 0 && infinite.length > 0);
  const listed = Array.from({ length: law === "exponential" ? size : all }, (_, j) => j);
  const matrix = (flat: Float64Array) =>
    listed.map((i) => listed.map((j) => (known(i) && known(j) ? flat[i * all + j]! : null)));
  const used = robust ?? model;
  const errorOf = (j: number) => (known(j) ? Math.sqrt(model[j * all + j]!) : null);
  const coefficients = names.map((_, i) => (known(i + 1) ? values[i + 1]! : null));
  const source: RatioSource = {
    names,
    coefficients,
    scale: Math.exp(values[size]!),
    scaleIsFree: law !== "exponential",
    covariance: used,
    level,
    missing: names.map((_, i) => {
      const column = i + 1;
      if (!free.includes(column)) return { reason: "collinear", limit: null };
      if (!infinite.includes(column)) return null;
      return {
        reason: "monotone-likelihood",
        limit: ascent.parameters[column]! > 0 ? "infinity" : "zero",
      };
    }),
  };
  const logLikelihood = ascent.at.logLikelihood - layout.jacobian;
  const logLikelihoodNull = start.at.logLikelihood - layout.jacobian;
  const monotone = infinite.length > 0;
  const ofEvents = () => eventRatios(source);
  const df = free.filter((j) => j > 0 && j < size).length;
  // scores that sum to 0 over the clusters tell apart fewer coefficients than there are clusters
  const none = df === 0 ? noTest(nothingTested(names)) : null;
  const robustTest = () =>
    robust !== null && df < groups ? waldTest(source, robust) : noTest("too-few-rows");
  return {
    law,
    names,
    intercept: known(0) ? values[0]! : null,
    coefficients,
    scale: source.scale,
    logScale: law === "exponential" ? null : values[size]!,
    shape,
    interceptStandardError: errorOf(0),
    standardErrors: names.map((_, i) => errorOf(i + 1)),
    logScaleStandardError: law === "exponential" ? null : errorOf(size),
    shapeStandardError: shape === null ? null : errorOf(size + 1),
    covariance: matrix(model),
    robustCovariance: robust && matrix(robust),
    timeRatios: timeRatios(source),
    hazardRatios: law === "weibull" || law === "exponential" ? ofEvents() : null,
    oddsRatios: law === "log-logistic" ? ofEvents() : null,
    logLikelihood,
    logLikelihoodNull,
    likelihoodRatio: none ?? test(Math.max(0, 2 * (logLikelihood - logLikelihoodNull)), df),
    wald: monotone ? noTest("monotone-likelihood") : (none ?? waldTest(source, model)),
    robustWald: robust && (monotone ? noTest("monotone-likelihood") : (none ?? robustTest())),
    aic: 2 * free.length - 2 * logLikelihood,
    parameters: free.length,
    iterations: ascent.iterations,
    converged: ending.kind === "maximum",
    finalGradient: gradientOf(ascent),
    n: layout.n,
    rows: countsOf(layout.totals),
    level,
    status: statusOf(ending, df < names.length),
  };
}

/**
 * Parametric accelerated failure-time model: log T = intercept + x'b + scale e, e of the law chosen, by maximum likelihood.
 *
 * A row adds log f(t) where the time is exact (the density of t, not of log t), log S(left) where right-censored, log(1 - S(right)) where
 * left-censored, log(S(left) - S(right)) in between, less log S(entry) for a late entry, times its weight. Newton's method with exact derivatives; covariance from the observed
 * information, or the sandwich summed within clusters. Ratios: time exp(b); hazard (Weibull, exponential) and odds of the event (log-logistic)
 * exp(-b / scale) by the delta method. Under the generalised gamma law the shape is searched from -3 to 3.
 *
 * @param columns see AcceleratedColumns; no covariates: the law alone
 * @returns nulls with `no-rows`, `no-events`; `collinear` covariates are left out of the model and named; a coefficient without a finite
 *   maximum has `monotone-likelihood` and a `limit`, with the likelihood and its test those of the limit; see AcceleratedStatus for the scale
 * @throws ArgumentError naming the column and index of a value at fault (an exact time of 0 among them) or the option
 * @source Kalbfleisch & Prentice 2002, The Statistical Analysis of Failure Time Data, chapter 3; sandwich: Lin & Wei 1989, J Am Stat
 *   Assoc 84:1074; generalised gamma law: Prentice 1974, Biometrika 61:539
 * @example
 * acceleratedModel({ left: [42, 56, 56, 70], right: [42, 56, null, 70], covariates: { names: [], columns: [] } }).status // => "ok"
 */
export function acceleratedModel(
  columns: AcceleratedColumns,
  options: AcceleratedOptions = {},
): AcceleratedFit {
  return fitAccelerated(columns, options).fit;
}

/** A fit, and what each row moves its estimates by (flat by rows, in the order of the covariance); null without estimates. */
export interface AcceleratedWithInfluences {
  readonly fit: AcceleratedFit;
  readonly influences: (() => Float64Array) | null;
}

/** The model with the influence of each row, for what is computed from several fits to the same rows. */
export function fitAccelerated(
  columns: AcceleratedColumns,
  options: AcceleratedOptions = {},
): AcceleratedWithInfluences {
  checkColumnNames(acceleratedColumnsNames, { columns });
  const { law, level, maximumIterations, tolerance } = readOptions(acceleratedOptions, options);
  const layout = layOutAccelerated(columns);
  const clustered = columns.clusters !== undefined;
  const frame = { law, names: columns.covariates.names, level, layout, clustered };
  const [exact, right, left, between] = layout.totals as [number, number, number, number];
  if (exact + right + left + between === 0)
    return without(frame, { status: "no-rows", reason: "no-rows", ascent: null });
  if (exact + left + between === 0)
    return without(frame, { status: "no-events", reason: "no-events", ascent: null });
  const ascending = { law, maximumIterations, tolerance };
  const start = climbShaped(layout, { ...ascending, columns: [0] });
  const independent = independentColumns(layout);
  const usable = start.ending.kind === "maximum" ? start.parameters : undefined;
  const ascent =
    independent.length === 1 ? start : climbShaped(layout, { ...ascending, columns: independent }, usable);
  const why = hopeless(ascent);
  if (why) return without(frame, { ...why, ascent });
  return {
    fit: describeFit(frame, { ascent, start, clusters: columns.clusters }),
    influences: () => influencesOf(layout, { ...fittedOf(layout, ascent), ascent, law }),
  };
}

const without = (frame: Frame, why: Parameters<typeof emptyFit>[1]): AcceleratedWithInfluences => ({
  fit: emptyFit(frame, why),
  influences: null,
});
