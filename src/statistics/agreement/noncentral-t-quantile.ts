import { type NoncentralT, noncentralTTails } from "../continuous/noncentral-t.js";
import { rootBetween } from "../shared/root.js";

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
