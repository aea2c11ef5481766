import { type Factor, factorSymmetric, solveFactored } from "../../linear/symmetric.js";
import type { Evaluation, Objective } from "./objective.js";

/** Linear functions held at values: along[k]' x = values[k]. */
export interface Held {
  readonly along: readonly Float64Array[];
  readonly values: readonly number[];
}

export interface ClimbOptions {
  readonly start: Float64Array;
  readonly held?: Held;
  readonly maximumIterations: number;
  /** Length of a step at which the iterations stop. */
  readonly tolerance: number;
  /** Called after each step; true ends the iterations. */
  readonly interrupt?: (now: Evaluation) => boolean;
}

export interface Climb {
  readonly point: Float64Array;
  readonly end: Evaluation;
  /**
   * converged: the last step was shorter than the tolerance; flat: no gain is left though the steps are long, as where the likelihood rises
   * to a limit at infinity; interrupted; ran-out: of iterations.
   */
  readonly outcome: "converged" | "flat" | "interrupted" | "ran-out";
  readonly iterations: number;
  /** Multipliers of what is held: the slope of the maximum by each held value. */
  readonly multipliers: Float64Array;
}

/** Longest step, in units of the linear predictor (root mean square over rows). */
const longestStep = 5;
const shortestPart = 1e-9;
/** A step that gains nothing although it is longer than this leads to a limit at infinity, if three follow each other. */
const stillMoving = 1e-5;

const lengthOf = (vector: Float64Array): number => Math.sqrt(vector.reduce((sum, x) => sum + x * x, 0));
const product = (a: Float64Array, b: Float64Array): number => a.reduce((sum, x, i) => sum + x * b[i]!, 0);

/** The matrix of a' B^-1 b over what is held, and its solution. */
function overHeld(along: readonly Float64Array[], moved: readonly Float64Array[]): Factor {
  const size = along.length;
  const matrix = new Float64Array(size * size);
  along.forEach((a, i) => {
    moved.forEach((b, j) => {
      matrix[i * size + j] = product(a, b);
    });
  });
  return factorSymmetric(matrix, { size, tolerance: 1e-14 });
}

/** The nearest point at which what is held has its values. */
function feasible(start: Float64Array, held: Held): Float64Array {
  const away = held.along.map((a, k) => held.values[k]! - product(a, start));
  const by = solveFactored(overHeld(held.along, held.along), away);
  return start.map((x, i) => x + held.along.reduce((sum, a, k) => sum + a[i]! * by[k]!, 0));
}

/** Newton's step; with something held, the step that leaves it where it is, and the multipliers. */
function stepFrom(now: Evaluation, held: Held): { step: Float64Array; multipliers: Float64Array } {
  const factor = factorSymmetric(now.curvature ?? now.information, {
    size: now.gradient.length,
    tolerance: 1e-15,
  });
  const free = solveFactored(factor, now.gradient);
  const moved = held.along.map((a) => solveFactored(factor, a));
  const multipliers = solveFactored(
    overHeld(held.along, moved),
    held.along.map((a) => product(a, free)),
  );
  moved.forEach((m, k) => {
    for (let i = 0; i < free.length; i++) free[i]! -= multipliers[k]! * m[i]!;
  });
  return { step: free, multipliers };
}

/**
 * Newton's method with step halving, for a function that is concave or nearly so.
 *
 * Ends also where steps no longer gain anything: at a finite maximum gain and steps vanish together, towards a limit at infinity only the
 * gain does.
 */
export function climb(objective: Objective, options: ClimbOptions): Climb {
  const { maximumIterations, tolerance, interrupt, held = { along: [], values: [] } } = options;
  let point = held.along.length > 0 ? feasible(options.start, held) : options.start.slice();
  let end = objective.evaluate(point);
  let { step, multipliers } = stepFrom(end, held);
  const finish = (outcome: Climb["outcome"], iterations: number): Climb => ({
    point,
    end,
    outcome,
    iterations,
    multipliers,
  });
  if (point.length === 0) return finish("converged", 0);
  let barren = 0;
  for (let iteration = 1; iteration <= maximumIterations; iteration++) {
    const length = lengthOf(step);
    const slack = (length < stillMoving ? 1e-9 : 1e-12) * (1 + Math.abs(end.value));
    const before = end.value;
    let part = Math.min(1, longestStep / length);
    let next: Evaluation | null = null;
    for (; next === null && part > shortestPart; part /= 2) {
      const trial = point.map((x, i) => x + part * step[i]!);
      const there = objective.evaluate(trial);
      if (!(there.value >= before - slack)) continue;
      next = there;
      point = trial;
    }
    if (next === null) return finish(length < stillMoving ? "converged" : "flat", iteration);
    end = next;
    ({ step, multipliers } = stepFrom(end, held));
    if (length < tolerance) return finish("converged", iteration);
    if (interrupt?.(end)) return finish("interrupted", iteration);
    barren = length > stillMoving && end.value - before <= slack ? barren + 1 : 0;
    if (barren >= 3) return finish("flat", iteration);
  }
  return finish("ran-out", maximumIterations);
}
