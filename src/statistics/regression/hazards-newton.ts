import { type Factor, factorSymmetric, quadraticForm, solveFactored } from "../linear/symmetric.js";
import type { HazardLayout } from "./hazards-layout.js";
import { likelihoodOf } from "./hazards-likelihood.js";
import type { Ties } from "./hazards-pass.js";

export interface NewtonOptions {
  readonly ties: Ties;
  readonly maximumIterations: number;
  /** Largest Newton step, in standard deviations of the covariates, at which the iterations stop. */
  readonly tolerance: number;
}

/** The end of the iterations, on the standardised covariates. */
export interface NewtonResult {
  readonly beta: Float64Array;
  readonly logLikelihoodNull: number;
  readonly logLikelihood: number;
  readonly scoreStatistic: number;
  /** Information at the end, flat. */
  readonly information: Float64Array;
  readonly finalGradient: Float64Array;
  /** Covariates that are no combination of earlier ones. */
  readonly estimable: readonly number[];
  /** Estimable covariates whose coefficient runs to infinity; its sign tells where. */
  readonly infinite: readonly number[];
  readonly iterations: number;
  readonly converged: boolean;
}

/** A pivot this much smaller than its diagonal at the start is a collinear covariate. */
const collinearBelow = 1e-9;
/** A gain of log-likelihood this small means that the likelihood has come to its end, wherever the coefficients are. */
const gainBelow = 1e-10;
/** A covariate whose coefficient would still move the log hazard by this much across its range has no finite maximum. */
const stillMoving = 0.05;

function rangesOf({ x, n, size }: HazardLayout): Float64Array {
  const low = new Float64Array(size).fill(Number.POSITIVE_INFINITY);
  const high = new Float64Array(size).fill(Number.NEGATIVE_INFINITY);
  for (let at = 0; at < n; at++)
    for (let j = 0; j < size; j++) {
      const value = x[at * size + j] as number;
      if (value < (low[j] as number)) low[j] = value;
      if (value > (high[j] as number)) high[j] = value;
    }
  return high.map((value, j) => value - (low[j] as number));
}

/** Factor of the information restricted to some covariates. */
export function factorOver(information: Float64Array, over: readonly number[], size: number): Factor {
  const only = new Float64Array(size * size);
  for (const j of over) for (const k of over) only[j * size + k] = information[j * size + k] as number;
  return factorSymmetric(only, { size, tolerance: 1e-14 });
}

/**
 * Newton's method from 0 with step halving.
 *
 * Where the likelihood is monotone its gain dies out geometrically while the steps keep their length; at a finite maximum both
 * vanish together. That difference is the test for an infinite coefficient.
 */
export function maximise(layout: HazardLayout, options: NewtonOptions): NewtonResult {
  const { size } = layout;
  const evaluate = likelihoodOf(layout, options.ties);
  const ranges = rangesOf(layout);
  const beta = new Float64Array(size);
  const trial = new Float64Array(size);
  let current = evaluate(beta);
  const logLikelihoodNull = current.logLikelihood;
  const first = factorSymmetric(current.information, {
    size,
    tolerance: collinearBelow,
    floor: collinearBelow * layout.eventWeight,
  });
  const scoreStatistic = quadraticForm(first, current.score);
  const estimable = first.kept;
  let iterations = 0;
  let converged = estimable.length === 0;
  let infinite: number[] = [];
  while (!converged && infinite.length === 0 && iterations < options.maximumIterations) {
    iterations++;
    const before = current.logLikelihood;
    const step = solveFactored(factorOver(current.information, estimable, size), current.score);
    let part = 1;
    for (;;) {
      for (let j = 0; j < size; j++) trial[j] = (beta[j] as number) + part * (step[j] as number);
      current = evaluate(trial);
      const worse =
        !(current.logLikelihood >= before - 1e-12 * Math.abs(before)) ||
        !Number.isFinite(current.logLikelihood);
      if (!worse || part < 1e-10) break;
      part /= 2;
    }
    beta.set(trial);
    const largest = estimable.reduce((most, j) => Math.max(most, Math.abs(part * (step[j] as number))), 0);
    converged = largest < options.tolerance;
    if (!converged && Math.abs(current.logLikelihood - before) < gainBelow + 1e-15 * Math.abs(before))
      infinite = estimable.filter((j) => Math.abs(step[j] as number) * (ranges[j] as number) > stillMoving);
  }
  return {
    beta,
    logLikelihoodNull,
    logLikelihood: current.logLikelihood,
    scoreStatistic,
    information: current.information.slice(),
    finalGradient: current.score.slice(),
    estimable,
    infinite,
    iterations,
    converged,
  };
}
