import { normalQuantile } from "../../shared/distributions.js";
import { type ErrorLaw, logNormalTail, logRootTwoPi } from "./error-law.js";
import { generalisedGammaLaw } from "./generalised-gamma.js";

/**
 * Laws of the time that a model may have. With log T = x'b + scale e: `exponential` (e smallest extreme value, scale 1), `weibull` (the same,
 * scale free), `log-normal` (e normal), `log-logistic` (e logistic), `generalised-gamma` (a further parameter, the shape: 1 is the Weibull,
 * 0 the log-normal law).
 */
export const timeLaws = [
  "exponential",
  "weibull",
  "log-normal",
  "log-logistic",
  "generalised-gamma",
] as const;
export type TimeLaw = (typeof timeLaws)[number];

/** log(1 + e^z) without overflow. */
const softPlus = (z: number): number => (z > 0 ? z + Math.log1p(Math.exp(-z)) : Math.log1p(Math.exp(z)));
const logistic = (z: number): number => (z > 0 ? 1 / (1 + Math.exp(-z)) : Math.exp(z) / (1 + Math.exp(z)));

/** The law of the error of a model. @param shape of the generalised gamma law; the others have none */
export function errorLawOf(law: TimeLaw, shape = 0): ErrorLaw {
  if (law === "generalised-gamma") return generalisedGammaLaw(shape);
  if (law === "log-normal")
    return {
      logDensity: (z) => (-z * z) / 2 - logRootTwoPi,
      logUpperTail: logNormalTail,
      slope: (z) => -z,
      curvature: () => -1,
      quantile: normalQuantile,
    };
  if (law === "log-logistic")
    return {
      logDensity: (z) => z - 2 * softPlus(z),
      logUpperTail: (z) => -softPlus(z),
      slope: (z) => 1 - 2 * logistic(z),
      curvature: (z) => -2 * logistic(z) * logistic(-z),
      quantile: (p) => Math.log(p) - Math.log1p(-p),
    };
  return {
    logDensity: (z) => z - Math.exp(z),
    logUpperTail: (z) => -Math.exp(z),
    slope: (z) => 1 - Math.exp(z),
    curvature: (z) => -Math.exp(z),
    quantile: (p) => Math.log(-Math.log1p(-p)),
  };
}
