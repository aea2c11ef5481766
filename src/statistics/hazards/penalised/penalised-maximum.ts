import { factorOver } from "../../linear/newton.js";
import { solveFactored } from "../../linear/symmetric.js";
import type { Penalised } from "./penalty.js";

/** The highest penalised likelihood with some coefficients held. */
export interface PenalisedMaximum extends Penalised {
  readonly beta: Float64Array;
  readonly iterations: number;
  readonly converged: boolean;
}

/** A step longer than this, in standard deviations, is cut: the information at the start says little about what lies that far. */
const longestStep = 2;
const mostIterations = 500;
const smallestStep = 1e-11;

/**
 * Steps by the information of the ordinary likelihood with halving; the penalty bends the likelihood little, so they converge, if not
 * quadratically.
 *
 * @param from free: coefficients that move; the others stay where they start
 */
export function penalisedMaximum(
  evaluate: (beta: ArrayLike<number>) => Penalised,
  from: { readonly beta: Float64Array; readonly free: readonly number[] },
): PenalisedMaximum {
  const { free } = from;
  const beta = from.beta.slice();
  const trial = beta.slice();
  const last = new Float64Array(beta.length);
  let current = evaluate(beta);
  for (let iterations = 0; iterations < mostIterations; iterations++) {
    const step = solveFactored(factorOver(current.information, free), current.score);
    const length = free.reduce((most, j) => Math.max(most, Math.abs(step[j]!)), 0);
    if (length < smallestStep) return { ...current, beta, iterations, converged: true };
    // with very few events the penalty bends as much as the likelihood: whole steps then leap to and fro over the maximum for ever
    const back = free.reduce((sum, j) => sum + step[j]! * last[j]!, 0) < 0;
    let part = Math.min(back ? 0.5 : 1, longestStep / length);
    let next = current;
    for (; part > 1e-8; part /= 2) {
      for (const j of free) trial[j] = beta[j]! + part * step[j]!;
      next = evaluate(trial);
      if (next.logLikelihood >= current.logLikelihood - 1e-12) break;
    }
    if (!(next.logLikelihood >= current.logLikelihood - 1e-12))
      return { ...current, beta, iterations, converged: false };
    for (const j of free) last[j] = trial[j]! - beta[j]!;
    beta.set(trial);
    current = next;
  }
  return { ...current, beta, iterations: mostIterations, converged: false };
}
