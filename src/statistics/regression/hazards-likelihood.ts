import { columnSums } from "./hazards/column-sums.js";
import { addCrossProducts, mirror } from "./hazards/cross-products.js";
import { informationByDeviations, isNearlyUntied } from "./hazards/deviations.js";
import { exactLikelihoodOf } from "./hazards/exact-likelihood.js";
import { expectedEvents, timesFactor } from "./hazards/exposure.js";
import { emptyState, moveHazards, moveTo, type RiskState } from "./hazards/risk-state.js";
import type { Ties } from "./hazards/ties.js";
import type { HazardLayout } from "./hazards-layout.js";

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

/**
 * Information where the state stands: the sum over event times of the covariance of the covariates over the risk set, each time
 * multiplied by a factor where there is one.
 *
 * Summed by rows, not by times: X' diag(risk x exposure) X less the outer products of the mean covariates. So the work is linear in rows and
 * goes down columns.
 *
 * @param work reused, one a sorted row
 */
export function informationOf(
  state: RiskState,
  into: Float64Array,
  how: { readonly work: Float64Array; readonly factor: Float64Array | null },
): void {
  const { layout, second, rest, shifted, tied, tiedPart } = state;
  const { n, size, x, blocks } = layout;
  const { work, factor } = how;
  expectedEvents(state, work, factor);
  into.fill(0);
  addCrossProducts(into, x, { weights: work, rows: n, factor: 1 });
  addCrossProducts(into, shifted, { weights: timesFactor(second, factor), rows: blocks, factor: -1 });
  const ofTied = new Float64Array(tied.length);
  for (let place = 0; place < tied.length; place++) {
    const block = tied[place]!;
    ofTied[place] = rest[block]! * (factor ? factor[block]! : 1);
  }
  addCrossProducts(into, tiedPart, { weights: ofTied, rows: tied.length, factor: -1 });
  mirror(into, size);
}

/**
 * First derivative where the risks and the baseline hazard stand: events less what is expected of each row, times the covariates. It needs no
 * means of risk sets, so it goes down the columns once.
 *
 * @param work filled with the events expected of each sorted row
 */
function scoreByRows(state: RiskState, score: Float64Array, work: Float64Array): void {
  const { layout } = state;
  expectedEvents(state, work, null);
  columnSums(layout.x, work, score);
  layout.eventSum.forEach((sum, j) => {
    score[j] = sum - score[j]!;
  });
}

/** An evaluator that reuses its arrays. */
export function likelihoodOf(layout: HazardLayout, ties: Ties): Evaluator {
  if (ties === "exact") return exactLikelihoodOf(layout);
  const untied = isNearlyUntied(layout);
  const state = emptyState(layout, { ties, means: untied ? "none" : "of blocks" });
  const byDeviations = untied ? informationByDeviations(state) : null;
  const work = new Float64Array(layout.n);
  const result = emptyLikelihood(layout.size);
  const { score, information } = result;
  return (beta, wanted) => {
    if (wanted === "all" && byDeviations === null) {
      result.logLikelihood = moveTo(state, beta, score);
      informationOf(state, information, { work, factor: null });
    } else {
      result.logLikelihood = moveHazards(state, beta);
      scoreByRows(state, score, work);
      if (wanted === "all") byDeviations?.(work, information);
    }
    return result;
  };
}
