import { countUpTo } from "../shared/distinct-times.js";
import { normalCritical } from "../shared/distributions.js";
import { number, type OptionsOf, oneOf, readOptions } from "../shared/options.js";
import { limitsOfStates, type StateScale, sizeOf, stateScales } from "./state-limits.js";
import { checkWalk, statesOfInitial, walkOptions } from "./state-options.js";
import { type StateRiskSets, stateRiskSets } from "./state-risk-sets.js";
import { checkStateRows, type StateRows } from "./state-rows.js";
import { errorsOf, type Standing, startOf, walkStates } from "./state-walk.js";

export const stateProbabilityOptions = {
  ...walkOptions,
  /** Time after which neither errors nor limits are wanted: most of the work is theirs. Default: none. */
  errorsUntil: number("not negative"),
  /** Of the limits. Default "score", the only scale on which a share of 0 or 1 has limits. */
  scale: oneOf(stateScales, "score"),
};

export interface StateProbabilityOptions extends OptionsOf<typeof stateProbabilityOptions> {}

/** One state; the arrays have one entry a time. */
export interface StateCurve {
  readonly state: number;
  /** Nobody can leave it. */
  readonly absorbing: boolean;
  /** Share at the start, with its standard error: 0 where it was given, or where all begin in one state. */
  readonly initial: number;
  readonly initialError: number;
  /** Share in the state after each time. */
  readonly share: readonly number[];
  /** Of the first times only, like the limits, where errors are wanted until one time only. */
  readonly standardError: readonly number[];
  readonly lower: readonly (number | null)[];
  readonly upper: readonly (number | null)[];
  /** Rows in the state just before each time. */
  readonly atRisk: readonly number[];
  /** Moves into it and out of it at each time. */
  readonly entered: readonly number[];
  readonly left: readonly number[];
  /** Rows of the state that ended at each time, whether they moved or not. */
  readonly ended: readonly number[];
  /** Times after which rows of the state began, ascending, and how many had by each; -1 where they are at risk from the start. */
  readonly began: { readonly times: readonly number[]; readonly total: readonly number[] };
}

/** Shares of those in each state over time; `states` in ascending order of their number, `times` those at which a row ended. */
export interface StateProbabilities {
  readonly times: readonly number[];
  readonly states: readonly StateCurve[];
  /** Subjects, and the independent units: clusters where there are any. */
  readonly n: number;
  readonly units: number;
  readonly lastTime: number | null;
  readonly level: number;
  readonly scale: StateScale;
}

/** What the walk keeps of each time: [time * states + state]. */
interface Kept {
  readonly shares: Float64Array;
  readonly errors: Float64Array;
}

/** Errors below this part of the largest are rounding: the rows cancel within their unit, or the state is empty or holds everybody. */
const rounding = 1e-12;
/** A share that is nearer to 1 is 1. */
const nextToOne = 1 - 1e-12;

function keptOf(
  sets: StateRiskSets,
  { initial, withErrors }: { readonly initial: ArrayLike<number> | undefined; readonly withErrors: number },
) {
  const states = sets.codes.length;
  const [shares, errors] = [new Float64Array(sets.atRisk.length), new Float64Array(sets.atRisk.length)];
  const start = startOf(sets, initial);
  const startErrors = errorsOf(start.influences, states);
  let largest = Math.max(0, ...startErrors);
  let last: Float64Array = startErrors;
  const visit = (at: number, standing: Standing): void => {
    if (at < withErrors && sets.moves[at]!.length > 0) last = errorsOf(standing.influences, states);
    for (let s = 0; s < states; s++) {
      largest = Math.max(largest, last[s]!);
      shares[at * states + s] = standing.shares[s]! < nextToOne ? standing.shares[s]! : 1;
      errors[at * states + s] = last[s]! > rounding * largest ? last[s]! : 0;
    }
  };
  walkStates(sets, { start, visit, withInfluences: withErrors });
  return { start, startErrors, kept: { shares, errors } satisfies Kept };
}

/** Every so-manieth value: those of one state. */
const everyNth = (values: Float64Array, { state, states }: { state: number; states: number }): number[] =>
  Array.from({ length: values.length / states }, (_, i) => values[i * states + state]!);

function movedOf(sets: StateRiskSets, { state, by }: { state: number; by: "from" | "to" }): number[] {
  return sets.moves.map((moves) =>
    moves.reduce((sum, move) => (move[by] === state ? sum + move.count : sum), 0),
  );
}

function beganOf(
  columns: StateRows,
  { sets, state }: { readonly sets: StateRiskSets; readonly state: number },
): StateCurve["began"] {
  const counts = new Map<number, number>();
  for (let row = 0; row < sets.from.length; row++) {
    if (sets.from[row] !== state) continue;
    const entry = columns.entries?.[row] ?? -1;
    counts.set(entry, (counts.get(entry) ?? 0) + 1);
  }
  const times = [...counts.keys()].sort((a, b) => a - b);
  let sum = 0;
  return { times, total: times.map((time) => (sum += counts.get(time)!)) };
}

