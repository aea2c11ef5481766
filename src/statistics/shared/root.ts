/**
 * Root of a continuous function between two ends where its signs differ: inverse quadratic steps, kept inside by halving.
 *
 * @returns the end itself where the function is 0 there; the middle of the last bracket otherwise, to about the precision of a number
 * @source Brent 1973, Algorithms for Minimization without Derivatives, chapter 4
 */
export function rootBetween(f: (x: number) => number, ends: readonly [number, number]): number {
  let [a, b] = ends;
  let fa = f(a);
  let fb = f(b);
  let c = a;
  let fc = fa;
  let step = b - a;
  let before = step;
  for (let round = 0; round < 200; round++) {
    if (Math.sign(fb) === Math.sign(fc)) {
      c = a;
      fc = fa;
      step = b - a;
      before = step;
    }
    if (Math.abs(fc) < Math.abs(fb)) {
      [a, b, c] = [b, c, b];
      [fa, fb, fc] = [fb, fc, fb];
    }
    const tolerance = 2 * Number.EPSILON * Math.abs(b) + Number.MIN_VALUE;
    const half = (c - b) / 2;
    if (Math.abs(half) <= tolerance || fb === 0) return b;
    if (Math.abs(before) >= tolerance && Math.abs(fa) > Math.abs(fb)) {
      const [p, q] = interpolated({ a, b, c, fa, fb, fc });
      const inside = 2 * p < Math.min(3 * half * q - Math.abs(tolerance * q), Math.abs(before * q));
      before = inside ? step : half;
      step = inside ? p / q : half;
    } else {
      step = half;
      before = half;
    }
    a = b;
    fa = fb;
    b += Math.abs(step) > tolerance ? step : Math.sign(half) * tolerance;
    fb = f(b);
  }
  return b;
}

interface Three {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly fa: number;
  readonly fb: number;
  readonly fc: number;
}

/** Numerator (0 or more) and denominator of the step: secant from two points, inverse quadratic from three. */
function interpolated({ a, b, c, fa, fb, fc }: Three): [number, number] {
  const s = fb / fa;
  let p: number;
  let q: number;
  if (a === c) {
    p = (c - b) * s;
    q = 1 - s;
  } else {
    const r = fa / fc;
    const t = fb / fc;
    p = s * ((c - b) * r * (r - t) - (b - a) * (t - 1));
    q = (r - 1) * (t - 1) * (s - 1);
  }
  return p > 0 ? [p, -q] : [-p, q];
}
