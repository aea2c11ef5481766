import type { AlikeRows } from "./alike-rows.js";
import { convexMinorantStep } from "./convex-minorant.js";
import { distanceFromMaximum, gradientAt, logLikelihoodAt, roundingOf } from "./likelihood.js";
import { newtonOnSupport } from "./newton-on-support.js";

/** The end of the iterations. */
export interface Maximum {
  /** Sums of mass at the ends of the innermost intervals: 0 first, 1 last. */
  readonly mass: Float64Array;
  /** See gradientAt. */
  readonly gradient: Float64Array;
  /** How far the conditions for the maximum are missed, as a part of the total weight. */
  readonly distance: number;
  readonly iterations: number;
  readonly converged: boolean;
}

/** Self-consistency step: each mass times its gradient over the total weight. */
function expectationStep(
  mass: Float64Array,
  at: { readonly gradient: Float64Array; readonly total: number },
): Float64Array {
  const { gradient, total } = at;
  const next = new Float64Array(mass.length);
  for (let j = 0; j < gradient.length; j++)
    next[j + 1] = next[j]! + ((mass[j + 1]! - mass[j]!) * gradient[j]!) / total;
  const sum = next[gradient.length]!;
  return next.map((value) => value / sum);
}

/** A mass this small is what rounding left of none. */
const dust = 1e-14;

/** The sums without dust, unless a row lives on it. */
function withoutDust(rows: AlikeRows, mass: Float64Array): Float64Array {
  const { count } = rows;
  const clean = mass.slice();
  for (let b = 1; b < count; b++) {
    if (clean[b]! - clean[b - 1]! <= dust) clean[b] = clean[b - 1]!;
    if (1 - clean[b]! <= dust) clean[b] = 1;
  }
  return Number.isFinite(logLikelihoodAt(rows, clean)) ? clean : mass;
}

/** From this distance on, Newton's method on the support is tried. */
const nearEnough = 0.01;

/**
 * Maximum likelihood by rounds of one self-consistency step, one step of the iterative convex minorant and, once near, Newton's method on the
 * support, until the conditions for the maximum hold everywhere.
 */
export function maximise(
  rows: AlikeRows,
  options: { readonly tolerance: number; readonly maximumIterations: number },
): Maximum {
  const { count, total } = rows;
  let mass: Float64Array = Float64Array.from({ length: count + 1 }, (_, b) => b / count);
  let gradient = gradientAt(rows, mass);
  let distance = distanceFromMaximum(gradient, { mass, total });
  let enough = Math.max(options.tolerance, roundingOf(rows, mass));
  let iterations = 0;
  const settle = (next: Float64Array): void => {
    mass = withoutDust(rows, next);
    gradient = gradientAt(rows, mass);
    distance = distanceFromMaximum(gradient, { mass, total });
    enough = Math.max(options.tolerance, roundingOf(rows, mass));
  };
  while (distance > enough && iterations < options.maximumIterations) {
    iterations++;
    settle(convexMinorantStep(rows, expectationStep(mass, { gradient, total })));
    if (distance > enough && distance < nearEnough) settle(newtonOnSupport(rows, mass));
  }
  return { mass, gradient, distance, iterations, converged: distance <= enough };
}
