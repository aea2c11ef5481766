import type { Evaluator } from "../../linear/log-likelihood.js";
import { factorOver, longestSpan, type NewtonResult, type NewtonRows, spanOf } from "../../linear/newton.js";
import { solveFactored } from "../../linear/symmetric.js";
import type { HazardLayout } from "../layout/sorted-rows.js";
import type { SummedTies } from "../layout/ties.js";
import { riskSetLikelihoodOf } from "../likelihood/risk-set-likelihood.js";

/** Rows of all risk sets together beyond which the limit stays as near as the ordinary iterations came. */
const mostVisits = 1e6;
const mostIterations = 200;
/** A gain below this part of the log-likelihood (or of 1) ends the climb: what is left is less than that. */
const gainBelow = 1e-13;

/** A bound on the rows of all risk sets together. */
function visits({ blocks, blockStart, blockStratum, blockEvents }: HazardLayout): number {
  let sum = 0;
  let first = 0;
  for (let block = 0; block < blocks; block++) {
    if (blockStratum[block] !== blockStratum[first]) first = block;
    if (blockEvents[block]! > 0) sum += blockStart[block + 1]! - blockStart[first]!;
  }
  return sum;
}

/**
 * Goes on from where the iterations met a likelihood that rises for ever, up to the limit of the likelihood, however far away its coefficients
 * are: each Newton step brings what is missing down by a factor of e.
 *
 * Needed where the rows that compete in the risk sets lie close together along the direction and others far apart: the iterations then
 * end at their longest span with the likelihood still on its way.
 *
 * @returns likelihood, information and finite coefficients of the limit; those that run to infinity drawn in so that risks fit a number
 */
export function climbToLimit(layout: HazardLayout, end: NewtonResult, ties: SummedTies): NewtonResult {
  if (end.infinite.length === 0 || visits(layout) > mostVisits) return end;
  return climbOn(layout, end, riskSetLikelihoodOf(layout, ties));
}

/** The same with a likelihood that is exact however large the coefficients are. */
export function climbOn(layout: NewtonRows, end: NewtonResult, evaluate: Evaluator): NewtonResult {
  if (end.infinite.length === 0) return end;
  const { size } = layout;
  const beta = end.beta.slice();
  const trial = beta.slice();
  let current = evaluate(beta, "all");
  let { iterations } = end;
  let gain = Number.POSITIVE_INFINITY;
  for (let more = 0; more < mostIterations && gain > 0; more++) {
    const before = current.logLikelihood;
    const step = solveFactored(factorOver(current.information, end.estimable), current.score);
    let part = 1;
    for (; part > 1e-6; part /= 2) {
      for (let j = 0; j < size; j++) trial[j] = beta[j]! + part * step[j]!;
      current = evaluate(trial, "all");
      if (current.logLikelihood > before) break;
    }
    gain = current.logLikelihood - before;
    if (!(gain > gainBelow * Math.max(1, Math.abs(before)))) gain = 0;
    if (gain > 0) beta.set(trial);
    iterations++;
  }
  current = evaluate(beta, "all");
  return {
    ...end,
    beta: drawnIn(layout, beta, end.infinite),
    logLikelihood: current.logLikelihood,
    information: current.information.slice(),
    finalGradient: current.score.slice(),
    iterations,
  };
}

/** The infinite coefficients made smaller together until the log hazards span no more than numbers hold. */
function drawnIn(layout: NewtonRows, beta: Float64Array, infinite: readonly number[]): Float64Array {
  const drawn = beta.slice();
  const span = spanOf(layout, beta);
  if (span > longestSpan) for (const j of infinite) drawn[j]! *= longestSpan / span;
  return drawn;
}
