import { clusterIndex } from "../shared/clusters.js";
import { indexOfCodes } from "../shared/codes.js";
import { countUpTo, distinctTimes } from "../shared/distinct-times.js";
import type { StateRows } from "./state-rows.js";

/** Rows that moved at one time from one state into another; the states by their place among the codes. */
export interface Move {
  readonly from: number;
  readonly to: number;
  readonly count: number;
}

/** Who was at risk in which state when. */
export interface StateRiskSets {
  /** Numbers of the states, ascending. */
  readonly codes: readonly number[];
  /** Different times at which a row ended, ascending. */
  readonly times: Float64Array;
  /** Rows in each state just before each time: that of state s at time t is at [t * states + s]. */
  readonly atRisk: Float64Array;
  /** Rows of each state that ended at each time, moved or not, in the same order. */
  readonly ended: Float64Array;
  /** The moves at each time; empty where nobody moved. */
  readonly moves: readonly (readonly Move[])[];
  /** Of each row: place of its states among the codes, of its time and of the first time at which it is at risk. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly rowTime: Int32Array;
  readonly rowStart: Int32Array;
  /** What varies independently: clusters where there are any, else subjects. */
  readonly unit: { readonly of: Int32Array; readonly count: number };
  readonly subjects: number;
}

/**
 * Sorts the rows once and counts who was at risk in each state and who moved where.
 *
 * Those whose row ends at a time are at risk at that time.
 *
 * @param further numbers of states that are to be there whether or not a row has them
 */
export function stateRiskSets(columns: StateRows, further: readonly number[]): StateRiskSets {
  const n = columns.times.length;
  const { codes, index } = indexOfCodes([...Array.from(columns.from), ...Array.from(columns.to), ...further]);
  const [from, to] = [index.subarray(0, n), index.subarray(n, 2 * n)];
  const { times, position: rowTime } = distinctTimes(columns.times);
  const rowStart = new Int32Array(n);
  if (columns.entries !== undefined)
    for (let row = 0; row < n; row++) rowStart[row] = countUpTo(times, columns.entries[row]!);
  const states = codes.length;
  const [atRisk, ended] = [new Float64Array(times.length * states), new Float64Array(times.length * states)];
  const began = new Float64Array(times.length * states);
  for (let row = 0; row < n; row++) {
    ended[rowTime[row]! * states + from[row]!]!++;
    began[rowStart[row]! * states + from[row]!]!++;
  }
  for (let s = 0; s < states; s++) {
    let left = 0;
    for (let i = s; i < atRisk.length; i += states) {
      left += began[i]!;
      atRisk[i] = left;
      left -= ended[i]!;
    }
  }
  const subjects = clusterIndex({ times: columns.times, clusters: columns.subjects });
  return {
    codes,
    times,
    atRisk,
    ended,
    moves: movesOf({ from, to, rowTime }, { count: times.length, states }),
    from,
    to,
    rowTime,
    rowStart,
    unit: columns.clusters === undefined ? subjects : clusterIndex(columns),
    subjects: subjects.count,
  };
}

function movesOf(
  { from, to, rowTime }: Pick<StateRiskSets, "from" | "to" | "rowTime">,
  { count, states }: { readonly count: number; readonly states: number },
): readonly (readonly Move[])[] {
  const counts = Array.from({ length: count }, () => new Map<number, number>());
  for (let row = 0; row < from.length; row++) {
    if (from[row] === to[row]) continue;
    const at = counts[rowTime[row]!]!;
    const kind = from[row]! * states + to[row]!;
    at.set(kind, (at.get(kind) ?? 0) + 1);
  }
  return counts.map((at) =>
    [...at]
      .sort(([a], [b]) => a - b)
      .map(([kind, moved]) => ({ from: Math.floor(kind / states), to: kind % states, count: moved })),
  );
}
