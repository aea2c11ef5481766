import type { HazardLayout } from "./hazards-layout.js";
import { forEachDenominator, passBackward, type Ties } from "./hazards-pass.js";

/** What each block adds to the cumulative hazard and to its covariate-weighted form; for its own events less, under Efron. */
interface BlockHazards {
  readonly hazard: Float64Array;
  readonly moment: Float64Array;
  readonly ownHazard: Float64Array;
  readonly ownMoment: Float64Array;
  /** Mean covariate over the denominators of the block. */
  readonly mean: Float64Array;
}

function blockHazards(
  layout: HazardLayout,
  fit: { readonly beta: Float64Array; readonly ties: Ties; readonly risk: Float64Array },
): BlockHazards {
  const { size } = layout;
  const blocks = layout.blockTime.length;
  const result: BlockHazards = {
    hazard: new Float64Array(blocks),
    moment: new Float64Array(blocks * size),
    ownHazard: new Float64Array(blocks),
    ownMoment: new Float64Array(blocks * size),
    mean: new Float64Array(blocks * size),
  };
  passBackward(layout, fit, (block, sums) => {
    forEachDenominator(sums, fit.ties, (weight, takenOff) => {
      const s0 = sums.s0 - takenOff * sums.d0;
      const step = weight / s0;
      result.hazard[block]! += step;
      result.ownHazard[block]! += (1 - takenOff) * step;
      for (let j = 0; j < size; j++) {
        const mean = ((sums.s1[j] as number) - takenOff * (sums.d1[j] as number)) / s0;
        result.moment[block * size + j]! += step * mean;
        result.ownMoment[block * size + j]! += (1 - takenOff) * step * mean;
        result.mean[block * size + j]! += (weight / sums.deathWeight) * mean;
      }
    });
  });
  return result;
}

/**
 * Score residuals: how much each row (of weight 1) pulls on each standardised coefficient, in the caller's row order, flat by rows.
 *
 * delta (x - mean(t)) - exp(eta) times the integral of (x - mean(u)) over the increments of the baseline hazard while at risk.
 *
 * @source Lin & Wei 1989, J Am Stat Assoc 84:1074; with Efron's ties each event takes the share of the increments left to it
 */
export function scoreResiduals(
  layout: HazardLayout,
  fit: { readonly beta: Float64Array; readonly ties: Ties },
): Float64Array {
  const { size, n, x, event, weight, blockOf, blockStratum, blockOfEntry, row } = layout;
  const risk = new Float64Array(n);
  const own = blockHazards(layout, { ...fit, risk });
  const blocks = blockStratum.length;
  // running sums from the first time of each stratum: blocks stand from the last time to the first
  const hazard = own.hazard.slice();
  const moment = own.moment.slice();
  for (let block = blocks - 2; block >= 0; block--) {
    if (blockStratum[block] !== blockStratum[block + 1]) continue;
    hazard[block]! += hazard[block + 1] as number;
    for (let j = 0; j < size; j++) moment[block * size + j]! += moment[(block + 1) * size + j] as number;
  }
  const residuals = new Float64Array(n * size);
  for (let at = 0; at < n; at++) {
    const block = blockOf[at] as number;
    const entry = blockOfEntry[at] as number;
    const counts = event[at] === 1 && (weight[at] as number) > 0;
    let exposure = (hazard[block] as number) - (entry >= 0 ? (hazard[entry] as number) : 0);
    if (counts) exposure += (own.ownHazard[block] as number) - (own.hazard[block] as number);
    for (let j = 0; j < size; j++) {
      const cell = block * size + j;
      let pull = (moment[cell] as number) - (entry >= 0 ? (moment[entry * size + j] as number) : 0);
      if (counts) pull += (own.ownMoment[cell] as number) - (own.moment[cell] as number);
      const value = x[at * size + j] as number;
      const seen = counts ? value - (own.mean[cell] as number) : 0;
      residuals[(row[at] as number) * size + j] = seen - (risk[at] as number) * (value * exposure - pull);
    }
  }
  return residuals;
}
