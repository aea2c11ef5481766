/** Partial log-likelihood with its first and (negative) second derivative by the standardised coefficients. */
export interface Likelihood {
  logLikelihood: number;
  readonly score: Float64Array;
  /** Flat by rows, symmetric. */
  readonly information: Float64Array;
}

/**
 * Likelihood at some coefficients. What it returns is overwritten by the next call; asked for the score only, the information may stay that of
 * the call before.
 */
export type Evaluator = (beta: ArrayLike<number>, wanted: "all" | "score") => Likelihood;

export const emptyLikelihood = (size: number): Likelihood => ({
  logLikelihood: 0,
  score: new Float64Array(size),
  information: new Float64Array(size * size),
});
