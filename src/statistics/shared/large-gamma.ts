import { deviance, stirlingError } from "./saddle-point.js";

/** From here on the library's own expansion is off by up to some per cent. */
export const isLargeGamma = (x: number, shape: number): boolean =>
  shape >= 15 && (shape > 500 || x > 500) && x > 0 && Number.isFinite(x);

/**
 * Both tails and the density of the gamma distribution of scale 1 for large shapes (15 or more).
 *
 * Up to the mean the lower tail is the density at x times a series, beyond it the upper tail is the density times a continued fraction;
 * all terms are positive, so that nothing cancels, and the other tail is the complement. About 9 sqrt(shape) steps near the mean.
 *
 * @source Didonato & Morris 1986, ACM Trans Math Softw 12:377 (series, continued fraction); Loader 2000, Fast and
 * accurate computation of binomial probabilities (the factor before them)
 */
export function largeGammaTails(
  x: number,
  shape: number,
): { readonly lower: number; readonly upper: number; readonly density: number } {
  // x^a e^-x / Gamma(a + 1)
  const front = Math.exp(-stirlingError(shape) - deviance(shape, x)) / Math.sqrt(2 * Math.PI * shape);
  const density = (front * shape) / x;
  if (x <= shape) {
    const lower = front * series(x, shape);
    return { lower, upper: 1 - lower, density };
  }
  const upper = front * shape * fraction(x, shape);
  return { lower: 1 - upper, upper, density };
}

/** 1 + x / (a + 1) + x^2 / ((a + 1) (a + 2)) + ... */
function series(x: number, shape: number): number {
  let sum = 1;
  let term = 1;
  for (let k = 1; ; k++) {
    term *= x / (shape + k);
    const next = sum + term;
    if (next === sum) return sum;
    sum = next;
  }
}

/** 1 / (x + 1 - a - 1 (1 - a) / (x + 3 - a - 2 (2 - a) / (x + 5 - a - ...))), from the front, each step by what it multiplies. */
function fraction(x: number, shape: number): number {
  let down = x + 1 - shape;
  let up = Number.POSITIVE_INFINITY;
  let inverse = 1 / down;
  let value = inverse;
  for (let k = 1; ; k++) {
    const part = k * (shape - k);
    down += 2;
    inverse = 1 / (part * inverse + down);
    up = down + part / up;
    if (up === 0) return value;
    const by = up * inverse;
    value *= by;
    if (Math.abs(by - 1) <= 1e-16) return value;
  }
}
