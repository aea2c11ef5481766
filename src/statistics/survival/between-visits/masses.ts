/** A stretch of one list of candidates: first included, last excluded. */
export interface Stretch {
  readonly list: number;
  readonly first: number;
  readonly last: number;
}

/** The rows as the likelihood sees them. */
export interface MassRows {
  /** Candidates in each list. */
  readonly sizes: readonly number[];
  readonly weight: Float64Array;
  /** What may hold each row's end. */
  readonly held: readonly (readonly Stretch[])[];
  /** What lies after the row's late entry; null: it is there from the start. */
  readonly entered: readonly (readonly Stretch[] | null)[];
}

/**
 * Stretches of all rows in columns, since every step goes through them: those of row i stand from start[i] to before start[i + 1], as places in
 * the running sums of all lists, one list after another.
 */
interface Places {
  readonly start: Int32Array;
  readonly first: Int32Array;
  readonly last: Int32Array;
}

/** Stretches of the rows, those that are alike once: of many rows few differ. */
interface Different {
  /** Of each row the place of its stretches among the different ones. */
  readonly of: Int32Array;
  readonly places: Places;
}

/** The rows in columns. A list of k candidates has k + 1 running sums. */
interface FlatRows {
  readonly sizes: readonly number[];
  readonly count: number;
  readonly weight: Float64Array;
  readonly held: Different;
  /** No stretch where a row is there from the start. */
  readonly entered: Different;
}

interface State {
  /** Of all candidates, one list after another; so are slope and next. */
  readonly masses: Float64Array;
  readonly logLikelihood: number;
  /** For each candidate the sum of weight / probability over the rows that hold it, less that over entries before it. */
  readonly slope: Float64Array;
  /** Where every weight not lost to late entry went in this step. */
  readonly next: Float64Array;
  readonly leastLeft: number;
}

export interface MassMaximum {
  readonly masses: Float64Array[];
  readonly logLikelihood: number;
  readonly distance: number;
  readonly iterations: number;
  readonly converged: boolean;
  /** Smallest share left at a late entry; 1 without one. */
  readonly leastLeft: number;
}

function placesOf(rows: readonly (readonly Stretch[] | null)[], sizes: readonly number[]): Places {
  const offsets = sizes.map((_, list) => sizes.slice(0, list).reduce((sum, size) => sum + size + 1, 0));
  const stretches = rows.flatMap((row) => row ?? []);
  const start = new Int32Array(rows.length + 1);
  rows.forEach((row, i) => {
    start[i + 1] = start[i]! + (row?.length ?? 0);
  });
  return {
    start,
    first: Int32Array.from(stretches, ({ list, first }) => offsets[list]! + first),
    last: Int32Array.from(stretches, ({ list, last }) => offsets[list]! + last),
  };
}

function differentOf(rows: MassRows["held" | "entered"], sizes: readonly number[]): Different {
  const known = new Map<string, number>();
  const different: (readonly Stretch[] | null)[] = [];
  const of = Int32Array.from(rows, (row) => {
    const key = row === null ? "" : row.map(({ list, first, last }) => `${list} ${first} ${last}`).join();
    const place = known.get(key) ?? known.size;
    if (place === known.size) {
      known.set(key, place);
      different.push(row);
    }
    return place;
  });
  return { of, places: placesOf(different, sizes) };
}

const flat = ({ sizes, weight, held, entered }: MassRows): FlatRows => ({
  sizes,
  count: sizes.reduce((sum, size) => sum + size, 0),
  weight,
  held: differentOf(held, sizes),
  entered: differentOf(entered, sizes),
});

function runningSums({ sizes, count }: FlatRows, masses: Float64Array): Float64Array {
  const sums = new Float64Array(count + sizes.length);
  let j = 0;
  let at = 0;
  for (const size of sizes) {
    for (const end = j + size; j < end; j++, at++) sums[at + 1] = sums[at]! + masses[j]!;
    at++;
  }
  return sums;
}

/** What the different stretches hold. */
function massesOf({ start, first, last }: Places, sums: Float64Array): Float64Array {
  const held = new Float64Array(start.length - 1);
  for (let one = 0; one < held.length; one++) {
    let total = 0;
    for (let i = start[one]!; i < start[one + 1]!; i++) total = total + sums[last[i]!]! - sums[first[i]!]!;
    held[one] = total;
  }
  return held;
}

/** Adds a value over stretches, as steps of which running sums are taken afterwards. */
function addOver(
  { start, first, last }: Places,
  { one, steps, value }: { one: number; steps: Float64Array; value: number },
): void {
  for (let i = start[one]!; i < start[one + 1]!; i++) {
    steps[first[i]!]! += value;
    steps[last[i]!]! -= value;
  }
}

