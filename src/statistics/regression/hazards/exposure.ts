import type { RiskState } from "./risk-state.js";

/**
 * For each sorted row the sum over the event times at which it was at risk of the increments of the baseline hazard, each times a factor
 * of its block where there is one. Events take their own part of the increment at their time.
 *
 * With delayed entry the sum up to the entry is taken off the sum up to the end; both are kept to twice the precision, since an early time
 * with hardly anybody at risk may have an increment that dwarfs all later ones.
 *
 * @param into filled, one a sorted row
 */
export function exposures(state: RiskState, into: Float64Array, factor: Float64Array | null): void {
  const { layout } = state;
  const hazard = factor ? state.hazard.map((h, block) => h * (factor[block] as number)) : state.hazard;
  const own = factor ? state.ownHazard.map((h, block) => h * (factor[block] as number)) : state.ownHazard;
  spreadOverRows(layout, { increments: hazard, own }, into);
}

/** Sums of increments over the blocks at which each row is at risk; `own` takes the place of the increment for the events of a block. */
export function spreadOverRows(
  layout: RiskState["layout"],
  sums: { readonly increments: Float64Array; readonly own: Float64Array },
  into: Float64Array,
): void {
  const { blocks, blockStart, blockStratum, blockOfEntry, byEntry, deaths } = layout;
  const { increments, own } = sums;
  const high = new Float64Array(byEntry ? blocks : 0);
  const low = new Float64Array(byEntry ? blocks : 0);
  let sum = 0;
  let lost = 0;
  for (let block = blocks - 1; block >= 0; block--) {
    if (block === blocks - 1 || blockStratum[block] !== blockStratum[block + 1]) {
      sum = 0;
      lost = 0;
    }
    const value = increments[block] as number;
    const before = sum;
    if (byEntry) {
      const part = sum + value - sum;
      lost += sum - (sum + value - part) + (value - part);
    }
    sum += value;
    if (byEntry) {
      high[block] = sum;
      low[block] = lost;
    }
    const end = blockStart[block + 1] as number;
    const firstDeath = end - (deaths[block] as number);
    for (let at = blockStart[block] as number; at < firstDeath; at++) into[at] = sum;
    const ofDeaths = before + (own[block] as number);
    for (let at = firstDeath; at < end; at++) into[at] = ofDeaths;
  }
  if (!byEntry) return;
  for (let block = 0; block < blocks; block++) {
    const end = blockStart[block + 1] as number;
    const firstDeath = end - (deaths[block] as number);
    const notOwn = (own[block] as number) - (increments[block] as number);
    for (let at = blockStart[block] as number; at < end; at++) {
      const entry = blockOfEntry[at] as number;
      const highBefore = entry >= 0 ? (high[entry] as number) : 0;
      const lowBefore = entry >= 0 ? (low[entry] as number) : 0;
      into[at] =
        (high[block] as number) -
        highBefore +
        ((low[block] as number) - lowBefore) +
        (at >= firstDeath ? notOwn : 0);
    }
  }
}
