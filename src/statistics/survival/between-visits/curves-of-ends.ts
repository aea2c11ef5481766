import { errorLawOf } from "../accelerated/error-laws.js";
import type { EndModel, Piece } from "./end-model.js";

/** Parameters of a piece: intercept, coefficients, log scale, shape; 0 for what it has not. */
export const parametersOf = ({ fit }: Piece): Float64Array =>
  Float64Array.from([
    fit.intercept ?? 0,
    ...fit.coefficients.map((value) => value ?? 0),
    fit.logScale ?? 0,
    fit.shape ?? 0,
  ]);

interface At {
  readonly parameters: Float64Array;
  readonly group: number;
  readonly covariates: readonly number[];
}

/** Logarithm of the share without the end at each time, for one pattern of group and covariates. */
export function logTailOf({ fit, design }: Piece, at: At): (time: number) => number {
  const x = design(at.group, at.covariates);
  const middle = x.reduce((sum, value, j) => sum + value * at.parameters[j]!, 0);
  const scale = Math.exp(at.parameters[x.length]!);
  const law = errorLawOf(fit.law, at.parameters[x.length + 1]!);
  return (time) => (time > 0 ? law.logUpperTail((Math.log(time) - middle) / scale) : 0);
}

/** Share without the end at each time, for one pattern of group and covariates. */
export function tailOf(piece: Piece, at: At): (time: number) => number {
  const log = logTailOf(piece, at);
  return (time) => Math.exp(log(time));
}

/**
 * Cumulative incidence of one end at ascending knots from 0 on, where the others may come first: the sum over the steps of what the
 * end's own curve falls by, times the mean of the product of the others' curves over the step.
 */
export function incidenceOver(
  knots: Float64Array,
  tails: { readonly own: (time: number) => number; readonly others: readonly ((time: number) => number)[] },
): Float64Array {
  const { own, others } = tails;
  const result = new Float64Array(knots.length);
  let before = 1;
  let othersBefore = 1;
  for (let i = 1; i < knots.length; i++) {
    const now = own(knots[i]!);
    const othersNow = others.reduce((product, tail) => product * tail(knots[i]!), 1);
    result[i] = result[i - 1]! + ((before - now) * (othersBefore + othersNow)) / 2;
    before = now;
    othersBefore = othersNow;
  }
  return result;
}

/** The piece of each end's model that speaks of a group; none for an end never seen there. */
export const piecesFor = (models: readonly EndModel[], group: number): (Piece | undefined)[] =>
  models.map(({ pieces }) => pieces.find(({ groups }) => groups.includes(group)));
