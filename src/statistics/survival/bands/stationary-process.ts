/**
 * How likely a stationary Ornstein-Uhlenbeck process (standard normal at each time, correlation e^-t) is to stay between -c and c
 * for a time T. This is the limit of a standardised product-limit curve on the time scale of equal-precision bands.
 *
 * With f the even solution of f'' - x f' = s f, the Laplace transform of the probability over T is
 *   (2 Phi(c) - 1) / s - 2 phi(c) f'(c) / (s^2 f(c)).
 * Its poles give a series of exponentials (long T); its expansion in powers of 1 / sqrt(s) gives one in powers of sqrt(T) (short T).
 * Both are exact; each is used where it needs few terms.
 */
import { normalTwoSided } from "../../shared/distributions.js";

const density = (x: number): number => Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);

/** f, its derivative by x and its derivative by the eigenvalue, at x = c. */
interface Solution {
  readonly value: number;
  readonly slope: number;
  readonly byEigenvalue: number;
}

/** Longest step of the Taylor series, in units of 1 / sqrt(eigenvalue + 1): short enough to cancel nothing. */
const longestPhase = 1.5;
const mostTerms = 60;

/** Even solution of f'' - x f' + lambda f = 0 with f(0) = 1, by Taylor series from point to point; g = df / dlambda beside it. */
function evenSolution(lambda: number, c: number): Solution {
  const steps = Math.ceil((c * Math.sqrt(lambda + 1)) / longestPhase);
  const h = c / steps;
  let f = 1;
  let slope = 0;
  let g = 0;
  let slopeOfG = 0;
  for (let step = 0; step < steps; step++) {
    const x = step * h;
    let [a0, a1, b0, b1] = [f, slope * h, g, slopeOfG * h];
    [f, slope, g, slopeOfG] = [a0 + a1, a1, b0 + b1, b1];
    for (let k = 0; k < mostTerms; k++) {
      const over = (h * h) / ((k + 1) * (k + 2));
      const a2 = over * ((k - lambda) * a0 + ((k + 1) * x * a1) / h);
      const b2 = over * ((k - lambda) * b0 + ((k + 1) * x * b1) / h - a0);
      f += a2;
      slope += (k + 2) * a2;
      g += b2;
      slopeOfG += (k + 2) * b2;
      [a0, a1, b0, b1] = [a1, a2, b1, b2];
      const small = 1e-18 * (Math.abs(f) + Math.abs(slope));
      if (k > 8 && Math.abs(a1) < small && Math.abs(a0) < small) break;
    }
    slope /= h;
    slopeOfG /= h;
  }
  return { value: f, slope, byEigenvalue: g };
}

/** The eigenvalue between two points where f(c) has different signs, by Newton's method kept inside them. */
function eigenvalueBetween(start: { low: number; high: number; signAtLow: number }, c: number): number {
  let { low, high } = start;
  let lambda = (low + high) / 2;
  for (let step = 0; step < 100; step++) {
    const { value, byEigenvalue } = evenSolution(lambda, c);
    const next = lambda - value / byEigenvalue;
    if (Math.abs(next - lambda) <= 2 * Number.EPSILON * lambda) return next;
    if (value * start.signAtLow > 0) low = lambda;
    else high = lambda;
    lambda = next > low && next < high ? next : (low + high) / 2;
  }
  return lambda;
}

/** A term this small beside the sum ends the series. */
const negligible = 1e-17;

/**
 * Sum of exponentials. Neighbouring eigenvalues are at least 2 apart and their distance grows, so that a walk in steps of under half
 * the last distance meets each.
 */
function stayLong(c: number, duration: number): number {
  let probability = 0;
  let low = 0;
  let last = 0;
  let walk = Math.max(0.9, 0.4 * (Math.PI / (2 * c)) ** 2);
  let sign = 1;
  for (;;) {
    const high = low + walk;
    if (evenSolution(high, c).value * sign > 0) {
      low = high;
      continue;
    }
    const lambda = eigenvalueBetween({ low, high, signAtLow: sign }, c);
    const { slope, byEigenvalue } = evenSolution(lambda, c);
    const term = ((2 * density(c) * slope) / (lambda * lambda * byEigenvalue)) * Math.exp(-lambda * duration);
    probability += term;
    if (Math.abs(term) < negligible || lambda * duration > 745) return probability;
    if (last > 0) walk = Math.max(walk, 0.45 * (lambda - last));
    last = lambda;
    low = high;
    sign = -sign;
  }
}

/** Terms of the expansion in powers of sqrt(T). */
const terms = 14;

type Polynomial = Float64Array;
const valueAt = (p: Polynomial, x: number): number => p.reduceRight((sum, a) => sum * x + a, 0);

/**
 * Coefficients r_k at c of f'(c) / f(c) = sqrt(s) + r_0 + r_1 / sqrt(s) + ..., by the Riccati equation r' = s + x r - r^2:
 * r_0 = x / 2, r_(k+1) = (x r_k - sum of r_i r_(k-i) - r_k') / 2, each a polynomial in x. The other boundary adds e^(-2 c sqrt(s)) only.
 */
function riccatiCoefficients(c: number): number[] {
  const size = 2 * terms + 2;
  const all: Polynomial[] = [Float64Array.from({ length: size }, (_, power) => (power === 1 ? 0.5 : 0))];
  for (let k = 0; k + 1 < terms; k++) {
    const own = all[k]!;
    const next = new Float64Array(size);
    for (let power = 0; power + 1 < size; power++) {
      next[power + 1]! += own[power]! / 2;
      next[power]! -= ((power + 1) * own[power + 1]!) / 2;
    }
    for (let i = 0; i <= k; i++) {
      const [a, b] = [all[i]!, all[k - i]!];
      for (let m = 0; m < size; m++) for (let n = 0; m + n < size; n++) next[m + n]! -= (a[m]! * b[n]!) / 2;
    }
    all.push(next);
  }
  return all.map((p) => valueAt(p, c));
}

/** T^(k / 2) / Gamma(k / 2 + 1) for k = 1, 2, ... are the inverse transforms. */
function stayShort(c: number, duration: number): number {
  const root = Math.sqrt(duration);
  let odd = (2 * root) / Math.sqrt(Math.PI); // T^(1/2) / Gamma(3/2)
  let even = duration; // T / Gamma(2)
  let sum = odd;
  riccatiCoefficients(c).forEach((r, k) => {
    if (k % 2 === 0) {
      sum += r * even;
      even *= duration / (k / 2 + 2);
    } else {
      odd *= duration / ((k + 1) / 2 + 0.5);
      sum += r * odd;
    }
  });
  return 1 - normalTwoSided(c) - 2 * density(c) * sum;
}

/** Below this duration, and where the two boundaries do not feel each other, the short expansion is exact to 1e-12. */
const shortBelow = 0.03;

/** P(|U(t)| <= c for all t in [0, duration]) of the stationary process; duration 0: P(|Z| <= c). */
export function probabilityOfStaying(c: number, duration: number): number {
  return duration < Math.min(shortBelow, (c * c) / 30) ? stayShort(c, duration) : stayLong(c, duration);
}
