import type { Evaluator, Likelihood } from "./log-likelihood.js";
import { updateInformationBySecant } from "./secant-update.js";
import { type Factor, factorSymmetric, quadraticForm, solveFactored } from "./symmetric.js";

/** What the iterations need to know of the rows behind a likelihood: whatever sorted them may hold more. */
export interface NewtonRows {
  readonly n: number;
  readonly size: number;
  /** Standardised covariates, one column each. */
  readonly x: readonly Float64Array[];
  /** Largest less smallest value of each. */
  readonly ranges: Float64Array;
  readonly eventWeight: number;
}

export interface NewtonOptions {
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
  /** Estimable covariates whose coefficient runs to infinity, the sign telling where, or drops out of the limit of the likelihood. */
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
/** Information an event, covariates in standard deviations, below which at the end a direction has no finite maximum. */
const vanishedBelow = 1e-6;
/** The same, below which the iterations need not go on, where the first derivative has vanished too (an event). */
const goneBelow = 1e-10;
const gradientBelow = 1e-8;
/** The same, below which no step is taken along a direction: the first derivative is rounding there, and the step would be anything. */
const onlyRounding = 1e-14;

function rangeOf(values: Float64Array): number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return high - low;
}

/** Factor of the information restricted to some covariates. */
export function factorOver(information: Float64Array, over: readonly number[], floor = 0): Factor {
  const size = Math.sqrt(information.length);
  const only = new Float64Array(size * size);
  for (const j of over) for (const k of over) only[j * size + k] = information[j * size + k]!;
  return factorSymmetric(only, { size, tolerance: 1e-14, floor });
}

/** Factor of the information at 0: what it keeps are the covariates that are no combination of earlier ones. */
export function factorAtZero(information: Float64Array, eventWeight: number): Factor {
  const size = Math.sqrt(information.length);
  return factorSymmetric(information, {
    size,
    tolerance: collinearBelow,
    floor: collinearBelow * eventWeight,
  });
}

/** Spread of the log hazards over the rows beyond which no estimate is meant by anybody, and exp() soon overflows. */
export const longestSpan = 400;

/** Largest less smallest log hazard of the rows. */
export function spanOf({ x, n, size }: NewtonRows, beta: Float64Array): number {
  const eta = new Float64Array(n);
  for (let j = 0; j < size; j++) {
    const column = x[j]!;
    for (let i = 0; i < n; i++) eta[i]! += beta[j]! * column[i]!;
  }
  return rangeOf(eta);
}

/** A bound that is cheap to have, and the span itself only where the bound is passed. */
function tooLong(layout: NewtonRows, beta: Float64Array): boolean {
  const bound = layout.ranges.reduce((sum, range, j) => sum + Math.abs(beta[j]!) * range, 0);
  return bound > longestSpan && spanOf(layout, beta) > longestSpan;
}

/** A step in standard deviations after which likelihood and information stand as they are, to the last digits that anybody reads. */
const tooShortToMatter = 1e-10;

/**
 * After a step between these lengths (standard deviations) the information is nearly what it was, and is brought in line with the score
 * instead of being summed again: steps go on shrinking by a factor. It is summed when the step to come is the last.
 */
const secantAbove = 1e-6;
const secantBelow = 1e-2;
/** Steps that shrink less than to this part want the information. */
const secantShrinksTo = 0.1;

/** Whether the score alone will do after a step. @param last length of the step before, infinite where that one had a new information */
const scoreWillDo = (length: number, last: number): boolean =>
  last === Number.POSITIVE_INFINITY
    ? length > secantAbove && length < secantBelow
    : length < secantShrinksTo * last && (length * length) / last > tooShortToMatter;

/** Most that one step may move the log hazard by any covariate across its range: longer steps overflow. */
const longestReach = 200;

/** Part of the largest component of a direction below which a covariate does not take part in it. */
const notInDirection = 1e-3;

/**
 * Covariates that take part in a direction along which the information has vanished: each column that adds nothing to those before it, with
 * what it is a combination of.
 */
function vanished(
  information: Float64Array,
  question: { over: readonly number[]; floor: number; ranges: Float64Array },
): number[] {
  const { over, floor, ranges } = question;
  const size = ranges.length;
  const factor = factorOver(information, over, floor);
  const involved = new Set<number>();
  for (const column of over) {
    if (factor.kept.includes(column)) continue;
    const direction = solveFactored(factor, information.subarray(column * size, (column + 1) * size));
    direction[column] = -1;
    const reach = direction.map((value, j) => Math.abs(value * ranges[j]!));
    const most = Math.max(...reach);
    for (const j of over) if (reach[j]! > notInDirection * most) involved.add(j);
  }
  return [...involved];
}

