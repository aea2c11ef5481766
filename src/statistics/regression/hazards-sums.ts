/** Sums over the risk set of one block, and over its events. r = w exp(eta). Reused from block to block. */
export interface RiskSums {
  /** Sum of r, r x, r x x' (lower triangle, flat) over the risk set, in one array: r at 0, r x from 1, r x x' after that. */
  readonly all: Float64Array;
  s0: number;
  readonly s1: Float64Array;
  readonly s2: Float64Array;
  /** The same over the events of the block. */
  d0: number;
  readonly d1: Float64Array;
  readonly d2: Float64Array;
  /** Sum of w x over the events of the block, and of w. */
  readonly dx: Float64Array;
  deathWeight: number;
  /** Events with a weight above 0. */
  deaths: number;
  /** What rounding has cost each of `all`; null where rows only come in. */
  readonly lost: Float64Array | null;
}

/** @param leaving whether rows also leave the risk set: then the sums are kept to twice the precision */
export function emptySums(size: number, leaving: boolean): RiskSums {
  const all = new Float64Array(1 + size + size * size);
  return {
    all,
    s0: 0,
    s1: all.subarray(1, 1 + size),
    s2: all.subarray(1 + size),
    d0: 0,
    d1: new Float64Array(size),
    d2: new Float64Array(size * size),
    dx: new Float64Array(size),
    deathWeight: 0,
    deaths: 0,
    lost: leaving ? new Float64Array(all.length) : null,
  };
}

export function clearRiskSet(sums: RiskSums): void {
  sums.all.fill(0);
  sums.lost?.fill(0);
}

export function clearDeaths(sums: RiskSums): void {
  sums.d0 = 0;
  sums.d1.fill(0);
  sums.d2.fill(0);
  sums.dx.fill(0);
  sums.deathWeight = 0;
  sums.deaths = 0;
}

/** A row's covariates: x from a place on. */
export interface RowAt {
  readonly x: Float64Array;
  readonly size: number;
}

/** A row comes into the risk set. */
export function addRow(sums: RiskSums, { x, size }: RowAt, from: number, r: number): void {
  const { all } = sums;
  all[0]! += r;
  for (let j = 0; j < size; j++) {
    const rx = r * (x[from + j] as number);
    all[1 + j]! += rx;
    const line = 1 + size + j * size;
    for (let k = 0; k <= j; k++) all[line + k]! += rx * (x[from + k] as number);
  }
}

/** Adds to one sum and keeps what the addition rounds away. */
function addKept(all: Float64Array, lost: Float64Array, at: number, value: number): void {
  const before = all[at] as number;
  const after = before + value;
  const part = after - before;
  lost[at]! += before - (after - part) + (value - part);
  all[at] = after;
}

/**
 * The same where rows also leave (r below 0). A row whose risk is many powers of ten above the others' would otherwise take their digits
 * with it when it leaves.
 */
export function addRowKept(sums: RiskSums, { x, size }: RowAt, from: number, r: number): void {
  const { all } = sums;
  const lost = sums.lost as Float64Array;
  addKept(all, lost, 0, r);
  for (let j = 0; j < size; j++) {
    const rx = r * (x[from + j] as number);
    addKept(all, lost, 1 + j, rx);
    const line = 1 + size + j * size;
    for (let k = 0; k <= j; k++) addKept(all, lost, line + k, rx * (x[from + k] as number));
  }
}

/** Brings the sums up to date before they are read. */
export function settle(sums: RiskSums): void {
  const { all, lost } = sums;
  if (lost)
    for (let at = 0; at < all.length; at++) {
      const kept = lost[at] as number;
      lost[at] = 0;
      addKept(all, lost, at, kept);
    }
  sums.s0 = all[0] as number;
}

/** A row has the event in this block. */
export function addDeath(
  sums: RiskSums,
  { x, size }: RowAt,
  from: number,
  row: { w: number; r: number },
): void {
  const { w, r } = row;
  sums.deaths++;
  sums.deathWeight += w;
  sums.d0 += r;
  for (let j = 0; j < size; j++) {
    const value = x[from + j] as number;
    sums.dx[j]! += w * value;
    sums.d1[j]! += r * value;
    for (let k = 0; k <= j; k++) sums.d2[j * size + k]! += r * value * (x[from + k] as number);
  }
}
