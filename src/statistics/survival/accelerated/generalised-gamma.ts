import { gammaLowerTail, gammaUpperTail, logGamma, normalQuantile } from "../../shared/distributions.js";
import { rootBetween } from "../../shared/root.js";
import { type ErrorLaw, logRootTwoPi } from "./error-law.js";

/** From shapes so far from 0 on the tails are those of a gamma law of shape at most 16, where the library's functions keep their digits. */
const farFromNormal = 0.25;
/** A tail below this is computed by its logarithm. */
const tiny = 1e-280;

/** Log density at z = 0: log(|q| a^a e^-a / Gamma(a)), a = 1 / q^2; for large a by Stirling's series. */
function logDensityAtZero(q: number): number {
  const over = q * q;
  if (over < 0.02) {
    const square = over * over;
    return -logRootTwoPi - over * (1 / 12 - square * (1 / 360 - square * (1 / 1260 - square / 1680)));
  }
  const a = 1 / over;
  return Math.log(Math.abs(q)) + a * Math.log(a) - a - logGamma(a);
}

/** (x - expm1(x)) / q^2 with x = q z, without cancellation: -z^2 (1/2 + x/6 + x^2/24 + ...). */
function fallFromZero(z: number, q: number): number {
  const x = q * z;
  if (Math.abs(x) > 0.1) return (x - Math.expm1(x)) / (q * q);
  let sum = 0;
  let term = 0.5;
  for (let k = 3; k < 16; k++) {
    sum += term;
    term *= x / k;
  }
  return -z * z * sum;
}

/** log of Gamma(a, u) / (u^a e^-u), u far above a, by Legendre's continued fraction from its end. */
function logUpperRest(u: number, a: number): number {
  let tail = u + 1 - a + 2 * 200;
  for (let k = 200; k >= 1; k--) tail = u + 1 - a + 2 * (k - 1) - (k * (k - a)) / tail;
  return -Math.log(tail);
}

/** log of gamma(a, u) / (u^a e^-u), u far below a, by its series. */
function logLowerRest(u: number, a: number): number {
  let term = 1 / a;
  let sum = term;
  for (let k = 1; k < 200 && term > 1e-17 * sum; k++) {
    term *= u / (a + k);
    sum += term;
  }
  return Math.log(sum);
}

/** Sixteen-point rule of Gauss and Legendre on [-1, 1]: the positive nodes and their weights. */
const nodes = [
  0.09501250983763744, 0.2816035507792589, 0.45801677765722737, 0.6178762444026438, 0.755404408355003,
  0.8656312023878318, 0.9445750230732326, 0.9894009349916499,
] as const;
const nodeWeights = [
  0.18945061045506864, 0.18260341504492364, 0.16915651939500265, 0.1495959888165767, 0.12462897125553407,
  0.0951585116824926, 0.062253523938647456, 0.027152459411754176,
] as const;

/** Panels of the integral, each with the rule above; it ends where the density has fallen by the factor e^-38. */
const panels = 3;
const negligible = -38;

/** log of the upper integral of a density, z >= 0, relative to the density at z, so that it is exact far out as well. */
function logIntegralAbove(z: number, logDensity: (z: number) => number): number {
  const here = logDensity(z);
  let reach = 1;
  while (logDensity(z + reach) - here > negligible) reach *= 1.5;
  const half = reach / panels / 2;
  let sum = 0;
  for (let panel = 0; panel < panels; panel++) {
    const middle = z + (2 * panel + 1) * half;
    nodes.forEach((node, k) => {
      const both =
        Math.exp(logDensity(middle - half * node) - here) + Math.exp(logDensity(middle + half * node) - here);
      sum += nodeWeights[k]! * both;
    });
  }
  return here + Math.log(half * sum);
}

/** log P(e > z), z >= 0, by the tails of the gamma law. */
function logGammaTail(
  z: number,
  of: { readonly q: number; readonly logDensity: (z: number) => number },
): number {
  const { q, logDensity } = of;
  const a = 1 / (q * q);
  const u = a * Math.exp(q * z);
  const tail = q > 0 ? gammaUpperTail(u, a) : gammaLowerTail(u, a);
  if (tail > tiny) return Math.log(tail);
  const rest = q > 0 ? logUpperRest(u, a) : logLowerRest(u, a);
  return logDensity(z) - Math.log(Math.abs(q)) + rest;
}

/**
 * Error of the generalised gamma law: e = log(q^2 G) / q, G of the gamma law of shape 1 / q^2. At q = 1 the smallest extreme value (Weibull
 * times), at q = 0 the normal law, to which it comes down smoothly from both sides.
 *
 * Log density: log(|q| a^a e^-a / Gamma(a)) + a (q z - e^(q z) + 1), a = 1 / q^2. P(e > z) is the upper tail of G at a e^(q z) where q > 0,
 * the lower tail where q < 0.
 *
 * @source Prentice 1974, Biometrika 61:539
 */
export function generalisedGammaLaw(q: number): ErrorLaw {
  const top = logDensityAtZero(q);
  const logDensity = (z: number): number => top + fallFromZero(z, q);
  const mirrored = (z: number): number => logDensity(-z);
  const near = Math.abs(q) < farFromNormal;
  // the law of -e is that of shape -q
  const above = (z: number): number =>
    near ? logIntegralAbove(z, logDensity) : logGammaTail(z, { q, logDensity });
  const below = (z: number): number =>
    near ? logIntegralAbove(z, mirrored) : logGammaTail(z, { q: -q, logDensity: mirrored });
  // visits fall on few days, so that a likelihood asks for the tail at the same place again and again
  const known = new Map<number, number>();
  const logUpperTail = (z: number): number => {
    const before = known.get(z);
    if (before !== undefined) return before;
    const tail = z < 0 ? Math.log1p(-Math.exp(below(-z))) : above(z);
    known.set(z, tail);
    return tail;
  };
  return {
    logDensity,
    logUpperTail,
    slope: (z) => (q === 0 ? -z : -Math.expm1(q * z) / q),
    curvature: (z) => -Math.exp(q * z),
    quantile: (p) => quantileOf(logUpperTail, p),
  };
}

/** The z with P(e > z) = 1 - p, searched around the normal quantile. */
function quantileOf(logUpperTail: (z: number) => number, p: number): number {
  const wanted = Math.log1p(-p);
  const miss = (z: number): number => logUpperTail(z) - wanted;
  const centre = normalQuantile(p);
  let reach = 1;
  while (miss(centre - reach) < 0 || miss(centre + reach) > 0) reach *= 2;
  return rootBetween(miss, [centre - reach, centre + reach]);
}

/** A step of the shape over which the derivative is taken; five points, so that its error is the step's fourth power. */
const step = 1e-3;

/** Derivative of a function of the shape. */
export const byShape = (f: (shape: number) => number, shape: number): number =>
  (8 * (f(shape + step) - f(shape - step)) - (f(shape + 2 * step) - f(shape - 2 * step))) / (12 * step);