/** Likelihood, slopes and the self-consistent step from some masses that sum to 1. */
function stateAt(rows: FlatRows, masses: Float64Array): State {
  const { weight: weights, held, entered, sizes, count } = rows;
  const sums = runningSums(rows, masses);
  const [probabilities, lefts] = [massesOf(held.places, sums), massesOf(entered.places, sums)];
  const [logs, logsOfLefts] = [probabilities.map(Math.log), lefts.map(Math.log)];
  const holds = new Float64Array(sums.length);
  const after = new Float64Array(sums.length);
  let logLikelihood = 0;
  let leastLeft = 1;
  let ghosts = 0;
  let whole = 0;
  for (let row = 0; row < weights.length; row++) {
    const weight = weights[row]!;
    const [own, entry] = [held.of[row]!, entered.of[row]!];
    addOver(held.places, { one: own, steps: holds, value: weight / probabilities[own]! });
    logLikelihood += weight * logs[own]!;
    if (entered.places.start[entry] === entered.places.start[entry + 1]) {
      whole += weight;
      continue;
    }
    const left = lefts[entry]!;
    leastLeft = Math.min(leastLeft, left);
    logLikelihood -= weight * logsOfLefts[entry]!;
    ghosts += weight / left;
    addOver(entered.places, { one: entry, steps: after, value: weight / left });
  }
  const slope = new Float64Array(count);
  const next = new Float64Array(count);
  let sum = 0;
  let j = 0;
  let at = 0;
  for (const size of sizes) {
    let [taken, late] = [0, 0];
    for (const end = j + size; j < end; j++, at++) {
      taken += holds[at]!;
      late += after[at]!;
      slope[j] = taken - late - whole;
      next[j] = masses[j]! * Math.max(0, taken + ghosts - late);
      sum += next[j]!;
    }
    at++;
  }
  for (j = 0; j < count; j++) next[j]! /= sum;
  return { masses, logLikelihood, slope, next, leastLeft };
}

/** A candidate with less than this counts as empty when the conditions are checked. */
const empty = 1e-10;

function distanceOf({ masses, slope }: State, total: number): number {
  let most = 0;
  for (let j = 0; j < masses.length; j++) {
    const surplus = slope[j]! / total;
    most = Math.max(most, masses[j]! > empty ? Math.abs(surplus) : surplus);
  }
  return most;
}

/** The point that three steps in a row lead to, kept inside; null where it is no better. */
function extrapolated(rows: FlatRows, [a, b, c]: readonly [State, State, State]): State | null {
  let [first, second] = [0, 0];
  for (let j = 0; j < rows.count; j++) {
    const r = b.masses[j]! - a.masses[j]!;
    const v = c.masses[j]! - b.masses[j]! - r;
    first += r * r;
    second += v * v;
  }
  if (second === 0) return null;
  const length = Math.max(1, Math.sqrt(first / second));
  const masses = new Float64Array(rows.count);
  let sum = 0;
  for (let j = 0; j < rows.count; j++) {
    const value = a.masses[j]!;
    const r = b.masses[j]! - value;
    const v = c.masses[j]! - b.masses[j]! - r;
    masses[j] = Math.max(value + 2 * length * r + length * length * v, c.masses[j]! * 1e-2);
    sum += masses[j]!;
  }
  for (let j = 0; j < rows.count; j++) masses[j]! /= sum;
  const state = stateAt(rows, masses);
  return state.logLikelihood >= c.logLikelihood ? state : null;
}

/** Maximum likelihood by self-consistency; every third step is extrapolated from the two before. */
export function maximiseMasses(
  given: MassRows,
  options: { readonly tolerance: number; readonly maximumIterations: number },
): MassMaximum {
  const rows = flat(given);
  const total = rows.weight.reduce((sum, weight) => sum + weight, 0);
  let state = stateAt(rows, new Float64Array(rows.count).fill(1 / rows.count));
  let iterations = 0;
  let distance = distanceOf(state, total);
  while (distance > options.tolerance && iterations < options.maximumIterations) {
    const second = stateAt(rows, state.next);
    const third = stateAt(rows, second.next);
    state = extrapolated(rows, [state, second, third]) ?? third;
    iterations += 3;
    distance = distanceOf(state, total);
  }
  const { logLikelihood, leastLeft } = state;
  const masses = inLists(state.masses, rows.sizes);
  return { masses, logLikelihood, distance, iterations, converged: distance <= options.tolerance, leastLeft };
}

function inLists(masses: Float64Array, sizes: readonly number[]): Float64Array[] {
  let start = 0;
  return sizes.map((size) => {
    const list = masses.slice(start, start + size);
    start += size;
    return list;
  });
}
