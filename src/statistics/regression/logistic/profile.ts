import { type Climb, climb } from "./newton.js";
import type { Objective } from "./objective.js";

/** One linear function of the variables, and the maximum from which its profile is measured. */
export interface ProfileQuestion {
  readonly objective: Objective;
  /** The function's value is along' x. */
  readonly along: Float64Array;
  readonly best: number;
  readonly start: Float64Array;
  readonly maximumIterations: number;
  readonly tolerance: number;
}

/** Largest value of the objective where the function has a value, and the slope of that maximum. */
export function profileAt(
  question: ProfileQuestion,
  at: { readonly value: number; readonly start?: Float64Array },
): Climb & { readonly slope: number } {
  const reached = climb(question.objective, {
    start: at.start ?? question.start,
    held: { along: [question.along], values: [at.value] },
    maximumIterations: question.maximumIterations,
    tolerance: question.tolerance,
  });
  return { ...reached, slope: reached.multipliers[0]! };
}

/** So many times the first guess away, the profile is taken never to come down. */
const farOff = 2 ** 40;

/**
 * The value, to one side of where the profile is high enough, at which twice the fall from the best equals the cut.
 *
 * Newton's method by the slope of the profile, kept inside the bracket once there is one.
 *
 * @param search inside: a value whose profile is above the cut; guess: the first value tried
 * @returns null where the profile never falls so far
 */
export function profileLimit(
  question: ProfileQuestion,
  search: { readonly inside: number; readonly guess: number; readonly cut: number },
): number | null {
  let inside = search.inside;
  let outside: number | null = null;
  let value = search.guess;
  let start = question.start;
  const unit = Math.abs(search.guess - search.inside);
  for (let round = 0; round < 200; round++) {
    const there = profileAt(question, { value, start });
    const over = question.best - there.end.value - search.cut / 2;
    if (Number.isFinite(over)) start = there.point;
    if (over > 0 || !Number.isFinite(over)) outside = value;
    else inside = value;
    const newton = value + over / there.slope;
    if (Math.abs(over) < 1e-12 * (1 + Math.abs(question.best))) return newton;
    if (outside === null) {
      const reach = inside - search.inside;
      const furthest = search.inside + 2 * (reach === 0 ? search.guess - search.inside : reach);
      if (Math.abs(reach) > unit * farOff) return null;
      const ahead = (newton - value) * Math.sign(search.guess - search.inside) > 0;
      value =
        ahead && Math.abs(newton - search.inside) < Math.abs(furthest - search.inside) ? newton : furthest;
      continue;
    }
    const between = (x: number): boolean => (x - inside) * (x - outside!) < 0;
    const next = Number.isFinite(newton) && between(newton) ? newton : (inside + outside) / 2;
    if (Math.abs(next - value) <= 1e-13 * (unit + Math.abs(value))) return next;
    value = next;
  }
  return value;
}
