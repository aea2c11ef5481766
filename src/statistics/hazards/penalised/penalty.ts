import { factorOver } from "../../linear/newton.js";
import { invertFactored } from "../../linear/symmetric.js";
import { moments } from "../fit/score-residuals.js";
import type { HazardLayout } from "../layout/sorted-rows.js";
import type { SummedTies } from "../layout/ties.js";
import { exposures, spreadOverRows } from "../likelihood/exposure.js";
import { informationOf } from "../likelihood/information.js";
import { moveTo } from "../likelihood/move-state.js";
import { emptyState, meanAt, partAt, type RiskState } from "../likelihood/risk-state.js";
import { runningSums, sumsOverEvents } from "../likelihood/running-sums.js";

/** Likelihood with half the logarithm of the determinant of the information added, at some coefficients (standardised). */
export interface Penalised {
  /** -Infinity where the information has no determinant. */
  readonly logLikelihood: number;
  /** First derivative of the penalised log-likelihood. */
  readonly score: Float64Array;
  /** Not penalised; and its inverse over the estimable covariates. */
  readonly information: Float64Array;
  readonly inverse: Float64Array;
}

/** x' V x of each sorted row, and V x as columns. */
function quadratic(layout: HazardLayout, inverse: Float64Array): { q: Float64Array; moved: Float64Array[] } {
  const { n, size, x } = layout;
  const q = new Float64Array(n);
  const moved = x.map((column, j) => {
    const y = new Float64Array(n);
    x.forEach((other, k) => {
      const v = inverse[j * size + k]!;
      if (v !== 0) for (let i = 0; i < n; i++) y[i]! += v * other[i]!;
    });
    for (let i = 0; i < n; i++) q[i]! += y[i]! * column[i]!;
    return y;
  });
  return { q, moved };
}

/** Sum over rows of (risk x exposure x q - 2 risk x (V x)' pull) x, pull being the mean covariate summed over the baseline hazard. */
function partOfRows(state: RiskState, { q, moved }: ReturnType<typeof quadratic>): Float64Array {
  const { layout, risk } = state;
  const { n, x } = layout;
  const factor = new Float64Array(n);
  exposures(state, factor, null);
  for (let i = 0; i < n; i++) factor[i]! *= q[i]!;
  const pull = new Float64Array(n);
  moved.forEach((y, j) => {
    spreadOverRows(layout, moments(state, j), pull);
    for (let i = 0; i < n; i++) factor[i]! -= 2 * y[i]! * pull[i]!;
  });
  return Float64Array.from(x, (column) => {
    let sum = 0;
    for (let i = 0; i < n; i++) sum += risk[i]! * factor[i]! * column[i]!;
    return sum;
  });
}

/** Sum over denominators of w (2 m' V m - mean of q) m. */
function partOfMeans(
  state: RiskState,
  {
    q,
    inverse,
    ties,
  }: { readonly q: Float64Array; readonly inverse: Float64Array; readonly ties: SummedTies },
): Float64Array {
  const { layout, risk, s0, c } = state;
  const { blocks, blockEvents, blockEventWeight, size } = layout;
  const all = new Float64Array(blocks);
  runningSums(layout, { risk, x: q }, all);
  const own = new Float64Array(blocks);
  sumsOverEvents(layout, { risk, x: q, blocks: Int32Array.from(own, (_, block) => block) }, own);
  const m = new Float64Array(size);
  const result = new Float64Array(size);
  for (let block = 0; block < blocks; block++) {
    const count = ties === "efron" ? blockEvents[block]! : Math.min(1, blockEvents[block]!);
    const w = blockEventWeight[block]! / count;
    for (let taken = 0; taken < count; taken++) {
      const f = taken / count;
      const left = 1 - f * c[block]!;
      for (let j = 0; j < size; j++) m[j] = (meanAt(state, j, block) - f * partAt(state, j, block)) / left;
      const meanOfQ = (all[block]! - f * own[block]!) / (s0[block]! * left);
      let square = 0;
      for (let j = 0; j < size; j++)
        for (let k = 0; k < size; k++) square += m[j]! * inverse[j * size + k]! * m[k]!;
      for (let j = 0; j < size; j++) result[j]! += w * (2 * square - meanOfQ) * m[j]!;
    }
  }
  return result;
}

/**
 * An evaluator of l(b) + log det I(b) / 2 with its first derivative.
 *
 * The derivative of the penalty is half the trace of I^-1 dI/db_j, where dI/db_j is the sum over event times of the third central moment of
 * the covariates over the risk set. With q = x' V x, V = I^-1, that trace is the sum over times of cov(q, x_j) - 2 (C V m)_j, C and m being
 * covariance and mean of the covariates, and is summed by rows like the information: linear in rows.
 *
 * @param over estimable covariates
 */
export function penalisedEvaluator(
  layout: HazardLayout,
  settings: { readonly ties: SummedTies; readonly over: readonly number[] },
): (beta: ArrayLike<number>) => Penalised {
  const { ties, over } = settings;
  const { size, n, scale } = layout;
  const state = emptyState(layout, { ties });
  const work = new Float64Array(n);
  // so that the value is that of the caller's units
  const unit = over.reduce((sum, j) => sum + Math.log(scale[j]!), 0);
  return (beta) => {
    const score = new Float64Array(size);
    const information = new Float64Array(size * size);
    const logLikelihood = moveTo(state, beta, score);
    informationOf(state, information, { work, factor: null });
    const factor = factorOver(information, over);
    const inverse = invertFactored(factor);
    if (factor.kept.length < over.length)
      return { logLikelihood: Number.NEGATIVE_INFINITY, score, information, inverse };
    const halfDeterminant = over.reduce((sum, j) => sum + Math.log(factor.pivots[j]!), 0) / 2;
    const squares = quadratic(layout, inverse);
    const ofRows = partOfRows(state, squares);
    const ofMeans = partOfMeans(state, { q: squares.q, inverse, ties });
    for (let j = 0; j < size; j++) score[j]! += (ofRows[j]! + ofMeans[j]!) / 2;
    return { logLikelihood: logLikelihood + halfDeterminant + unit, score, information, inverse };
  };
}
