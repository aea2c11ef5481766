import { logGamma, normalLowerTail, normalUpperTail } from "../shared/distributions.js";
import { rootBetween } from "../shared/root.js";

/** Degrees of freedom (above 0) and mean shift of the normal in the numerator. */
export interface NoncentralT {
  readonly df: number;
  readonly shift: number;
}

/**
 * P(T <= t) and P(T > t) of Student's t with a shifted normal in the numerator.
 *
 * P(T <= t) is the mean of Phi(t s - shift) over s, the root of chi-square over its degrees of freedom. Over u = log s the integrand is
 * smooth and falls off at both ends, so that equal steps (the trapezoid rule) converge faster than any power; each tail is summed by
 * itself.
 *
 * @source Johnson & Welch 1940, Biometrika 31:362 (distribution); Trefethen & Weideman 2014, SIAM Rev 56:385 (equal steps)
 */
export function noncentralTTails(t: number, { df, shift }: NoncentralT): { lower: number; upper: number } {
  const constant = Math.log(2) + (df / 2) * Math.log(df / 2) - logGamma(df / 2);
  const step = 0.4 / (Math.sqrt(df) + Math.abs(shift) + 1);
  let lower = 0;
  let upper = 0;
  let total = 0;
  const add = (u: number): boolean => {
    const s = Math.exp(u);
    const density = Math.exp(constant + df * (u - (s * s) / 2));
    total += density;
    lower += density * normalLowerTail(t * s - shift);
    upper += density * normalUpperTail(t * s - shift);
    return density > 1e-40;
  };
  for (let k = 0; add(k * step); k++);
  for (let k = -1; add(k * step); k--);
  return { lower: lower / total, upper: upper / total };
}

/**
 * Limits of the shift given an observed t: the shifts under which it is the upper and the lower quantile.
 *
 * @source Steiger & Fouladi 1997, in What If There Were No Significance Tests?
 */
export function shiftLimits(
  t: number,
  options: { readonly df: number; readonly level: number },
): [number, number] {
  const { df, level } = options;
  const tail = (1 - level) / 2;
  const reach = (sign: 1 | -1, excess: (shift: number) => number): number => {
    let width = 4;
    while (excess(t + sign * width) > 0) width *= 2;
    return rootBetween(excess, [t, t + sign * width]);
  };
  return [
    reach(-1, (shift) => noncentralTTails(t, { df, shift }).upper - tail),
    reach(1, (shift) => noncentralTTails(t, { df, shift }).lower - tail),
  ];
}

/**
 * The t with P(T <= t) = p of Student's t with a shifted normal in the numerator: root of the nearer tail.
 *
 * @param p above 0, below 1
 */
export function noncentralTQuantile(p: number, distribution: NoncentralT): number {
  const excess = (t: number): number => {
    const { lower, upper } = noncentralTTails(t, distribution);
    return p <= 0.5 ? lower - p : 1 - p - upper;
  };
  const middle = distribution.shift;
  const sign = excess(middle) > 0 ? -1 : 1;
  let width = 1 + Math.abs(middle) / 10;
  while (sign * excess(middle + sign * width) < 0) width *= 2;
  return rootBetween(excess, [middle, middle + sign * width]);
}
