import { ArgumentError, checkColumn } from "../shared/arguments.js";
import { confidenceLevel, list } from "../shared/options.js";

/** What every walk through the states takes. */
export const walkOptions = {
  /** Default 0.95. */
  level: confidenceLevel,
  /**
   * Share of each state at the start, by its number: `initial[2]` that of state 2. They have no error. Default: the shares of those at
   * risk at the first move.
   */
  initial: list<ArrayLike<number>>(),
  /** Numbers of the states that nobody can leave. Default: those from which no row begins. */
  absorbing: list<ArrayLike<number>>(),
};

/** How far shares that are to add up to 1 may be off for rounding. */
const rounding = 1e-9;

/** @throws ArgumentError naming the option and the index at fault */
export function checkWalk(options: {
  readonly initial?: ArrayLike<number>;
  readonly absorbing?: ArrayLike<number>;
}): void {
  const { initial, absorbing } = options;
  if (absorbing !== undefined) checkColumn({ name: "absorbing", values: absorbing }, "count");
  if (initial === undefined) return;
  checkColumn({ name: "initial", values: initial }, "not negative");
  const sum = Array.from(initial).reduce((total, share) => total + share, 0);
  if (Math.abs(sum - 1) > rounding)
    throw new ArgumentError({
      argument: "initial",
      index: null,
      expected: "shares that add up to 1",
      found: sum,
    });
}

/** Numbers of the states that have a share at the start. */
export const statesOfInitial = (initial: ArrayLike<number> | undefined): readonly number[] =>
  initial === undefined ? [] : Array.from(initial).flatMap((share, code) => (share > 0 ? [code] : []));
