import { deviance, stirlingError } from "./saddle-point.js";

/**
 * Both tails and the density of the beta distribution for large parameters (both 15 or more), where the library's own expansion goes astray
 * near the mean.
 *
 * The tail on the near side of the mean is x^a (1 - x)^b / B(a, b) times a continued fraction whose terms are all positive there, so
 * that nothing cancels; the other is its complement. About sqrt(a + b) / 8 steps near the mean.
 *
 * @source Didonato & Morris 1992, ACM Trans Math Softw 18:360 (continued fraction); Loader 2000, Fast and
 * accurate computation of binomial probabilities (the factor before it)
 */
export function largeBetaTails(
  x: number,
  { a, b }: { readonly a: number; readonly b: number },
): { readonly lower: number; readonly upper: number; readonly density: number } {
  const y = 1 - x;
  const total = a + b;
  const below = a > b ? total * y - b : a - total * x;
  const front = frontOf({ x, y, a, b });
  const density = front / x / y;
  if (below >= 0) {
    const lower = front * fraction({ x, y, a, b, below });
    return { lower, upper: 1 - lower, density };
  }
  const upper = front * fraction({ x: y, y: x, a: b, b: a, below: -below });
  return { lower: 1 - upper, upper, density };
}

interface Point {
  readonly x: number;
  readonly y: number;
  readonly a: number;
  readonly b: number;
}

/** x^a y^b / B(a, b). */
function frontOf({ x, y, a, b }: Point): number {
  const n = a + b;
  const exponent =
    stirlingError(n) - stirlingError(a) - stirlingError(b) - deviance(a, n * x) - deviance(b, n * y);
  return Math.exp(exponent) * Math.sqrt((a / n) * (b / (2 * Math.PI)));
}

const mostSteps = 1_000_000;

function fraction({ x, y, a, b, below }: Point & { readonly below: number }): number {
  const c = 1 + below;
  const c1 = 1 + 1 / a;
  let p = 1;
  let s = a + 1;
  let numerator = 0;
  let denominator = 1;
  let nextNumerator = 1;
  let nextDenominator = c / c1;
  let ratio = c1 / c;
  for (let n = 1; n < mostSteps; n++) {
    const t = n / a;
    const w = n * (b - n) * x;
    const e = a / s;
    const alpha = p * (p + b / a) * e * e * (w * x);
    const beta = n + w / s + ((1 + t) / (c1 + 2 * t)) * (c + n * (1 + y));
    p = 1 + t;
    s += 2;
    const newNumerator = alpha * numerator + beta * nextNumerator;
    const newDenominator = alpha * denominator + beta * nextDenominator;
    const before = ratio;
    ratio = newNumerator / newDenominator;
    if (Math.abs(ratio - before) <= 1e-16 * ratio) break;
    numerator = nextNumerator / newDenominator;
    denominator = nextDenominator / newDenominator;
    nextNumerator = ratio;
    nextDenominator = 1;
  }
  return ratio;
}
