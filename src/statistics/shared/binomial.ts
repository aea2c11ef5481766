import { betaLowerTail, betaUpperTail } from "./distributions.js";
import { power } from "./power.js";
import { deviance, stirlingError } from "./saddle-point.js";

/** n draws, each a success with probability p. */
export interface Binomial {
  /** Whole number, 0 or more. */
  readonly n: number;
  /** From 0 to 1. */
  readonly p: number;
}

/**
 * P(X = k) of the binomial distribution; nothing overflows for counts up to 2^53.
 *
 * @source Loader 2000, Fast and accurate computation of binomial probabilities (technical note)
 */
export function binomialDensity(k: number, { n, p }: Binomial): number {
  if (k < 0 || k > n) return 0;
  if (p === 0 || p === 1) return k === n * p ? 1 : 0;
  if (n === 0) return 1;
  if (k === 0) return Math.exp(n * Math.log1p(-p));
  if (k === n) return power(p, n);
  const apart = deviance(k, n * p) + deviance(n - k, n * (1 - p));
  const exponent = stirlingError(n) - stirlingError(k) - stirlingError(n - k) - apart;
  return Math.exp(exponent) * Math.sqrt(n / (2 * Math.PI * k) / (n - k));
}

/** P(X <= k) of the binomial distribution. */
export function binomialLowerTail(k: number, { n, p }: Binomial): number {
  if (k < 0) return 0;
  if (k >= n) return 1;
  return betaUpperTail(p, { a: k + 1, b: n - k });
}

/** P(X > k) of the binomial distribution. */
export function binomialUpperTail(k: number, { n, p }: Binomial): number {
  if (k < 0) return 1;
  if (k >= n) return 0;
  return betaLowerTail(p, { a: k + 1, b: n - k });
}

/** The smallest k with P(X <= k) >= q, but for rounding. */
export function binomialQuantile(q: number, binomial: Binomial): number {
  let low = 0;
  let high = binomial.n;
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (binomialLowerTail(middle, binomial) >= q * (1 - 1e-13)) high = middle;
    else low = middle + 1;
  }
  return low;
}
