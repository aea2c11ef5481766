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

interface State {
  readonly masses: Float64Array[];
  readonly logLikelihood: number;
  /** For each candidate the sum of weight / probability over the rows that hold it, less that over entries before it. */
  readonly slope: Float64Array[];
  /** Where every weight not lost to late entry went in this step. */
  readonly next: Float64Array[];
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

const runningSums = (masses: Float64Array): Float64Array => {
  const sums = new Float64Array(masses.length + 1);
  for (let j = 0; j < masses.length; j++) sums[j + 1] = sums[j]! + masses[j]!;
  return sums;
};

const massOf = (stretches: readonly Stretch[], sums: readonly Float64Array[]): number =>
  stretches.reduce((total, { list, first, last }) => total + sums[list]![last]! - sums[list]![first]!, 0);

function addOver(stretches: readonly Stretch[], to: Float64Array[], value: number): void {
  for (const { list, first, last } of stretches) {
    to[list]![first]! += value;
    to[list]![last]! -= value;
  }
}

/** Likelihood, slopes and the self-consistent step from some masses that sum to 1. */
function stateAt(rows: MassRows, masses: Float64Array[]): State {
  const sums = masses.map(runningSums);
  const holds = rows.sizes.map((size) => new Float64Array(size + 1));
  const after = rows.sizes.map((size) => new Float64Array(size + 1));
  let logLikelihood = 0;
  let leastLeft = 1;
  let ghosts = 0;
  let whole = 0;
  for (let i = 0; i < rows.weight.length; i++) {
    const weight = rows.weight[i]!;
    const probability = massOf(rows.held[i]!, sums);
    addOver(rows.held[i]!, holds, weight / probability);
    logLikelihood += weight * Math.log(probability);
    const entered = rows.entered[i];
    if (!entered) {
      whole += weight;
      continue;
    }
    const left = massOf(entered, sums);
    leastLeft = Math.min(leastLeft, left);
    logLikelihood -= weight * Math.log(left);
    ghosts += weight / left;
    addOver(entered, after, weight / left);
  }
  const slope = rows.sizes.map((size) => new Float64Array(size));
  const next = rows.sizes.map((size) => new Float64Array(size));
  let sum = 0;
  for (let list = 0; list < masses.length; list++) {
    let [held, late] = [0, 0];
    for (let j = 0; j < rows.sizes[list]!; j++) {
      held += holds[list]![j]!;
      late += after[list]![j]!;
      slope[list]![j] = held - late - whole;
      next[list]![j] = masses[list]![j]! * Math.max(0, held + ghosts - late);
      sum += next[list]![j]!;
    }
  }
  for (const list of next) for (let j = 0; j < list.length; j++) list[j]! /= sum;
  return { masses, logLikelihood, slope, next, leastLeft };
}

/** A candidate with less than this counts as empty when the conditions are checked. */
const empty = 1e-10;

function distanceOf({ masses, slope }: State, total: number): number {
  let most = 0;
  masses.forEach((list, l) => {
    list.forEach((mass, j) => {
      const surplus = slope[l]![j]! / total;
      most = Math.max(most, mass > empty ? Math.abs(surplus) : surplus);
    });
  });
  return most;
}

/** The point that three steps in a row lead to, kept inside; null where it is no better. */
function extrapolated(rows: MassRows, [a, b, c]: readonly [State, State, State]): State | null {
  let [first, second] = [0, 0];
  a.masses.forEach((list, l) => {
    list.forEach((value, j) => {
      const r = b.masses[l]![j]! - value;
      const v = c.masses[l]![j]! - b.masses[l]![j]! - r;
      first += r * r;
      second += v * v;
    });
  });
  if (second === 0) return null;
  const length = Math.max(1, Math.sqrt(first / second));
  let sum = 0;
  const masses = a.masses.map((list, l) =>
    list.map((value, j) => {
      const r = b.masses[l]![j]! - value;
      const v = c.masses[l]![j]! - b.masses[l]![j]! - r;
      const there = Math.max(value + 2 * length * r + length * length * v, c.masses[l]![j]! * 1e-2);
      sum += there;
      return there;
    }),
  );
  const state = stateAt(
    rows,
    masses.map((list) => list.map((value) => value / sum)),
  );
  return state.logLikelihood >= c.logLikelihood ? state : null;
}

/** Maximum likelihood by self-consistency; every third step is extrapolated from the two before. */
export function maximiseMasses(
  rows: MassRows,
  options: { readonly tolerance: number; readonly maximumIterations: number },
): MassMaximum {
  const count = rows.sizes.reduce((sum, size) => sum + size, 0);
  const total = rows.weight.reduce((sum, weight) => sum + weight, 0);
  let state = stateAt(
    rows,
    rows.sizes.map((size) => new Float64Array(size).fill(1 / count)),
  );
  let iterations = 0;
  let distance = distanceOf(state, total);
  while (distance > options.tolerance && iterations < options.maximumIterations) {
    const second = stateAt(rows, state.next);
    const third = stateAt(rows, second.next);
    state = extrapolated(rows, [state, second, third]) ?? third;
    iterations += 3;
    distance = distanceOf(state, total);
  }
  const { masses, logLikelihood, leastLeft } = state;
  return { masses, logLikelihood, distance, iterations, converged: distance <= options.tolerance, leastLeft };
}
