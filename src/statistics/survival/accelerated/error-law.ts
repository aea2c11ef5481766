import { normalUpperTail } from "../../shared/distributions.js";

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

export const logRootTwoPi = Math.log(2 * Math.PI) / 2;

/** From here on the tail's own expansion is exact to the last digits; further out the tail itself is too small to hold. */
const farTail = 25;

/** log P(Z > z). The expansion: 1 - 1/z^2 + 3/z^4 - 15/z^6 + ... */
export function logNormalTail(z: number): number {
  if (z < -1) return Math.log1p(-normalUpperTail(-z));
  if (z < farTail) return Math.log(normalUpperTail(z));
  const over = 1 / (z * z);
  const series = over * (-1 + over * (3 + over * (-15 + over * (105 + over * (-945 + over * 10395)))));
  return (-z * z) / 2 - logRootTwoPi - Math.log(z) + Math.log1p(series);
}
