import { rootBetween } from "../../shared/root.js";
import { fitAt, residualDf, type SiteFit, type SiteModel } from "./site-model.js";

export const spreadMethods = [
  "restricted-likelihood",
  "paule-mandel",
  "dersimonian-laird",
  "likelihood",
] as const;
export type SpreadMethod = (typeof spreadMethods)[number];

/** Variance between sites, by one of the methods. */
export interface Spread {
  readonly method: SpreadMethod;
  readonly tauSquared: number;
  /** Whether it is at 0, the smallest it can be: the sites differ by no more than their errors allow. */
  readonly atZero: boolean;
  /** Whether the equation that defines it holds to rounding (at 0: whether it points below 0). */
  readonly converged: boolean;
  /** What is left of that equation, as part of its terms. */
  readonly gradient: number;
  readonly fit: SiteFit;
}

/** The equation that a method solves: `left` falls below `right` as tau^2 grows. */
type Equation = (fit: SiteFit) => { readonly left: number; readonly right: number };

const equations: Readonly<
  Record<Exclude<SpreadMethod, "dersimonian-laird">, (model: SiteModel) => Equation>
> = {
  "restricted-likelihood": () => (fit) => ({ left: fit.twice, right: fit.trace }),
  likelihood: () => (fit) => ({ left: fit.twice, right: fit.total }),
  "paule-mandel": (model) => {
    const right = residualDf(model);
    return (fit) => ({ left: fit.squares, right });
  },
};

/** Beyond this tau^2 every one of the equations points downwards. */
function beyond(model: SiteModel): number {
  const flat = fitAt({ ...model, v: model.v.map(() => 1) }, 0);
  const largest = model.v.reduce((most, variance) => Math.max(most, variance), 0);
  return 1.01 * Math.max(largest, (2 * flat.squares) / residualDf(model));
}

/** Twelve powers of ten below the end, in steps of a seventh: a likelihood may have more than one top. */
const gridSteps = 200;
const gridReach = Math.log(1e12);

function* grid(end: number): Generator<number> {
  yield 0;
  for (let step = 0; step <= gridSteps; step++) yield end * Math.exp(-gridReach * (1 - step / gridSteps));
}

/** Every tau^2 at which the equation turns downwards; 0 is one of them where it points downwards there. */
function tops(model: SiteModel, equation: Equation): readonly number[] {
  const slope = (tauSquared: number): number => {
    const { left, right } = equation(fitAt(model, tauSquared));
    return left - right;
  };
  const found: number[] = [];
  let [before, slopeBefore] = [0, slope(0)];
  if (slopeBefore <= 0) found.push(0);
  for (const next of grid(beyond(model))) {
    const slopeNext = slope(next);
    if (slopeBefore > 0 && slopeNext <= 0) found.push(rootBetween(slope, [before, next]));
    [before, slopeBefore] = [next, slopeNext];
  }
  return found;
}

const heightOf = (method: SpreadMethod, { logLikelihood }: SiteFit): number =>
  method === "likelihood" ? logLikelihood.full : logLikelihood.restricted;

function byEquation(model: SiteModel, method: Exclude<SpreadMethod, "dersimonian-laird">): Spread {
  const equation = equations[method](model);
  const fits = tops(model, equation).map((tauSquared) => fitAt(model, tauSquared));
  const fit = fits.reduce((best, next) => (heightOf(method, next) > heightOf(method, best) ? next : best));
  const { left, right } = equation(fit);
  const gradient = (left - right) / right;
  const atZero = fit.tauSquared === 0;
  const converged = atZero ? gradient <= 0 : Math.abs(gradient) < 1e-8;
  return { method, tauSquared: fit.tauSquared, atZero, converged, gradient, fit };
}

/** The one of moments, by a formula: Q - df over the trace of P without a spread. */
function byMoments(model: SiteModel): Spread {
  const without = fitAt(model, 0);
  const tauSquared = Math.max(0, (without.squares - residualDf(model)) / without.trace);
  const fit = fitAt(model, tauSquared);
  return {
    method: "dersimonian-laird",
    tauSquared,
    atZero: tauSquared === 0,
    converged: true,
    gradient: 0,
    fit,
  };
}

/**
 * Variance between sites, tau^2.
 *
 * With w = 1 / (v + tau^2), r the residuals about the weighted mean (or line) and P the projection that takes it out: restricted likelihood
 * solves sum w^2 r^2 = tr P, likelihood sum w^2 r^2 = sum w, Paule and Mandel sum w r^2 = k - p, each to rounding between two ends that
 * hold it; of several solutions the one of the highest likelihood is taken. DerSimonian and Laird: (Q - (k - p)) / tr P at tau^2 = 0.
 * Where the equation points below 0, tau^2 is 0 and that is told.
 *
 * @param model more sites than coefficients
 * @source DerSimonian & Laird 1986, Control Clin Trials 7:177; Paule & Mandel 1982, J Res Natl Bur Stand 87:377; restricted likelihood and
 *   likelihood: Raudenbush 2009, The Handbook of Research Synthesis and Meta-Analysis, chapter 16; Viechtbauer 2005, J Educ Behav Stat 30:261
 */
export const spreadOf = (model: SiteModel, method: SpreadMethod): Spread =>
  method === "dersimonian-laird" ? byMoments(model) : byEquation(model, method);

/** The tau^2 at which the weighted squares about the line come down to a value; null where they start below it. */
export function spreadWhereSquaresAre(model: SiteModel, value: number): number | null {
  const above = (tauSquared: number): number => fitAt(model, tauSquared).squares - value;
  if (above(0) < 0) return null;
  const flat = fitAt({ ...model, v: model.v.map(() => 1) }, 0).squares;
  return flat === 0 ? 0 : rootBetween(above, [0, flat / value]);
}
