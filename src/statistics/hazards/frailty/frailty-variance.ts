import { chiSquareQuantile } from "../../shared/distributions.js";
import { rootBetween } from "../../shared/root.js";
import { type FrailtyFit, type FrailtyProblem, fitFrailty } from "./frailty-fit.js";
import type { FrailtyVariance } from "./frailty-types.js";

/** Below this variance the frailty cannot be told from none. */
const smallestTheta = 1e-4;
/** Above it nearly all groups have no events or all: there is no maximum that means anything. */
const largestTheta = 1e3;

/** Fits at one theta after another, each from where the last one ended. */
export function fitter(problem: FrailtyProblem, beta: Float64Array): (theta: number) => FrailtyFit {
  let from: Pick<FrailtyFit, "beta" | "logFrailty"> = {
    beta,
    logFrailty: new Float64Array(problem.events.length),
  };
  return (theta) => {
    const fit = fitFrailty(problem, { theta, from, coefficients: "fitted" });
    from = fit;
    return fit;
  };
}

/** The theta at which the slope of the integrated log-likelihood is 0; 0 where it falls from the start; null where it rises for ever. */
export function bestTheta(fitAt: (theta: number) => FrailtyFit): number | null {
  const slope = (logTheta: number): number => fitAt(Math.exp(logTheta)).slope;
  let inside = Math.log(smallestTheta);
  if (slope(inside) <= 0) return 0;
  for (let outside = Math.log(0.05); outside < Math.log(largestTheta); outside += Math.log(4)) {
    if (slope(outside) <= 0) return Math.exp(rootBetween(slope, [inside, outside]));
    inside = outside;
  }
  return null;
}

/** Standard error from the curvature of the profile, and where twice its fall reaches the chi-square quantile. */
export function varianceAround(
  fitAt: (theta: number) => FrailtyFit,
  best: { readonly fit: FrailtyFit; readonly logLikelihoodAtZero: number; readonly level: number },
): FrailtyVariance {
  const { fit, logLikelihoodAtZero, level } = best;
  const { theta } = fit;
  const critical = chiSquareQuantile(level, 1);
  const excess = (value: number): number => 2 * (fit.logLikelihood - fitAt(value).logLikelihood) - critical;
  const lower =
    2 * (fit.logLikelihood - logLikelihoodAtZero) <= critical
      ? 0
      : rootBetween(excess, [smallestTheta, theta]);
  let end = 2 * theta;
  while (end < largestTheta && excess(end) < 0) end *= 2;
  const upper = end < largestTheta ? rootBetween(excess, [theta, end]) : null;
  const h = 1e-3 * theta;
  const curvature = (fitAt(theta - h).slope - fitAt(theta + h).slope) / (2 * h);
  return { estimate: theta, standardError: curvature > 0 ? 1 / Math.sqrt(curvature) : null, lower, upper };
}

/** Only the upper limit can be had where the likelihood falls from the start. */
export function varianceAtZero(
  fitAt: (theta: number) => FrailtyFit,
  logLikelihood: number,
  level: number,
): FrailtyVariance {
  const critical = chiSquareQuantile(level, 1);
  const excess = (theta: number): number => 2 * (logLikelihood - fitAt(theta).logLikelihood) - critical;
  let inside = smallestTheta;
  for (let end = 0.05; end < largestTheta; end *= 2) {
    if (excess(end) >= 0)
      return { estimate: 0, standardError: null, lower: 0, upper: rootBetween(excess, [inside, end]) };
    inside = end;
  }
  return { estimate: 0, standardError: null, lower: 0, upper: null };
}
