import type { HazardLayout } from "./hazards-layout.js";
import {
  addDeath,
  addRow,
  addRowKept,
  clearDeaths,
  clearRiskSet,
  emptySums,
  type RiskSums,
  settle,
} from "./hazards-sums.js";

export type Ties = "efron" | "breslow";

/**
 * One pass from the last time to the first in each stratum, calling `visit` at each block with events when the sums stand as they are
 * just before its time. Linear in rows.
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
  const sums = emptySums(size, byEntry !== null);
  const enter = byEntry ? addRowKept : addRow;
  const own = { w: 0, r: 0 };
  let removed = 0;
  let inRiskSet = 0;
  for (let block = 0; block < blockStratum.length; block++) {
    if (block === 0 || blockStratum[block] !== blockStratum[block - 1]) {
      clearRiskSet(sums);
      inRiskSet = 0;
      // whoever of an earlier stratum has not been removed is gone with its sums
      removed = blockStart[block] as number;
    }
    if (byEntry)
      for (const until = enteredLater[block] as number; removed < until; removed++) {
        const at = byEntry[removed] as number;
        addRowKept(sums, layout, at * size, -(weight[at] as number) * (risk[at] as number));
        inRiskSet--;
        // what rounding leaves behind must not be taken for people
        if (inRiskSet === 0) clearRiskSet(sums);
      }
    clearDeaths(sums);
    for (let at = blockStart[block] as number; at < (blockStart[block + 1] as number); at++) {
      const from = at * size;
      let eta = 0;
      for (let j = 0; j < size; j++) eta += (beta[j] as number) * (x[from + j] as number);
      const r = Math.exp(eta);
      risk[at] = r;
      own.w = weight[at] as number;
      own.r = own.w * r;
      enter(sums, layout, from, own.r);
      inRiskSet++;
      if (event[at] === 1 && own.w > 0) addDeath(sums, layout, from, own);
    }
    if (sums.deaths === 0) continue;
    settle(sums);
    visit(block, sums);
  }
}

/**
 * The denominators of a tied time: Breslow one, of the full weight; Efron as many as events, each of their mean weight, the part q/d of
 * the events' own risk taken off in turn. So integer weights are repeated rows under Breslow and not under Efron.
 */
export function forEachDenominator(
  sums: RiskSums,
  ties: Ties,
  visit: (weight: number, takenOff: number) => void,
): void {
  const denominators = ties === "breslow" ? 1 : sums.deaths;
  const weight = sums.deathWeight / denominators;
  for (let q = 0; q < denominators; q++) visit(weight, q / denominators);
}
