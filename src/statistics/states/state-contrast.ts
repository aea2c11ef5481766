import { checkColumn } from "../shared/arguments.js";
import type { Reason } from "../shared/figure.js";
import {
  checkColumnNames,
  checkResult,
  confidenceLevel,
  list,
  type NamesOf,
  needed,
  number,
  type OptionsOf,
  readOptions,
} from "../shared/options.js";
import { shareDifference } from "../survival/small-sample.js";
import { type StateAt, stateAt } from "./state-at.js";
import { hasScoreLimits, pointOf } from "./state-limits.js";
import type { StateProbabilities } from "./state-probabilities.js";

/** The shares of two independent groups. */
export interface TwoStateProbabilities {
  readonly a: StateProbabilities;
  readonly b: StateProbabilities;
}

const twoNames: NamesOf<TwoStateProbabilities> = { a: true, b: true };

/** Share in a state at one time in two groups. */
export interface StateContrast {
  readonly time: number;
  readonly state: number;
  readonly a: StateAt;
  readonly b: StateAt;
  /** Share of a less that of b, with limits recovered from the score limits of the two. */
  readonly difference: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly p: number | null;
  readonly level: number;
  readonly reason: Reason | null;
}

export const stateContrastOptions = {
  /** Number of the state. */
  state: needed(number("count")),
  /** Times, 0 or more. */
  times: needed(list<ArrayLike<number>>()),
  /** Of the limits, whatever the level of the curves. Default 0.95. */
  level: confidenceLevel,
};

export interface StateContrastOptions extends OptionsOf<typeof stateContrastOptions> {}

function contrastAt(at: { readonly a: StateAt; readonly b: StateAt }, level: number): StateContrast {
  const { a, b } = at;
  const common = { time: a.time, state: a.state, a, b, level };
  const none = { lower: null, upper: null, p: null };
  if (a.share === null || b.share === null)
    return { ...common, ...none, difference: null, reason: a.reason ?? b.reason };
  const [first, second] = [pointIn(a, a.share), pointIn(b, b.share)];
  if (!hasScoreLimits(first) || !hasScoreLimits(second))
    return { ...common, ...none, difference: a.share - b.share, reason: "no-variance" };
  const found = shareDifference(pointOf(first), pointOf(second), { level });
  const { estimate, lower, upper, p, reason } = found;
  return { ...common, difference: estimate, lower, upper, p, reason };
}

const pointIn = ({ standardError, size }: StateAt, share: number) => ({
  share,
  standardError: standardError ?? 0,
  size,
});

/**
 * Shares in a state at given times in two independent groups: the difference with limits recovered from the score limits of the two shares
 * (see shareDifference), which stay within -1 to 1 and exist where nobody or everybody is in the state.
 *
 * Curves with clusters bring their own errors, but people with rows in both groups are not accounted for.
 *
 * @returns one entry a time, in the order asked; where a share has no value the difference has its reason (`beyond-follow-up`, `no-rows`)
 * @throws ArgumentError naming the index of a time at fault, the state or the level
 * @source Aalen & Johansen 1978, Scand J Stat 5:141; recovery: Newcombe 1998, Stat Med 17:873, Zou & Donner 2008, Stat Med 27:1693
 */
export function stateContrast(curves: TwoStateProbabilities, options: StateContrastOptions): StateContrast[] {
  checkColumnNames(twoNames, { curves });
  const { a, b } = curves;
  checkResult(
    { a, b },
    { expected: "a result of stateProbabilities", has: ["times", "states", "units", "scale"] },
  );
  const { state, times, level } = readOptions(stateContrastOptions, options);
  checkColumn({ name: "times", values: times }, "not negative");
  return Array.from(times, (time) =>
    contrastAt({ a: stateAt(a, { time, state }), b: stateAt(b, { time, state }) }, level),
  );
}
