import type { HazardLayout } from "./hazards-layout.js";
import { passBackward, type RiskSums, type Ties } from "./hazards-pass.js";

/** Partial log-likelihood with its first and (negative) second derivative by the standardised coefficients. */
export interface Likelihood {
  logLikelihood: number;
  readonly score: Float64Array;
  /** Flat by rows, symmetric. */
  readonly information: Float64Array;
}

/** Adds one denominator: -w log s0 to the log-likelihood, -w mean to the score, w (second moment - mean mean') to the information. */
export function addDenominator(
  into: Likelihood,
  sums: RiskSums,
  step: { readonly weight: number; readonly takenOff: number; readonly mean: Float64Array },
): void {
  const { weight, takenOff, mean } = step;
  const size = mean.length;
  const s0 = sums.s0 - takenOff * sums.d0;
  into.logLikelihood -= weight * Math.log(s0);
  for (let j = 0; j < size; j++) {
    const m = ((sums.s1[j] as number) - takenOff * (sums.d1[j] as number)) / s0;
    mean[j] = m;
    into.score[j]! -= weight * m;
    for (let k = 0; k <= j; k++) {
      const at = j * size + k;
      const second = ((sums.s2[at] as number) - takenOff * (sums.d2[at] as number)) / s0;
      into.information[at]! += weight * (second - m * (mean[k] as number));
    }
  }
}

/** An evaluator that reuses its arrays: what it returns is overwritten by the next call. */
export function likelihoodOf(layout: HazardLayout, ties: Ties): (beta: ArrayLike<number>) => Likelihood {
  const { size } = layout;
  const risk = new Float64Array(layout.n);
  const step = { weight: 0, takenOff: 0, mean: new Float64Array(size) };
  const result: Likelihood = {
    logLikelihood: 0,
    score: new Float64Array(size),
    information: new Float64Array(size * size),
  };
  const visit = (_block: number, sums: RiskSums): void => {
    const denominators = ties === "breslow" ? 1 : sums.deaths;
    step.weight = sums.deathWeight / denominators;
    for (let q = 0; q < denominators; q++) {
      step.takenOff = q / denominators;
      addDenominator(result, sums, step);
    }
  };
  return (beta) => {
    result.logLikelihood = 0;
    result.information.fill(0);
    for (let j = 0; j < size; j++) {
      result.score[j] = layout.eventSum[j] as number;
      result.logLikelihood += (beta[j] as number) * (layout.eventSum[j] as number);
    }
    passBackward(layout, { beta, risk }, visit);
    for (let j = 0; j < size; j++)
      for (let k = 0; k < j; k++)
        result.information[k * size + j] = result.information[j * size + k] as number;
    return result;
  };
}
