import type { HazardLayout } from "./hazards-layout.js";

export type Ties = "efron" | "breslow";

/** Sums over the risk set of one block, and over its events. r = w exp(eta). Reused from block to block. */
export interface RiskSums {
  /** Sum of r, r x, r x x' (lower triangle, flat) over the risk set. */
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
}

function emptySums(size: number): RiskSums {
  const vector = (): Float64Array => new Float64Array(size);
  const matrix = (): Float64Array => new Float64Array(size * size);
  return {
    s0: 0,
    s1: vector(),
    s2: matrix(),
    d0: 0,
    d1: vector(),
    d2: matrix(),
    dx: vector(),
    deathWeight: 0,
    deaths: 0,
  };
}

function clearRiskSet(sums: RiskSums): void {
  sums.s0 = 0;
  sums.s1.fill(0);
  sums.s2.fill(0);
}

function clearDeaths(sums: RiskSums): void {
  sums.d0 = 0;
  sums.d1.fill(0);
  sums.d2.fill(0);
  sums.dx.fill(0);
  sums.deathWeight = 0;
  sums.deaths = 0;
}

/**
 * One pass from the last time to the first in each stratum, calling `visit` at each block with events when the sums stand as they are
 * just before its time. Nothing is allocated in the loop.
 *
 * @param point beta: on the standardised covariates; risk: filled with exp(eta) of each sorted row
 */
export function passBackward(
  layout: HazardLayout,
  point: { readonly beta: ArrayLike<number>; readonly risk: Float64Array },
  visit: (block: number, sums: RiskSums) => void,
): void {
  const { size, x, weight, event, blockStart, blockStratum, byEntry, enteredLater } = layout;
  const { beta, risk } = point;
  const sums = emptySums(size);
  const { s1, s2, d1, d2, dx } = sums;
  let removed = 0;
  let inRiskSet = 0;
  for (let block = 0; block < blockStratum.length; block++) {
    if (block === 0 || blockStratum[block] !== blockStratum[block - 1]) {
      clearRiskSet(sums);
      inRiskSet = 0;
      // whoever of an earlier stratum has not been removed is gone with its sums
      removed = block === 0 ? 0 : (blockStart[block] as number);
    }
    let hasDeaths = false;
    for (let at = blockStart[block] as number; at < (blockStart[block + 1] as number); at++) {
      const from = at * size;
      let eta = 0;
      for (let j = 0; j < size; j++) eta += (beta[j] as number) * (x[from + j] as number);
      const r = Math.exp(eta);
      risk[at] = r;
      const w = weight[at] as number;
      addRow(sums, from, w * r);
      inRiskSet++;
      if (event[at] === 0 || w === 0) continue;
      if (!hasDeaths) clearDeaths(sums);
      hasDeaths = true;
      addDeath(from, w, w * r);
    }
    if (byEntry)
      for (const until = enteredLater[block] as number; removed < until; removed++) {
        const at = byEntry[removed] as number;
        addRow(sums, at * size, -(weight[at] as number) * (risk[at] as number));
        inRiskSet--;
        // what rounding leaves behind must not be taken for people
        if (inRiskSet === 0) clearRiskSet(sums);
      }
    if (hasDeaths) visit(block, sums);
  }

  function addRow(into: RiskSums, from: number, r: number): void {
    into.s0 += r;
    for (let j = 0; j < size; j++) {
      const rx = r * (x[from + j] as number);
      s1[j]! += rx;
      for (let k = 0; k <= j; k++) s2[j * size + k]! += rx * (x[from + k] as number);
    }
  }

  function addDeath(from: number, w: number, r: number): void {
    sums.deaths++;
    sums.deathWeight += w;
    sums.d0 += r;
    for (let j = 0; j < size; j++) {
      const value = x[from + j] as number;
      dx[j]! += w * value;
      d1[j]! += r * value;
      for (let k = 0; k <= j; k++) d2[j * size + k]! += r * value * (x[from + k] as number);
    }
  }
}

/**
 * The denominators of a tied time: Breslow one, of the full weight; Efron as many as events, each of their mean weight, the part q/d of
 * the events' own risk taken off in turn. So integer weights are repeated rows under Breslow and not under Efron.
 */
export function forEachDenominator(
  sums: RiskSums,
  ties: Ties,
  visit: (step: { weight: number; takenOff: number }) => void,
): void {
  if (ties === "breslow" || sums.deaths === 1) {
    visit({ weight: sums.deathWeight, takenOff: 0 });
    return;
  }
  const weight = sums.deathWeight / sums.deaths;
  for (let q = 0; q < sums.deaths; q++) visit({ weight, takenOff: q / sums.deaths });
}
