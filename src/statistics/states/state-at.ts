import { ArgumentError } from "../shared/arguments.js";
import { countBelow, countUpTo } from "../shared/distinct-times.js";
import { normalCritical } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import { checkResult, needed, number, type OptionsOf, readOptions } from "../shared/options.js";
import { limitsOfStates, sizeOf } from "./state-limits.js";
import type { StateCurve, StateProbabilities } from "./state-probabilities.js";

/** What the curves say of one state at one time. */
export interface StateAt {
  readonly time: number;
  readonly state: number;
  readonly share: number | null;
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** Rows in the state just before this time. */
  readonly atRisk: number;
  /** Moves into the state, and out of it, up to and including this time. */
  readonly entered: number;
  readonly left: number;
  /** Rows just before this time in any state. */
  readonly followed: number;
  /**
   * States that can be left and have a share at this time, but in which nobody is followed from this time on: their share is carried
   * flat, and so is what depends on it.
   */
  readonly notFollowed: readonly number[];
  /** Why there is no share. */
  readonly reason: Reason | null;
  /** Independent units that tell of a share of 0 or 1: those whose state is known, or who were seen to leave it or come to it; 0 without a share. */
  readonly size: number;
  /** Why there is a share and no limits. */
  readonly limitsReason: Reason | null;
}

export const stateQuestion = {
  time: needed(number("not negative")),
  /** Number of the state. */
  state: needed(number("count")),
};

export interface StateQuestion extends OptionsOf<typeof stateQuestion> {}

/** Rows of a state just before a time: begun and not ended. */
function atRiskIn(
  state: StateCurve | undefined,
  at: { readonly times: readonly number[]; readonly time: number },
): number {
  if (state === undefined) return 0;
  const begun = countBelow(state.began.times, at.time);
  return (
    (begun === 0 ? 0 : state.began.total[begun - 1]!) - sumOf(state.ended, countBelow(at.times, at.time))
  );
}

function sumOf(counts: readonly number[], length: number): number {
  let sum = 0;
  for (let i = 0; i < length; i++) sum += counts[i]!;
  return sum;
}

const shareAfter = (state: StateCurve, reached: number): number =>
  reached === 0 ? state.initial : state.share[reached - 1]!;

/** Whether a row of the state ends at or after the time. */
function isFollowed({ ended }: StateCurve, from: number): boolean {
  for (let i = from; i < ended.length; i++) if (ended[i]! > 0) return true;
  return false;
}

/**
 * Share in a state at any time; null, `beyond-follow-up`, after the last follow-up while anybody is in a state that can be left.
 *
 * `notFollowed` names states whose share was carried flat for want of anybody followed in them: after a return, for instance, where
 * following ends with it.
 *
 * @param options time: 0 or more; state: a number. A state in which nobody was has share 0.
 * @returns nulls with `no-rows` for no rows
 * @throws ArgumentError for a time or state out of range
 */
export function stateAt(curve: StateProbabilities, options: StateQuestion): StateAt {
  checkResult(
    { curve },
    { expected: "a result of stateProbabilities", has: ["times", "states", "units", "scale"] },
  );
  const { time, state } = readOptions(stateQuestion, options);
  const { times, states } = curve;
  const reached = countUpTo(times, time);
  const own = states.find((one) => one.state === state);
  const followed = states.reduce((sum, one) => sum + atRiskIn(one, { times, time }), 0);
  const open = states.filter((one) => !one.absorbing && shareAfter(one, reached) > 0);
  const next = countBelow(times, time);
  const notFollowed = open.filter((one) => !isFollowed(one, next)).map((one) => one.state);
  const counts = {
    time,
    state,
    atRisk: atRiskIn(own, { times, time }),
    entered: own === undefined ? 0 : sumOf(own.entered, reached),
    left: own === undefined ? 0 : sumOf(own.left, reached),
    followed,
    notFollowed,
  };
  const beyond = curve.lastTime !== null && time > curve.lastTime && open.length > 0;
  const reason = curve.lastTime === null ? "no-rows" : beyond ? "beyond-follow-up" : null;
  if (reason !== null) {
    const none = { share: null, standardError: null, lower: null, upper: null, size: 0 };
    return { ...counts, ...none, reason, limitsReason: reason };
  }
  const share = own === undefined ? 0 : shareAfter(own, reached);
  const standardError =
    own === undefined ? 0 : reached === 0 ? own.initialError : own.standardError[reached - 1];
  if (standardError === undefined)
    throw new ArgumentError({
      argument: "time",
      index: null,
      expected: "no later than the errors of the curve were asked for (errorsUntil)",
      found: time,
    });
  const absorbed = states.reduce((sum, one) => (one.absorbing ? sum + sumOf(one.entered, next) : sum), 0);
  const size = sizeOf({ share, known: followed + absorbed, ...counts }, curve);
  const point = { share, standardError, size };
  const limits = limitsOfStates([point], { scale: curve.scale, z: normalCritical(curve.level) });
  const [lower, upper] = [limits.lower[0]!, limits.upper[0]!];
  const silent = counts.entered + counts.left === 0 ? "no-events" : "no-variance";
  const limitsReason = lower === null ? silent : null;
  return { ...counts, share, standardError, lower, upper, size, reason: null, limitsReason };
}
