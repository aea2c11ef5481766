import { normalUpperTail } from "../distributions.js";

/**
 * Quantile of the non-central t distribution: the t with P((Z + delta) / sqrt(V / df) <= t) = p, Z standard normal, V chi-square.
 *
 * P = E[ Phi(t s - delta) ] over s = sqrt(V / df), integrated on the scale u = log s, where the density is proportional to
 * exp(df (u - exp(2u) / 2)), by the trapezoidal rule: for a smooth integrand that vanishes at both ends it converges
 * exponentially, and the density needs no normalising constant beyond its own sum. Good to about 1e-13 in p.
 *
 * @param p above 0, below 1
 * @param options df: above 0; delta: non-centrality, any finite number
 * @source Johnson & Welch 1940, Biometrika 31:362; rule: Goodwin 1949, Proc Camb Philos Soc 45:241
 */
export function noncentralTQuantile(
  p: number,
  options: { readonly df: number; readonly delta: number },
): number {
  const { delta } = options;
  const nodes = scaleNodes(options);
  let low = delta - 1;
  let high = delta + 1;
  while (lowerTail(low, delta, nodes).share > p) low -= 2 * (high - low);
  while (lowerTail(high, delta, nodes).share < p) high += 2 * (high - low);
  let t = (low + high) / 2;
  // a Newton step where it stays inside the bracket, a bisection where it does not
  for (let step = 0; step < 200; step++) {
    const { share, density } = lowerTail(t, delta, nodes);
    if (share < p) low = t;
    else high = t;
    const newton = t - (share - p) / density;
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (Math.abs(next - t) <= 1e-15 * Math.max(1, Math.abs(t))) return next;
    t = next;
  }
  return t;
}

/** Points of s and their weights, which sum to 1. */
interface ScaleNodes {
  readonly scales: Float64Array;
  readonly weights: Float64Array;
}

/** Terms below exp(-this) of the largest are left out. */
const smallestExponent = 45;

function scaleNodes({ df, delta }: { readonly df: number; readonly delta: number }): ScaleNodes {
  const exponent = (u: number): number => df * (u - (Math.exp(2 * u) - 1) / 2);
  // the density is about 1 / sqrt(2 df) wide, the normal integral about 1 / delta
  const step = 1 / (4 * Math.max(1, Math.sqrt(2 * df), Math.abs(delta)));
  const scales: number[] = [];
  const weights: number[] = [];
  const walk = (from: number, by: number): void => {
    for (let u = from; exponent(u) > -smallestExponent; u += by) {
      scales.push(Math.exp(u));
      weights.push(Math.exp(exponent(u)));
    }
  };
  walk(0, step);
  walk(-step, -step);
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return {
    scales: Float64Array.from(scales),
    weights: Float64Array.from(weights, (weight) => weight / total),
  };
}

function lowerTail(
  t: number,
  delta: number,
  { scales, weights }: ScaleNodes,
): { share: number; density: number } {
  let share = 0;
  let density = 0;
  for (let at = 0; at < scales.length; at++) {
    const s = scales[at] as number;
    const weight = weights[at] as number;
    const z = t * s - delta;
    share += weight * normalUpperTail(-z);
    density += weight * s * Math.exp((-z * z) / 2);
  }
  return { share, density: density / Math.sqrt(2 * Math.PI) };
}
