import { rootBetween } from "../../shared/root.js";
import type { AcceleratedLayout } from "./accelerated-columns.js";
import { likelihoodAt, logLikelihoodByRow, scoresByRow } from "./accelerated-likelihood.js";
import { type Ascent, type AscentOptions, climb } from "./accelerated-newton.js";
import { errorLawOf } from "./error-laws.js";
import { byShape } from "./generalised-gamma.js";

/** An ascent, and the shape of the generalised gamma law at which the likelihood is highest; null for a law without one. */
export interface ShapedAscent extends Ascent {
  readonly shape: number | null;
  /** The likelihood still rises at the outermost shape looked at. */
  readonly shapeAtLimit: boolean;
}

/**
 * Shapes that are tried first. Beyond 3 the law has all but an end (its density drops from its highest to nothing within a few days), and with
 * it the likelihood no dependable maximum.
 */
const tried = [-3, -1.5, -0.5, 0, 0.5, 1, 1.5, 3] as const;

/** Slope of the log-likelihood a row at which the shape has come to its end. */
const levelBelow = 1e-9;

const shapedLaw = (shape: number) => errorLawOf("generalised-gamma", shape);

/** Derivative of the log-likelihood by the shape, the other parameters at their best for it. */
function slopeAt(layout: AcceleratedLayout, ascent: Ascent, shape: number): number {
  const { parameters } = ascent;
  return byShape((at) => likelihoodAt(layout, { parameters, law: shapedLaw(at) }).logLikelihood, shape);
}

/** The best of the shapes tried, and where along the list it stands. */
function bestTried(layout: AcceleratedLayout, options: AscentOptions, start?: Float64Array) {
  let best: { place: number; ascent: Ascent } | null = null;
  let from = start;
  for (const [place, shape] of tried.entries()) {
    const ascent = climb(layout, { ...options, shape }, from);
    const usable = ascent.ending.kind === "maximum";
    if (usable) from = ascent.parameters;
    const better = best === null || ascent.at.logLikelihood > best.ascent.at.logLikelihood;
    if (usable && better) best = { place, ascent };
  }
  return best;
}

/**
 * The ascent for the law asked for; under the generalised gamma law over the shape as well: Newton's method at each of a list of shapes, then
 * the root of the derivative by the shape between the neighbours of the best. For a given shape the log-likelihood is concave, so that no
 * start can lead astray.
 */
export function climbShaped(
  layout: AcceleratedLayout,
  options: AscentOptions,
  start?: Float64Array,
): ShapedAscent {
  if (options.law !== "generalised-gamma")
    return { ...climb(layout, options, start), shape: null, shapeAtLimit: false };
  const best = bestTried(layout, options, start);
  if (best === null)
    return { ...climb(layout, { ...options, shape: 0 }, start), shape: 0, shapeAtLimit: false };
  const { place, ascent } = best;
  const at = (shape: number): Ascent => climb(layout, { ...options, shape }, ascent.parameters);
  const rows = layout.totals.reduce((sum, count) => sum + count, 0);
  const slope = (shape: number): number => {
    const value = slopeAt(layout, at(shape), shape);
    return Math.abs(value) < levelBelow * rows ? 0 : value;
  };
  const middle = tried[place]!;
  const rising = slopeAt(layout, ascent, middle);
  const neighbour = tried[place + (rising > 0 ? 1 : -1)];
  if (neighbour === undefined) return { ...ascent, shape: middle, shapeAtLimit: true };
  let other: number = neighbour;
  // between the two lies a maximum; the slope at the neighbour may belong to another one further on
  for (let round = 0; round < 20 && slope(other) * rising > 0; round++) other = (middle + other) / 2;
  const shape = rising === 0 ? middle : rootBetween(slope, [middle, other]);
  return { ...at(shape), shape, shapeAtLimit: false };
}

/** Information of the parameters of the layout and of the shape, flat. */
export function informationWithShape(
  layout: AcceleratedLayout,
  { parameters, at, shape }: ShapedAscent & { readonly shape: number },
): Float64Array {
  const all = parameters.length;
  const size = all + 1;
  const result = new Float64Array(size * size);
  for (let i = 0; i < all; i++)
    for (let j = 0; j < all; j++) result[i * size + j] = at.information[i * all + j]!;
  const shaped = (value: number) => likelihoodAt(layout, { parameters, law: shapedLaw(value) });
  for (let i = 0; i < all; i++) {
    const cross = -byShape((value) => shaped(value).score[i]!, shape);
    result[i * size + all] = cross;
    result[all * size + i] = cross;
  }
  const twice = byShape((value) => byShape((inner) => shaped(inner).logLikelihood, value), shape);
  result[all * size + all] = -twice;
  return result;
}

/** First derivatives of each row by the parameters of the layout and by the shape, times its weight; flat by rows. */
export function scoresWithShape(
  layout: AcceleratedLayout,
  { parameters, shape }: { readonly parameters: Float64Array; readonly shape: number },
): Float64Array {
  const own = scoresByRow(layout, { parameters, law: shapedLaw(shape) });
  const all = parameters.length;
  const size = all + 1;
  const result = new Float64Array(layout.n * size);
  const rows = (value: number): Float64Array =>
    logLikelihoodByRow(layout, { parameters, law: shapedLaw(value) });
  const step = 1e-4;
  const [above, below] = [rows(shape + step), rows(shape - step)];
  for (let row = 0; row < layout.n; row++) {
    for (let j = 0; j < all; j++) result[row * size + j] = own[row * all + j]!;
    result[row * size + all] = (above[row]! - below[row]!) / (2 * step);
  }
  return result;
}
