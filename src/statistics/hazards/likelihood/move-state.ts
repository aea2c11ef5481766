import { setDenominators } from "./denominators.js";
import { setMeans } from "./risk-means.js";
import type { RiskState } from "./risk-state.js";
import { setRisks } from "./risks.js";

/**
 * Fills what does not need the means: risks, denominators and baseline hazard.
 *
 * @returns the partial log-likelihood
 */
export function moveHazards(state: RiskState, beta: ArrayLike<number>): number {
  const { layout, offset } = state;
  setRisks(state, beta);
  let logLikelihood = -setDenominators(state);
  layout.eventSum.forEach((sum, j) => {
    logLikelihood += beta[j]! * sum;
  });
  if (offset)
    for (let i = 0; i < layout.n; i++)
      if (layout.event[i] === 1) logLikelihood += (layout.weight?.[i] ?? 1) * offset[i]!;
  return logLikelihood;
}

/**
 * Fills the whole state at some coefficients.
 *
 * @param score filled with the first derivative of the log-likelihood
 * @returns the partial log-likelihood
 */
export function moveTo(state: RiskState, beta: ArrayLike<number>, score: Float64Array): number {
  const logLikelihood = moveHazards(state, beta);
  setMeans(state, score);
  state.layout.eventSum.forEach((sum, j) => {
    score[j] = sum - score[j]!;
  });
  return logLikelihood;
}
