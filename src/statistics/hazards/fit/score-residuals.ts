import { exposures, type Increments, spreadOverRows } from "../likelihood/exposure.js";
import { meanAt, partAt, type RiskState } from "../likelihood/risk-state.js";

/** Mean of a covariate that each event of a block is compared with: over its denominators. */
export const meanOverDenominators = (state: RiskState, j: number, block: number): number =>
  (state.first[block]! * meanAt(state, j, block) - state.firstTaken[block]! * partAt(state, j, block)) /
  state.layout.blockEventWeight[block]!;

/**
 * What each block adds to the integral of the mean covariate over the baseline hazard: the sum over denominators of w mean / (s0 (1 - f c));
 * and the part of that which the block's own events take, each denominator times 1 - f.
 */
export function moments(state: RiskState, j: number): Increments {
  const { s0, second, shift, rest } = state;
  const shifted = state.shifted[j]!;
  const all = new Float64Array(shifted.length);
  const own = new Float64Array(shifted.length);
  for (let block = 0; block < shifted.length; block++) {
    if (state.layout.blockEvents[block] === 0) continue;
    const value = second[block]! * shifted[block]!;
    all[block] = value / s0[block]!;
    own[block] = ((1 - shift[block]!) * value + rest[block]! * partAt(state, j, block)) / s0[block]!;
  }
  return { all, own };
}

/**
 * Score residuals: how much each row (of weight 1) pulls on each standardised coefficient; a column a covariate, by sorted rows.
 *
 * delta (x - mean(t)) - exp(eta) times the integral of (x - mean(u)) over the increments of the baseline hazard while at risk.
 *
 * @source Lin & Wei 1989, J Am Stat Assoc 84:1074; with Efron's ties each event takes the share of the increments left to it
 */
export function scoreResiduals(state: RiskState): Float64Array[] {
  const { layout, ratio } = state;
  const { n, blocks, blockStart, blockEvents, x } = layout;
  const exposure = new Float64Array(n);
  exposures(state, exposure, null);
  return x.map((column, j) => {
    const residual = new Float64Array(n);
    spreadOverRows(layout, moments(state, j), residual);
    for (let i = 0; i < n; i++) {
      const expected = column[i]! * exposure[i]! - residual[i]!;
      residual[i] = -ratio[i]! * expected;
    }
    for (let block = 0; block < blocks; block++) {
      const d = blockEvents[block]!;
      if (d === 0) continue;
      const mean = meanOverDenominators(state, j, block);
      const end = blockStart[block + 1]!;
      for (let i = end - d; i < end; i++) residual[i]! += column[i]! - mean;
    }
    return residual;
  });
}
