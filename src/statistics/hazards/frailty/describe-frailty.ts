import { factorSymmetric, invertFactored } from "../../linear/symmetric.js";
import { nothingTested } from "../../shared/covariates.js";
import { chiSquareUpperTail } from "../../shared/distributions.js";
import type { TestResult } from "../../shared/figure.js";
import { chiSquareTest, onOriginalScale, ratioOfCoefficient } from "../fit/describe-fit.js";
import type { HazardModel } from "../fit/model.js";
import type { HazardFit, HazardRatio } from "../layout/hazard-fit.js";
import { type FrailtyFit, type FrailtyProblem, fitFrailty } from "./frailty-fit.js";
import type { FrailtyHazardFit, FrailtyVariance } from "./frailty-types.js";

/** Step of the numerical derivative of the profile score, in standard deviations. */
const derivativeStep = 1e-4;

/** Information of the coefficients, frailties and baseline being fitted again as each moves; theta held. */
function profileInformation(problem: FrailtyProblem, fit: FrailtyFit): Float64Array {
  const { size } = problem.layout;
  const information = new Float64Array(size * size);
  const scoreAt = (j: number, by: number): Float64Array => {
    const beta = fit.beta.slice();
    beta[j]! += by;
    const from = { beta, logFrailty: fit.logFrailty };
    return fitFrailty(problem, { theta: fit.theta, from, coefficients: "held" }).score;
  };
  for (const j of problem.estimable) {
    const above = scoreAt(j, derivativeStep);
    const below = scoreAt(j, -derivativeStep);
    for (const k of problem.estimable)
      information[j * size + k] = (below[k]! - above[k]!) / (2 * derivativeStep);
  }
  for (let j = 0; j < size; j++)
    for (let k = 0; k < j; k++) {
      const mean = (information[j * size + k]! + information[k * size + j]!) / 2;
      information[j * size + k] = mean;
      information[k * size + j] = mean;
    }
  return information;
}

const boundaryTest = (statistic: number): TestResult => ({
  statistic,
  df: 1,
  // half of the distribution stands at 0
  p: statistic > 0 ? chiSquareUpperTail(statistic, 1) / 2 : 1,
  reason: null,
});

/** A fit with a frailty in the caller's units. */
export function describeFrailty(
  model: HazardModel,
  problem: FrailtyProblem,
  estimated: {
    readonly fit: FrailtyFit;
    readonly codes: readonly number[];
    readonly variance: FrailtyVariance;
    readonly level: number;
    readonly asked: boolean;
  },
): FrailtyHazardFit {
  const { fit, codes, variance, level } = estimated;
  const { layout, result } = model;
  const { names } = model.fit;
  const { scale, size } = layout;
  const information = profileInformation(problem, fit);
  const inverse = invertFactored(factorSymmetric(information, { size, tolerance: 1e-10 }));
  const covariance = onOriginalScale(inverse, { scale, finite: result.estimable });
  const errors = covariance.map((row, j) => (row[j] == null ? null : Math.sqrt(row[j])));
  const coefficients = names.map((_, j) => (result.estimable.includes(j) ? fit.beta[j]! / scale[j]! : null));
  const wald = result.estimable.reduce(
    (sum, j) =>
      result.estimable.reduce(
        (inner, k) => inner + fit.beta[j]! * information[j * size + k]! * fit.beta[k]!,
        sum,
      ),
    0,
  );
  return {
    names,
    coefficients,
    standardErrors: errors,
    covariance,
    hazardRatios: names.map((name, j): HazardRatio => {
      const coefficient = coefficients[j] ?? null;
      const error = errors[j] ?? null;
      return coefficient === null || error === null
        ? model.fit.hazardRatios[j]!
        : ratioOfCoefficient(name, { coefficient, error, level });
    }),
    theta: variance,
    groups: codes,
    frailties: Array.from(fit.logFrailty, Math.exp),
    noFrailty: estimated.asked
      ? boundaryTest(Math.max(0, 2 * (fit.logLikelihood - result.logLikelihood)))
      : { statistic: null, df: 1, p: null, reason: null },
    wald: chiSquareTest(wald, result.estimable.length, nothingTested(model.fit.names)),
    logLikelihoodNoFrailty: result.logLikelihood,
    logLikelihood: fit.logLikelihood,
    iterations: fit.iterations,
    converged: fit.converged,
    n: layout.n,
    events: layout.events,
    ties: problem.state.ties,
    level,
    status: fit.converged ? model.fit.status : "not-converged",
  };
}

/** The ordinary fit as the end: no frailty to be told apart, or nothing to be fitted. */
export function ordinaryEnd(
  fit: HazardFit,
  end: {
    readonly codes: readonly number[];
    readonly variance: FrailtyVariance | null;
    readonly status: HazardFit["status"];
  },
): FrailtyHazardFit {
  const none = end.variance === null;
  return {
    names: fit.names,
    coefficients: none ? fit.names.map(() => null) : fit.coefficients,
    standardErrors: none ? fit.names.map(() => null) : fit.standardErrors,
    covariance: none ? fit.names.map(() => fit.names.map(() => null)) : fit.covariance,
    hazardRatios: none
      ? fit.hazardRatios.map(({ name }) => ({
          name,
          estimate: null,
          lower: null,
          upper: null,
          z: null,
          p: null,
          reason: end.status === "ok" ? null : end.status,
          limit: null,
        }))
      : fit.hazardRatios,
    theta: end.variance ?? { estimate: null, standardError: null, lower: null, upper: null },
    groups: end.codes,
    frailties: end.codes.map(() => (none ? null : 1)),
    noFrailty: none
      ? { statistic: null, df: 1, p: null, reason: end.status === "ok" ? null : end.status }
      : boundaryTest(0),
    wald: none
      ? chiSquareTest(null, 0, end.status === "ok" ? nothingTested(fit.names) : end.status)
      : fit.wald,
    logLikelihoodNoFrailty: none ? null : fit.logLikelihood,
    logLikelihood: none ? null : fit.logLikelihood,
    iterations: fit.iterations,
    converged: !none,
    n: fit.n,
    events: fit.events,
    ties: fit.ties === "exact" ? "efron" : fit.ties,
    level: fit.level,
    status: end.status,
  };
}
