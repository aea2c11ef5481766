import { solveFactored } from "../linear/symmetric.js";
import { factorAtZero, factorOver } from "../regression/hazards-newton.js";
import type { SubdistributionLayout } from "./subdistribution-layout.js";
import { type SubdistributionState, subdistributionLikelihood } from "./subdistribution-likelihood.js";

/** The end of the iterations, on the standardised covariates. */
export interface SubdistributionAscent {
  readonly beta: Float64Array;
  readonly state: SubdistributionState;
  readonly logLikelihoodNull: number;
  /** Covariates that are no combination of earlier ones. */
  readonly estimable: readonly number[];
  /** Those whose coefficient runs to infinity, its sign telling where. */
  readonly infinite: readonly number[];
  readonly iterations: number;
  readonly converged: boolean;
}

/** A gain of the log pseudo-likelihood this small means that it has come to its end, wherever the coefficients are. */
const gainBelow = 1e-10;
/** A covariate whose coefficient would then still move the log hazard by this much across its range has no finite maximum. */
const stillMoving = 0.05;
/** Most that one step may move the log hazard by any covariate across its range: longer steps overflow. */
const longestReach = 200;

const rangeOf = (column: Float64Array): number => {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let at = 0; at < column.length; at++) {
    const value = column[at] as number;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return high - low;
};

/** Newton's method from 0 with step halving. */
export function ascend(
  layout: SubdistributionLayout,
  options: { readonly maximumIterations: number; readonly tolerance: number },
): SubdistributionAscent {
  const { size, events } = layout;
  const evaluate = subdistributionLikelihood(layout);
  const beta = new Float64Array(size);
  const trial = new Float64Array(size);
  let state = evaluate(beta);
  const logLikelihoodNull = state.logLikelihood;
  const estimable = factorAtZero(state.information, events).kept;
  const range = layout.x.map(rangeOf);
  let infinite: readonly number[] = [];
  let iterations = 0;
  let converged = estimable.length === 0;
  while (!converged && infinite.length === 0 && iterations < options.maximumIterations) {
    const before = state.logLikelihood;
    const step = solveFactored(factorOver(state.information, estimable), state.score);
    const reach = step.map((value, j) => Math.abs(value) * (range[j] as number));
    let part = Math.min(1, longestReach / Math.max(...reach));
    let better = false;
    for (; !better && part > 1e-10; part = better ? part : part / 2) {
      for (let j = 0; j < size; j++) trial[j] = (beta[j] as number) + part * (step[j] as number);
      state = evaluate(trial);
      better = state.logLikelihood >= before - 1e-12 * Math.abs(before);
    }
    if (!better) {
      state = evaluate(beta);
      break;
    }
    iterations++;
    beta.set(trial);
    converged = step.every((value) => Math.abs(part * value) < options.tolerance);
    const gainIsOver = state.logLikelihood - before < gainBelow + 1e-15 * Math.abs(before);
    if (!converged && gainIsOver) infinite = estimable.filter((j) => (reach[j] as number) > stillMoving);
  }
  return { beta, state, logLikelihoodNull, estimable, infinite, iterations, converged };
}
