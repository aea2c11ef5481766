import { factorOver } from "../../linear/newton.js";
import { factorSymmetric, solveFactored } from "../../linear/symmetric.js";
import { type AcceleratedLayout, standIn, uninformative } from "./accelerated-columns.js";
import {
  type Ending,
  endingAtRest,
  endingOf,
  heldOnBothSides,
  reachOfColumns,
} from "./accelerated-ending.js";
import { type AcceleratedLikelihood, likelihoodAt } from "./accelerated-likelihood.js";
import type { ErrorLaw } from "./error-law.js";
import { errorLawOf, type TimeLaw } from "./error-laws.js";

export interface AscentOptions {
  readonly law: TimeLaw;
  /** Of the generalised gamma law, held at this value. */
  readonly shape?: number;
  /** Columns of x that take part. */
  readonly columns: readonly number[];
  readonly maximumIterations: number;
  /** Largest last step. */
  readonly tolerance: number;
}

export interface Ascent {
  /** On the scale of the layout: b / scale, then 1 / scale. */
  readonly parameters: Float64Array;
  readonly at: AcceleratedLikelihood;
  /** Parameters that were free, ascending; the last may be 1 / scale. */
  readonly free: readonly number[];
  readonly iterations: number;
  readonly ending: Ending;
}

/** A pivot this much smaller than its diagonal is a collinear column. */
const collinearBelow = 1e-9;
/** A gain of log-likelihood this small means that the likelihood has come to its end, wherever the parameters are. */
const gainBelow = 1e-10;
/** 1 / scale beyond these (log time in units of e) is on its way to infinity or to 0. */
const steepest = 1e7;
const flattest = 1e-7;
/** 1 / scale may shrink to this part of itself in one step. */
const mostShrinking = 0.2;
const shortestPart = 1e-10;

/** Columns of x that are no combination of earlier ones, over the rows that count. */
export function independentColumns({ n, size, x, kind, weights }: AcceleratedLayout): readonly number[] {
  const products = new Float64Array(size * size);
  for (let row = 0; row < n; row++) {
    const weight = weights[row]!;
    if (weight === 0 || kind[row] === uninformative) continue;
    for (let j = 0; j < size; j++)
      for (let k = 0; k < size; k++)
        products[j * size + k]! += weight * x[row * size + j]! * x[row * size + k]!;
  }
  return factorSymmetric(products, { size, tolerance: collinearBelow }).kept;
}

/** 1 / scale from the spread of the rows' stand-in times, kept within sense. */
function firstSteepness(layout: AcceleratedLayout): number {
  let sum = 0;
  let squares = 0;
  for (let row = 0; row < layout.n; row++) {
    if (layout.kind[row] === uninformative) continue;
    sum += layout.weights[row]!;
    squares += layout.weights[row]! * standIn(layout, row) ** 2;
  }
  return Math.min(20, Math.max(0.1, Math.sqrt(sum / squares)));
}

/** Newton's step; where late entries leave no curvature in some direction, that of the concave part, which is shorter but leads up as well. */
function stepFrom(at: AcceleratedLikelihood, free: readonly number[]): Float64Array {
  const own = factorOver(at.information, free);
  const isWhole = own.kept.length === free.length;
  const concave = isWhole ? own : factorOver(at.concavePart(), free);
  return solveFactored(own.kept.length < concave.kept.length ? concave : own, at.score);
}

interface State {
  readonly parameters: Float64Array;
  readonly at: AcceleratedLikelihood;
}

/** The longest part of the step, halved from 1, that does not lower the likelihood; null where none does. */
function advance(
  layout: AcceleratedLayout,
  from: State & { readonly step: Float64Array; readonly law: ErrorLaw },
): (State & { readonly part: number }) | null {
  const { parameters, at, step, law } = from;
  const { size } = layout;
  const w = parameters[size]!;
  const shrinking = -step[size]! / w;
  const floor = at.logLikelihood - 1e-13 * Math.abs(at.logLikelihood);
  for (
    let part = shrinking > 1 - mostShrinking ? (1 - mostShrinking) / shrinking : 1;
    part > shortestPart;
    part /= 2
  ) {
    const trial = parameters.map((value, j) => value + part * step[j]!);
    const there = likelihoodAt(layout, { parameters: trial, law });
    if (Number.isFinite(there.logLikelihood) && there.logLikelihood >= floor)
      return { parameters: trial, at: there, part };
  }
  return null;
}

/**
 * Newton's method with step halving on b / scale and 1 / scale, where the log-likelihood is concave (but for late entries), so that any
 * start will do.
 *
 * @source Burridge 1981, J R Stat Soc B 43:41 (concavity); Olsen 1978, Econometrica 46:1211 (the parameters)
 */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: the ways in which an ascent can end stand beside each other
export function climb(layout: AcceleratedLayout, options: AscentOptions, start?: Float64Array): Ascent {
  const { size } = layout;
  const law = errorLawOf(options.law, options.shape);
  const fixed = options.law === "exponential";
  const free = fixed ? options.columns : [...options.columns, size];
  const reach = reachOfColumns(layout);
  const weight = layout.totals.reduce((sum, rows) => sum + rows, 0);
  const held = heldOnBothSides(layout);
  let parameters: Float64Array = start?.slice() ?? new Float64Array(size + 1);
  if (!start) parameters[size] = fixed ? 1 : firstSteepness(layout);
  let at = likelihoodAt(layout, { parameters, law });
  let ending: Ending = { kind: "not-converged" };
  let iterations = 0;
  while (iterations < options.maximumIterations) {
    const step = stepFrom(at, free);
    const rises = free.reduce((sum, j) => sum + step[j]! * at.score[j]!, 0);
    const next = advance(layout, { parameters, at, step, law });
    const longest = free.reduce(
      (most, j) => Math.max(most, Math.abs(step[j]!) / (1 + Math.abs(parameters[j]!))),
      0,
    );
    if (next === null) {
      // no way up along Newton's step: at the top as far as the rounding of the likelihood shows
      ending = longest < Math.sqrt(options.tolerance) ? { kind: "maximum" } : ending;
      break;
    }
    iterations++;
    const gain = next.at.logLikelihood - at.logLikelihood;
    ({ parameters, at } = next);
    const w = parameters[size]!;
    if (w > steepest || w < flattest) {
      ending = { kind: w > 1 ? "scale-to-zero" : "scale-to-infinity" };
      break;
    }
    if (next.part === 1 && longest < options.tolerance) {
      ending = { kind: "maximum" };
      break;
    }
    if (gain < gainBelow + 1e-15 * Math.abs(at.logLikelihood)) {
      const other = endingOf(step, { free, reach, w, rises, weight, held });
      if (other === null) continue;
      ending = other;
      break;
    }
  }
  if (ending.kind === "maximum")
    ending = endingAtRest(factorOver(at.information, free).kept, { free, size, held });
  return { parameters, at, free, iterations, ending };
}