/** Subjects at each time whose state is known: at risk just before it, or gone before into a state that nobody can leave. */
function knownOf(sets: StateRiskSets, absorbing: readonly boolean[]): number[] {
  const states = sets.codes.length;
  let absorbed = 0;
  return Array.from(sets.times, (_, i) => {
    const atRisk = sets.atRisk.subarray(i * states, (i + 1) * states);
    const known = atRisk.reduce((sum, count) => sum + count, absorbed);
    for (const { to, count } of sets.moves[i]!) if (absorbing[to]) absorbed += count;
    return known;
  });
}

/** Sums up to and including each time. */
function running(counts: readonly number[]): number[] {
  let sum = 0;
  return counts.map((count) => (sum += count));
}

/**
 * Share of subjects in each state at each time (Aalen-Johansen), for any states and moves between them, back and forth included.
 *
 * P(t) = P(0) times the product over u <= t of (I + dA(u)), where dA_jk = d_jk / n_j: the d_jk that move at u from state j to k among the n_j
 * in j just before. It holds whatever brought the subjects into their states, as long as what ends the following of them tells nothing of
 * their moves. Rows begin to count after their entry (delayed entry). With two states it is the product-limit curve, with one state that is
 * left for several it is the cumulative incidence.
 *
 * Standard error: infinitesimal jackknife summed within clusters, else within subjects; see state-walk.ts. Limits: score limits on the
 * effective size P (1 - P) / SE^2, which stay within 0 to 1, treat P and 1 - P alike and exist for a share of 0 or 1 too, then on the number
 * that tells of it (see sizeOf in state-limits.ts); on other scales such a share has none.
 *
 * A state in which nobody is followed any more keeps its share: `stateAt` says so.
 *
 * @param columns see StateRows
 * @returns no times and no states for no rows
 * @throws ArgumentError naming the column and index of a value at fault, or the option
 * @source Aalen & Johansen 1978, Scand J Stat 5:141; states of this kind: Andersen & Keiding 2002, Stat Methods Med Res 11:91; jackknife: Efron
 *   & Stein 1981, Ann Stat 9:586; sums within clusters: Lin & Wei 1989, J Am Stat Assoc 84:1074; score limits: Wilson 1927, J Am Stat Assoc
 *   22:209; effective size: Cutler & Ederer 1958, J Chronic Dis 8:699
 * @example
 * const rows = { subjects: [1, 2, 2], entries: [-1, -1, 4], times: [9, 4, 9], from: [0, 0, 1], to: [0, 1, 1] };
 * stateProbabilities(rows).states[1]?.share // => [0.5, 0.5]
 */
export function stateProbabilities(
  columns: StateRows,
  options: StateProbabilityOptions = {},
): StateProbabilities {
  checkStateRows(columns);
  const { level, scale, initial, absorbing, errorsUntil } = readOptions(stateProbabilityOptions, options);
  checkWalk({ ...(initial && { initial }), ...(absorbing && { absorbing }) });
  const z = normalCritical(level);
  const n = columns.times.length;
  const sets = stateRiskSets(columns, n === 0 ? [] : statesOfInitial(initial));
  const states = sets.codes.length;
  const common = { n: sets.subjects, units: sets.unit.count, level, scale };
  if (n === 0) return { times: [], states: [], lastTime: null, ...common };
  const withErrors = errorsUntil === undefined ? sets.times.length : countUpTo(sets.times, errorsUntil);
  const { start, startErrors, kept } = keptOf(sets, { initial, withErrors });
  const canBeLeft = sets.codes.map((code, state) =>
    absorbing ? !Array.from(absorbing).includes(code) : sets.from.includes(state),
  );
  const known = knownOf(
    sets,
    canBeLeft.map((can) => !can),
  );
  const curveOf = (code: number, state: number): StateCurve => {
    const of = { state, states };
    const share = everyNth(kept.shares, of);
    const standardError = everyNth(kept.errors, of).slice(0, withErrors);
    const [entered, left] = [movedOf(sets, { state, by: "to" }), movedOf(sets, { state, by: "from" })];
    const [cameBy, leftBy] = [running(entered), running(left)];
    const points = standardError.map((error, i) => ({
      share: share[i]!,
      standardError: error,
      size: sizeOf({ share: share[i]!, known: known[i]!, entered: cameBy[i]!, left: leftBy[i]! }, common),
    }));
    return {
      state: code,
      absorbing: !canBeLeft[state]!,
      initial: start.shares[state]!,
      initialError: startErrors[state]!,
      share,
      standardError,
      ...limitsOfStates(points, { scale, z }),
      atRisk: everyNth(sets.atRisk, of),
      entered,
      left,
      ended: everyNth(sets.ended, of),
      began: beganOf(columns, { sets, state }),
    };
  };
  const times = Array.from(sets.times);
  return { times, states: sets.codes.map(curveOf), lastTime: times.at(-1)!, ...common };
}
