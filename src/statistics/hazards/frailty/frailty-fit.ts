import { factorOver } from "../../linear/newton.js";
import { solveFactored } from "../../linear/symmetric.js";
import type { HazardLayout } from "../layout/sorted-rows.js";
import type { SummedTies } from "../layout/ties.js";
import { exposures } from "../likelihood/exposure.js";
import { informationOf } from "../likelihood/information.js";
import { moveTo } from "../likelihood/move-state.js";
import { emptyState, type RiskState } from "../likelihood/risk-state.js";
import { fixedPoint } from "./fixed-point.js";

/** Rows in groups, laid out; arrays that every evaluation fills again. */
export interface FrailtyProblem {
  readonly layout: HazardLayout;
  readonly estimable: readonly number[];
  /** Group of each sorted row, and the events of each group. */
  readonly groupOf: Int32Array;
  readonly events: Float64Array;
  readonly state: RiskState;
  readonly offset: Float64Array;
  readonly work: Float64Array;
}

/** The best coefficients and frailties for one variance of the frailty. */
export interface FrailtyFit {
  readonly theta: number;
  /** Standardised. */
  readonly beta: Float64Array;
  /** Logarithm of each group's frailty. */
  readonly logFrailty: Float64Array;
  /** Integrated over the frailties; the ordinary partial log-likelihood where theta is 0. */
  readonly logLikelihood: number;
  /** Its derivative by theta. */
  readonly slope: number;
  readonly score: Float64Array;
  readonly iterations: number;
  readonly converged: boolean;
}

export function frailtyProblem(
  layout: HazardLayout,
  settings: {
    readonly ties: SummedTies;
    readonly groups: Int32Array;
    readonly count: number;
    readonly estimable: readonly number[];
  },
): FrailtyProblem {
  const groupOf = Int32Array.from(layout.row, (row) => settings.groups[row]!);
  const events = new Float64Array(settings.count);
  for (let i = 0; i < layout.n; i++) if (layout.event[i] === 1) events[groupOf[i]!]!++;
  const offset = new Float64Array(layout.n);
  const state = emptyState(layout, { ties: settings.ties, offset });
  return {
    layout,
    estimable: settings.estimable,
    groupOf,
    events,
    state,
    offset,
    work: new Float64Array(layout.n),
  };
}

/** Moves the state to coefficients and frailties. @returns log-likelihood, and events expected of each group */
function evaluate(
  problem: FrailtyProblem,
  at: { readonly beta: Float64Array; readonly logFrailty: Float64Array },
  score: Float64Array,
): { logLikelihood: number; expected: Float64Array } {
  const { layout, groupOf, state, offset, work } = problem;
  for (let row = 0; row < layout.n; row++) offset[row] = at.logFrailty[groupOf[row]!]!;
  const logLikelihood = moveTo(state, at.beta, score);
  exposures(state, work, null);
  const expected = new Float64Array(problem.events.length);
  for (let row = 0; row < layout.n; row++) expected[groupOf[row]!]! += state.risk[row]! * work[row]!;
  return { logLikelihood, expected };
}

/**
 * Best frailties, and coefficients where they are not held, at one theta.
 *
 * With nu = 1 / theta, a group with d events whose expected number without its frailty is A has the posterior mean (nu + d) / (nu + A);
 * coefficients take a Newton step with the frailties as offsets. Repeated until both stand.
 */
export function fitFrailty(
  problem: FrailtyProblem,
  question: {
    readonly theta: number;
    readonly from: { readonly beta: Float64Array; readonly logFrailty: Float64Array };
    readonly coefficients: "fitted" | "held";
  },
): FrailtyFit {
  const { layout, events, estimable } = problem;
  const { size } = layout;
  const { theta, from, coefficients } = question;
  const nu = 1 / theta;
  const score = new Float64Array(size);
  const information = new Float64Array(size * size);
  const split = (x: Float64Array) => ({ beta: x.subarray(0, size), logFrailty: x.subarray(size) });
  const map = (x: Float64Array): Float64Array => {
    const { beta, logFrailty } = split(x);
    const { expected } = evaluate(problem, { beta, logFrailty }, score);
    const image = x.slice();
    events.forEach((d, group) => {
      const without = expected[group]! / Math.exp(logFrailty[group]!);
      image[size + group] = Math.log((nu + d) / (nu + without));
    });
    if (coefficients === "held") return image;
    informationOf(problem.state, information, { work: problem.work, factor: null });
    const step = solveFactored(factorOver(information, estimable), score);
    for (const j of estimable) image[j]! += step[j]!;
    return image;
  };
  const start = new Float64Array(size + events.length);
  start.set(from.beta);
  start.set(from.logFrailty, size);
  const found = fixedPoint(map, { from: start, tolerance: 1e-11, most: 2000 });
  const { beta, logFrailty } = split(found.x);
  const { logLikelihood } = evaluate(problem, { beta, logFrailty }, score);
  const ends = integrated({ nu, events, logFrailty });
  return {
    theta,
    beta,
    logFrailty,
    logLikelihood: logLikelihood + ends.value,
    slope: -nu * nu * ends.slopeByNu,
    score: score.slice(),
    iterations: found.iterations,
    converged: found.converged,
  };
}

/**
 * What integrating over the frailties adds to the partial log-likelihood with the frailties as offsets, a group of d events and log frailty g
 * adding nu g + log G(nu + d) - log G(nu) + nu log nu - (nu + d) log(nu + d) + d (G the gamma function); and its derivative by nu.
 * The last d makes it go to 0 with theta.
 */
function integrated(parts: {
  readonly nu: number;
  readonly events: Float64Array;
  readonly logFrailty: Float64Array;
}): {
  value: number;
  slopeByNu: number;
} {
  const { nu, events, logFrailty } = parts;
  let value = 0;
  let slopeByNu = 0;
  events.forEach((d, group) => {
    const g = logFrailty[group]!;
    const grown = nu + d;
    // log G(nu + d) - log G(nu) is a sum of d logarithms: the difference of two large numbers would lose the digits
    for (let k = 0; k < d; k++) {
      value += Math.log1p((k - d) / grown);
      slopeByNu += 1 / (nu + k);
    }
    value += nu * g + d - nu * Math.log1p(d / nu);
    slopeByNu += g - Math.log1p(d / nu) - Math.expm1(g);
  });
  return { value, slopeByNu };
}
