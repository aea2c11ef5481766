import type { HazardLayout } from "./hazards-layout.js";
import { forEachDenominator, passBackward, type Ties } from "./hazards-pass.js";
import type { RiskSums } from "./hazards-sums.js";

/** Partial log-likelihood with its first and (negative) second derivative by the standardised coefficients. */
export interface Likelihood {
  logLikelihood: number;
  readonly score: Float64Array;
  /** Flat by rows, symmetric. */
  readonly information: Float64Array;
}

/**
 * Adds the denominators of one block: each takes weight times log s0 off the log-likelihood and weight times the mean covariate off the
 * score, and adds weight times the covariance of the covariates to the information.
 */
export function addBlock(
  into: Likelihood,
  sums: RiskSums,
  how: { readonly ties: Ties; readonly mean: Float64Array },
): void {
  const { mean } = how;
  const { s1, s2, d1, d2 } = sums;
  const size = mean.length;
  forEachDenominator(sums, how.ties, (weight, takenOff) => {
    const s0 = sums.s0 - takenOff * sums.d0;
    into.logLikelihood -= weight * Math.log(s0);
    for (let j = 0; j < size; j++) {
      const m = ((s1[j] as number) - takenOff * (d1[j] as number)) / s0;
      mean[j] = m;
      into.score[j]! -= weight * m;
      for (let k = 0; k <= j; k++) {
        const at = j * size + k;
        const second = ((s2[at] as number) - takenOff * (d2[at] as number)) / s0;
        into.information[at]! += weight * (second - m * (mean[k] as number));
      }
    }
  });
}

/** An evaluator that reuses its arrays: what it returns is overwritten by the next call. */
export function likelihoodOf(layout: HazardLayout, ties: Ties): (beta: ArrayLike<number>) => Likelihood {
  const { size } = layout;
  const risk = new Float64Array(layout.n);
  const how = { ties, mean: new Float64Array(size) };
  const result: Likelihood = {
    logLikelihood: 0,
    score: new Float64Array(size),
    information: new Float64Array(size * size),
  };
  const visit = (_block: number, sums: RiskSums): void => addBlock(result, sums, how);
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
