import { factorOver } from "../../linear/newton.js";
import { factorSymmetric, solveFactored } from "../../linear/symmetric.js";

type Matrix = readonly (readonly number[])[];

/** Sums over all sites at a point. */
export interface PooledSums {
  readonly point: readonly number[];
  readonly logLikelihood: number;
  readonly score: readonly number[];
  readonly information: Matrix;
}

/** Where an ascent over rounds stands: a point that was taken, the step from it, and how much of the step is being tried. */
export interface Ascent {
  readonly taken: PooledSums;
  readonly step: readonly number[];
  readonly part: number;
  /** Parameters that are no combination of earlier ones. */
  readonly free: readonly number[];
  /** Information of each parameter where the ascent began. */
  readonly first: readonly number[];
}

/**
 * What comes next: `try`: a point that the sites are asked about; `last`: the maximum is there to more digits than anybody reads, and the next
 * answers are those of the fit; `stalled`: no part of the step raises the likelihood.
 */
export type NextPoint =
  | { readonly kind: "try" | "last"; readonly point: readonly number[]; readonly ascent: Ascent }
  | { readonly kind: "stalled"; readonly ascent: Ascent };

/** Squared length of a Newton step in standard errors from which on the next point is the last. */
export const lastStepBelow = 1e-10;
/** A pivot this much smaller than its diagonal is a collinear parameter. */
const collinearBelow = 1e-9;
const shortestPart = 1e-6;
/** 1 / scale may shrink to this part of itself in one step. */
const mostShrinking = 0.2;

const flat = (matrix: Matrix): Float64Array => Float64Array.from(matrix.flat());

/** Parameters about which there is information of their own. */
export const freeParameters = (information: Matrix): readonly number[] =>
  factorSymmetric(flat(information), { size: information.length, tolerance: collinearBelow }).kept;

/** Newton's step; where late entries leave no curvature in some direction, with more and more of the diagonal added until there is some. */
function stepFrom(sums: PooledSums, free: readonly number[]): Float64Array {
  const size = sums.score.length;
  const information = flat(sums.information);
  for (let more = 0; ; more = more === 0 ? 1e-3 : 10 * more) {
    const steeper = information.slice();
    for (const j of free)
      steeper[j * size + j]! += more * Math.abs(information[j * size + j]!) + Number(more > 0) * 1e-8;
    const factor = factorOver(steeper, free);
    if (factor.kept.length === free.length || more > 1e6) return solveFactored(factor, sums.score);
  }
}

const along = (from: readonly number[], step: ArrayLike<number>, part: number): number[] =>
  from.map((value, j) => value + part * step[j]!);

/**
 * Goes on from the sums that all sites sent of one point: Newton's method with step halving, one evaluation a round.
 *
 * @param before where the ascent stood when the point was proposed; null at the first
 * @param at sums over the sites; positive: place of a parameter that stays above 0, or null
 */
export function nextPoint(
  before: Ascent | null,
  at: PooledSums & { readonly positive: number | null },
): NextPoint {
  const { positive, ...sums } = at;
  if (before !== null && !isAsGood(sums, before.taken)) {
    const part = before.part / 2;
    const ascent = { ...before, part };
    return part < shortestPart
      ? { kind: "stalled", ascent: before }
      : { kind: "try", point: along(before.taken.point, before.step, part), ascent };
  }
  const free = before?.free ?? freeParameters(sums.information);
  const first = before?.first ?? sums.information.map((row, j) => row[j]!);
  const gone = runningAway({ free, first }, sums.information);
  // a parameter on its way to infinity has gone far enough: its information is all but lost, and the others stand nearly where they will
  const moving = free.filter((j) => !gone.includes(j));
  const step = Array.from(stepFrom(sums, moving));
  const length = step.reduce((sum, value, j) => sum + value * sums.score[j]!, 0);
  const shrinking = positive === null ? 0 : -step[positive]! / sums.point[positive]!;
  const part = shrinking > 1 - mostShrinking ? (1 - mostShrinking) / shrinking : 1;
  const ascent = { taken: sums, step, part, free, first };
  const kind = length < lastStepBelow && part === 1 ? "last" : "try";
  return { kind, point: along(sums.point, step, part), ascent };
}

function isAsGood({ logLikelihood }: PooledSums, taken: PooledSums): boolean {
  const floor = taken.logLikelihood - 1e-12 * Math.abs(taken.logLikelihood);
  return Number.isFinite(logLikelihood) && logLikelihood >= floor;
}

/**
 * A parameter whose information has come down to this part of what it was is on its way to infinity. No smaller, since a site answers no point
 * at which a person weighs a million times another.
 */
const vanishedBelow = 1e-5;

/** Free parameters whose estimate runs to infinity: the likelihood rises for ever, and its information dies out. */
export const runningAway = ({ free, first }: Pick<Ascent, "free" | "first">, information: Matrix): number[] =>
  free.filter((j) => information[j]![j]! < vanishedBelow * first[j]!);
