import { rowsByIndex } from "../shared/clusters.js";
import type { Move, StateRiskSets } from "./state-risk-sets.js";

/** Shares of the states at the start, and what each independent unit does to them: [state * units + unit]. */
export interface Start {
  readonly shares: Float64Array;
  readonly influences: Float64Array;
}

/** Where the walk stands after one of the times. Both arrays go on changing: copy what is to be kept. */
export interface Standing {
  readonly shares: Float64Array;
  readonly influences: Float64Array;
}

/** A move with what the walk needs of it. */
interface Flow {
  readonly from: number;
  readonly to: number;
  /** d / n: the part of the state that moves. */
  readonly part: number;
  /** P d / n^2: what a row at risk takes off the flow by being one of n. */
  readonly perRow: number;
}

/**
 * Shares of those at risk in each state at the first move, or at the first time where nobody moves; given ones instead, which have no error.
 *
 * @param given share of each state by its number
 */
export function startOf(sets: StateRiskSets, given: ArrayLike<number> | undefined): Start {
  const states = sets.codes.length;
  const influences = new Float64Array(sets.unit.count * states);
  if (given !== undefined)
    return { shares: Float64Array.from(sets.codes, (code) => given[code] ?? 0), influences };
  const first = Math.max(
    0,
    sets.moves.findIndex((moves) => moves.length > 0),
  );
  const shares = sets.atRisk.slice(first * states, (first + 1) * states);
  const total = shares.reduce((sum, count) => sum + count, 0);
  for (let s = 0; s < states; s++) shares[s]! /= total;
  for (let row = 0; row < sets.from.length; row++) {
    if (sets.rowStart[row]! > first || sets.rowTime[row]! < first) continue;
    const unit = sets.unit.of[row]!;
    for (let s = 0; s < states; s++)
      influences[s * sets.unit.count + unit]! += ((sets.from[row] === s ? 1 : 0) - shares[s]!) / total;
  }
  return { shares, influences };
}

/**
 * Goes through the times and moves the shares, P(t) = P(t-) (I + dA(t)), dA the part of each state that moves into each other one; and with
 * them the influence of each unit, the derivative of P by its weight:
 *
 *   U(t) = U(t-) (I + dA(t)) + P(t-) dD(t), dD_jk = (moves of the unit's rows - its rows at risk in j times d_jk / n_j) / n_j.
 *
 * Linear in units times the times at which anybody moves.
 *
 * @param visit called after each time
 */
export function walkStates(
  sets: StateRiskSets,
  {
    start,
    visit,
    withInfluences = sets.times.length,
  }: {
    readonly start: Start;
    readonly visit: (at: number, standing: Standing) => void;
    /** So many of the times are gone through with the influences: after them these stay as they are. */
    readonly withInfluences?: number;
  },
): void {
  const states = sets.codes.length;
  const units = sets.unit.count;
  const [shares, influences] = [start.shares.slice(), start.influences.slice()];
  const rowsOfUnit = new Float64Array(influences.length);
  const beginning = rowsByIndex(sets.rowStart, sets.times.length);
  const ending = rowsByIndex(sets.rowTime, sets.times.length);
  for (let at = 0; at < sets.times.length; at++) {
    for (let i = beginning.start[at]!; i < beginning.start[at + 1]!; i++) {
      const row = beginning.rows[i]!;
      rowsOfUnit[sets.from[row]! * units + sets.unit.of[row]!]!++;
    }
    const flows = sets.moves[at]!.map((move) => flowOf(move, { sets, at, shares }));
    if (flows.length > 0 && at < withInfluences) moveInfluences(influences, { rowsOfUnit, flows, units });
    for (let i = ending.start[at]!; i < ending.start[at + 1]!; i++) {
      const row = ending.rows[i]!;
      const [unit, from, to] = [sets.unit.of[row]!, sets.from[row]!, sets.to[row]!];
      rowsOfUnit[from * units + unit]!--;
      if (from === to) continue;
      const own = shares[from]! / sets.atRisk[at * states + from]!;
      influences[from * units + unit]! -= own;
      influences[to * units + unit]! += own;
    }
    moveShares(shares, { flows, moves: sets.moves[at]!, atRisk: sets.atRisk.subarray(at * states) });
    visit(at, { shares, influences });
  }
}

function flowOf(
  { from, to, count }: Move,
  { sets, at, shares }: { readonly sets: StateRiskSets; readonly at: number; readonly shares: Float64Array },
): Flow {
  const n = sets.atRisk[at * sets.codes.length + from]!;
  return { from, to, part: count / n, perRow: (shares[from]! * count) / (n * n) };
}

function moveInfluences(
  influences: Float64Array,
  by: { readonly rowsOfUnit: Float64Array; readonly flows: readonly Flow[]; readonly units: number },
): void {
  const { rowsOfUnit, flows, units } = by;
  const stateOf = (values: Float64Array, state: number) =>
    values.subarray(state * units, (state + 1) * units);
  // a state from which and into which somebody moves at once is left by those who were in it before
  const before = new Map(flows.map(({ from }) => [from, stateOf(influences, from).slice()]));
  for (const { from, to, part, perRow } of flows) {
    const [was, rows] = [before.get(from)!, stateOf(rowsOfUnit, from)];
    const [left, entered] = [stateOf(influences, from), stateOf(influences, to)];
    for (let unit = 0; unit < units; unit++) {
      const moved = was[unit]! * part - rows[unit]! * perRow;
      left[unit]! -= moved;
      entered[unit]! += moved;
    }
  }
}

/** A state that all at risk leave is empty afterwards, without rounding. */
function moveShares(
  shares: Float64Array,
  by: {
    readonly flows: readonly Flow[];
    readonly moves: readonly Move[];
    readonly atRisk: Float64Array;
  },
): void {
  const before = shares.slice();
  const leaving = new Float64Array(shares.length);
  for (const { from, count } of by.moves) leaving[from]! += count;
  for (let s = 0; s < shares.length; s++)
    if (leaving[s]! > 0) shares[s] = (before[s]! * (by.atRisk[s]! - leaving[s]!)) / by.atRisk[s]!;
  for (const { from, to, part } of by.flows) shares[to]! += before[from]! * part;
}

/** Standard errors of the shares: root of the sum over units of their squared influences. */
export function errorsOf(influences: Float64Array, states: number): Float64Array {
  const units = influences.length / states;
  return Float64Array.from({ length: states }, (_, s) => {
    let sum = 0;
    for (let i = s * units; i < (s + 1) * units; i++) sum += influences[i]! * influences[i]!;
    return Math.sqrt(sum);
  });
}
