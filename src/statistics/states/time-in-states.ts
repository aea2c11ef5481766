import { normalCritical } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import { needed, number, type OptionsOf, readOptions } from "../shared/options.js";
import { limitsOfShare } from "../survival/curve-intervals.js";
import { checkWalk, statesOfInitial, walkOptions } from "./state-options.js";
import { type StateRiskSets, stateRiskSets } from "./state-risk-sets.js";
import { checkStateRows, type StateRows } from "./state-rows.js";
import { errorsOf, startOf, walkStates } from "./state-walk.js";

export const timeInStatesOptions = {
  /** Time up to which the means are taken, above 0, in the unit of `times`. */
  horizon: needed(number("positive")),
  ...walkOptions,
};

export interface TimeInStatesOptions extends OptionsOf<typeof timeInStatesOptions> {}

/** Mean time in one state within the horizon. */
export interface MeanTimeInState {
  readonly state: number;
  readonly estimate: number;
  readonly standardError: number;
  readonly lower: number | null;
  readonly upper: number | null;
  /** Why there are no limits: nobody in it, or everybody throughout. */
  readonly reason: Reason | null;
}

/** Mean times in the states within the horizon; they add up to it. */
export interface TimeInStates {
  readonly horizon: number;
  readonly states: readonly MeanTimeInState[];
  readonly level: number;
  readonly n: number;
  readonly units: number;
  readonly lastTime: number | null;
  /** The horizon lies after the last follow-up while somebody is in a state that can be left: the shares were carried flat. */
  readonly beyondFollowUp: boolean;
  /** Why there are no states. */
  readonly reason: Reason | null;
}

/** Areas under the shares up to the horizon, and what each unit does to them. */
interface Areas {
  readonly means: Float64Array;
  readonly influences: Float64Array;
  /** Shares at the last time. */
  readonly last: Float64Array;
}

function addTo(sums: Float64Array, { values, times }: { values: Float64Array; times: number }): void {
  for (let i = 0; i < sums.length; i++) sums[i]! += values[i]! * times;
}

function areasOf(
  sets: StateRiskSets,
  { horizon, initial }: { readonly horizon: number; readonly initial: ArrayLike<number> | undefined },
): Areas {
  const start = startOf(sets, initial);
  const means = new Float64Array(sets.codes.length);
  const influences = new Float64Array(start.influences.length);
  let shares = start.shares.slice();
  let units = start.influences.slice();
  let since = 0;
  const until = (time: number): void => {
    const times = Math.min(time, horizon) - since;
    if (times <= 0) return;
    addTo(means, { values: shares, times });
    addTo(influences, { values: units, times });
    since += times;
  };
  walkStates(sets, {
    start,
    visit: (at, standing) => {
      if (sets.moves[at]!.length === 0) return;
      until(sets.times[at]!);
      shares = standing.shares.slice();
      units = standing.influences.slice();
    },
  });
  until(horizon);
  return { means, influences, last: shares };
}

/** A mean within this part of the horizon of an end is there but for rounding. */
const rounding = 1e-12;

function meanOf(
  area: { readonly state: number; readonly estimate: number; readonly standardError: number },
  { horizon, z }: { readonly horizon: number; readonly z: number },
): MeanTimeInState {
  const share = area.estimate / horizon;
  const inside = share > rounding && share < 1 - rounding && area.standardError > rounding * horizon;
  const point = { share, errorOfLog: area.standardError / area.estimate };
  const limits = inside ? limitsOfShare(point, { scale: "logit", z }) : null;
  if (limits === null) {
    const silent = share <= rounding || share >= 1 - rounding ? "no-events" : "no-variance";
    return { ...area, lower: null, upper: null, reason: silent };
  }
  return { ...area, lower: limits[0] * horizon, upper: limits[1] * horizon, reason: null };
}

/**
 * Mean time spent in each state within a horizon: the areas under the curves of stateProbabilities up to it.
 *
 * Standard error: infinitesimal jackknife, the areas under the influences, summed within clusters, else within subjects. Limits: on the
 * logit of mean / horizon, so that they stay within 0 and the horizon.
 *
 * Past the last follow-up the shares are carried flat and `beyondFollowUp` says so.
 *
 * @returns no states for no rows; no limits with `no-events` where nobody is in the state within the horizon, or everybody throughout
 * @throws ArgumentError naming the column and index of a value at fault, the horizon or the level
 * @source Andersen & Keiding 2002, Stat Methods Med Res 11:91; jackknife: Efron & Stein 1981, Ann Stat 9:586
 * @example
 * const rows = { subjects: [1, 2, 2], entries: [-1, -1, 4], times: [9, 4, 9], from: [0, 0, 1], to: [0, 1, 1] };
 * timeInStates(rows, { horizon: 8 }).states[1]?.estimate // => 2
 */
export function timeInStates(columns: StateRows, options: TimeInStatesOptions): TimeInStates {
  checkStateRows(columns);
  const { horizon, level, initial, absorbing } = readOptions(timeInStatesOptions, options);
  checkWalk({ ...(initial && { initial }), ...(absorbing && { absorbing }) });
  const z = normalCritical(level);
  const n = columns.times.length;
  const sets = stateRiskSets(columns, n === 0 ? [] : statesOfInitial(initial));
  const common = { horizon, level, n: sets.subjects, units: sets.unit.count };
  if (n === 0) return { ...common, states: [], lastTime: null, beyondFollowUp: false, reason: "no-rows" };
  const { means, influences, last } = areasOf(sets, { horizon, initial });
  const errors = errorsOf(influences, sets.codes.length);
  const lastTime = sets.times.at(-1)!;
  const canBeLeft = (code: number, state: number): boolean =>
    absorbing ? !Array.from(absorbing).includes(code) : sets.from.includes(state);
  return {
    ...common,
    states: sets.codes.map((code, s) =>
      meanOf({ state: code, estimate: means[s]!, standardError: errors[s]! }, { horizon, z }),
    ),
    lastTime,
    beyondFollowUp: horizon > lastTime && sets.codes.some((code, s) => last[s]! > 0 && canBeLeft(code, s)),
    reason: null,
  };
}
