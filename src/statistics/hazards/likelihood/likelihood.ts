import { type Evaluator, emptyLikelihood } from "../../linear/log-likelihood.js";
import type { HazardLayout } from "../layout/sorted-rows.js";
import type { Ties } from "../layout/ties.js";
import { columnSums } from "./column-sums.js";
import { informationByDeviations, isNearlyUntied } from "./deviations.js";
import { exactLikelihoodOf } from "./exact-likelihood.js";
import { expectedEvents } from "./exposure.js";
import { informationOf } from "./information.js";
import { moveHazards, moveTo } from "./move-state.js";
import { emptyState, type RiskState } from "./risk-state.js";

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