const largestOf = (values: Float64Array, over: readonly number[]): number =>
  over.reduce((most, j) => Math.max(most, Math.abs(values[j]!)), 0);

/** Goes along a step, or the first half, quarter ... of it after which the likelihood is no worse; null where there is none. */
function halvedUntilBetter(
  evaluate: (at: Float64Array) => Likelihood,
  ascent: {
    readonly from: Float64Array;
    readonly step: Float64Array;
    readonly part: number;
    readonly before: number;
  },
): { readonly at: Float64Array; readonly part: number; readonly likelihood: Likelihood } | null {
  const { from, step, before } = ascent;
  const worst = before - 1e-12 * Math.abs(before);
  for (let part = ascent.part; part > 1e-10; part /= 2) {
    const at = from.map((value, j) => value + part * step[j]!);
    const likelihood = evaluate(at);
    if (Number.isFinite(likelihood.logLikelihood) && likelihood.logLikelihood >= worst)
      return { at, part, likelihood };
  }
  return null;
}

/**
 * Newton's method from 0 with step halving. Some short steps go without summing the information anew, but it is always summed where the
 * iterations end, and what is said there of convergence and of infinite coefficients rests on it. The last step, too short to matter, is taken
 * without evaluating again.
 *
 * Where the likelihood is monotone its gain and its information die out geometrically while the steps keep their length; at a finite
 * maximum gain and steps vanish together and the information stays. That difference is the test for infinite coefficients.
 */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: the ways in which an ascent can end stand beside each other
export function maximise(
  layout: NewtonRows,
  options: NewtonOptions & { readonly evaluate: Evaluator },
): NewtonResult {
  const { size, eventWeight, ranges } = layout;
  const { evaluate } = options;
  const beta = new Float64Array(size);
  let current = evaluate(beta, "all");
  const logLikelihoodNull = current.logLikelihood;
  const first = factorAtZero(current.information, eventWeight);
  const scoreStatistic = quadraticForm(first, current.score);
  const estimable = first.kept;
  let iterations = 0;
  let converged = estimable.length === 0;
  let stalled = false;
  let moving: number[] = [];
  // the information, or what was made of it since it was last summed
  let information = current.information.slice();
  let informed = true;
  let lastLength = Number.POSITIVE_INFINITY;
  while (!converged && moving.length === 0) {
    const before = current.logLikelihood;
    const scoreBefore = current.score.slice();
    const step = solveFactored(factorOver(information, estimable, onlyRounding * eventWeight), scoreBefore);
    const length = largestOf(step, estimable);
    if (informed && length < Math.min(tooShortToMatter, options.tolerance)) {
      for (const j of estimable) beta[j]! += step[j]!;
      converged = true;
      break;
    }
    if (iterations === options.maximumIterations) break;
    const short = scoreWillDo(length, lastLength);
    lastLength = short ? length : Number.POSITIVE_INFINITY;
    const reach = step.map((value, j) => Math.abs(value * ranges[j]!));
    const tried = halvedUntilBetter((at) => evaluate(at, short ? "score" : "all"), {
      from: beta,
      step,
      part: Math.min(1, longestReach / largestOf(reach, estimable)),
      before,
    });
    if (tried === null) {
      stalled = true;
      break;
    }
    const { part } = tried;
    current = tried.likelihood;
    iterations++;
    beta.set(tried.at);
    // a step that rests on an information of its own tells how far the maximum was
    converged = informed && part * length < options.tolerance;
    informed = !short;
    if (informed) information = current.information.slice();
    else
      updateInformationBySecant(information, {
        step: step.map((value) => part * value),
        fall: scoreBefore.map((value, j) => value - current.score[j]!),
      });
    const gainIsOver = Math.abs(current.logLikelihood - before) < gainBelow + 1e-15 * Math.abs(before);
    if (!converged && gainIsOver) moving = estimable.filter((j) => reach[j]! > stillMoving);
    if (tooLong(layout, beta)) {
      converged = false;
      // far away already, or still on the way when the others went too far
      moving = estimable.filter(
        (j) => Math.abs(beta[j]!) * ranges[j]! > longestSpan / (2 * size) || part * reach[j]! > stillMoving,
      );
    }
    const flat = informed && largestOf(current.score, estimable) < gradientBelow * eventWeight;
    if (flat && !converged && moving.length === 0)
      moving = vanished(information, { over: estimable, floor: goneBelow * eventWeight, ranges });
  }
  if (stalled || !informed) current = evaluate(beta, "all");
  const ended = converged || stalled || moving.length > 0;
  const floor = vanishedBelow * eventWeight;
  const alsoGone = ended ? vanished(current.information, { over: estimable, floor, ranges }) : [];
  const infinite = estimable.filter((j) => moving.includes(j) || alsoGone.includes(j));
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
