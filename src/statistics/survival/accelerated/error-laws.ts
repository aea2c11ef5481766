import { normalQuantile, normalUpperTail } from "../../shared/distributions.js";

/**
 * Laws of the time that a model may have. With log T = x'b + scale e: `exponential` (e smallest extreme value, scale 1), `weibull` (the same,
 * scale free), `log-normal` (e normal), `log-logistic` (e logistic).
 */
export const timeLaws = ["exponential", "weibull", "log-normal", "log-logistic"] as const;
export type TimeLaw = (typeof timeLaws)[number];

/** The law of e at z. */
export interface ErrorLaw {
  readonly logDensity: (z: number) => number;
  /** log P(e > z), exact in both tails. */
  readonly logUpperTail: (z: number) => number;
  /** First and second derivative of the log density. */
  readonly slope: (z: number) => number;
  readonly curvature: (z: number) => number;
  /** The z with P(e <= z) = p. */
  readonly quantile: (p: number) => number;
}

const logRootTwoPi = Math.log(2 * Math.PI) / 2;

/** From here on the tail's own expansion is exact to the last digits; further out the tail itself is too small to hold. */
const farTail = 25;

/** log P(Z > z). The expansion: 1 - 1/z^2 + 3/z^4 - 15/z^6 + ... */
function logNormalTail(z: number): number {
  if (z < -1) return Math.log1p(-normalUpperTail(-z));
  if (z < farTail) return Math.log(normalUpperTail(z));
  const over = 1 / (z * z);
  const series = over * (-1 + over * (3 + over * (-15 + over * (105 + over * (-945 + over * 10395)))));
  return (-z * z) / 2 - logRootTwoPi - Math.log(z) + Math.log1p(series);
}

/** log(1 + e^z) without overflow. */
const softPlus = (z: number): number => (z > 0 ? z + Math.log1p(Math.exp(-z)) : Math.log1p(Math.exp(z)));
const logistic = (z: number): number => (z > 0 ? 1 / (1 + Math.exp(-z)) : Math.exp(z) / (1 + Math.exp(z)));

/** The law of the error of a model. */
export function errorLawOf(law: TimeLaw): ErrorLaw {
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
