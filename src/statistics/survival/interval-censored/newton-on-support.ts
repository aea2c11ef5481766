import type { AlikeRows } from "./alike-rows.js";
import { emptyEnvelope, solveEnvelope } from "./envelope-factor.js";

/** The sums of mass at the ends of the innermost intervals that hold some, and the rows in those terms. */
interface Support {
  /** 0 first, 1 last. */
  readonly levels: Float64Array;
  readonly start: Int32Array;
  readonly end: Int32Array;
}

/** Masses up to this are taken for 0; the check of the gradient brings back what was taken in error. */
const nothing = 1e-12;

/** @param place for each end, the index of its level; written here */
function supportOf(rows: AlikeRows, mass: Float64Array, place: Int32Array): Support {
  const { count } = rows;
  const levels = [0];
  place[0] = 0;
  for (let b = 1; b <= count; b++) {
    const value = mass[b]!;
    if (value - levels[levels.length - 1]! > nothing) levels.push(value);
    place[b] = levels.length - 1;
  }
  levels[levels.length - 1] = 1;
  return {
    levels: Float64Array.from(levels),
    start: rows.start.map((a) => place[a]!),
    end: rows.end.map((b) => place[b]!),
  };
}

/** First column of each row of the information. */
function firstColumnsOf({ levels, start, end }: Support): Int32Array {
  const inner = levels.length - 2;
  const firstColumn = Int32Array.from({ length: inner }, (_, i) => i);
  for (let i = 0; i < start.length; i++) {
    const [a, b] = [start[i]!, end[i]!];
    if (a > 0 && b <= inner && a - 1 < firstColumn[b - 1]!) firstColumn[b - 1] = a - 1;
  }
  return firstColumn;
}

/** Multiplications that one step may take; beyond it (long intervals over thousands of different times) the other steps go on alone. */
const mostWork = 5e7;

const workOf = (support: Support): number =>
  firstColumnsOf(support).reduce((sum, column, i) => sum + (i - column + 1) ** 2, 0);

/** Newton's step of the inner levels, and the log-likelihood where it starts. */
function newtonStep(rows: AlikeRows, support: Support): { step: Float64Array; logLikelihood: number } {
  const { levels, start, end } = support;
  const inner = levels.length - 2;
  const information = emptyEnvelope(firstColumnsOf(support));
  const { firstColumn, rowStart, entries } = information;
  const slope = new Float64Array(inner);
  let logLikelihood = 0;
  const cell = (row: number, column: number): number => rowStart[row]! + column - firstColumn[row]!;
  for (let i = 0; i < start.length; i++) {
    const [a, b] = [start[i]!, end[i]!];
    const probability = levels[b]! - levels[a]!;
    const weight = rows.weight[i]!;
    const ratio = weight / probability;
    const curvature = ratio / probability;
    logLikelihood += weight * Math.log(probability);
    if (a > 0) {
      slope[a - 1]! -= ratio;
      entries[cell(a - 1, a - 1)]! += curvature;
    }
    if (b <= inner) {
      slope[b - 1]! += ratio;
      entries[cell(b - 1, b - 1)]! += curvature;
    }
    if (a > 0 && b <= inner) entries[cell(b - 1, a - 1)]! -= curvature;
  }
  return { step: solveEnvelope(information, slope), logLikelihood };
}

function likelihoodOf(rows: AlikeRows, support: Support, levels: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < rows.weight.length; i++) {
    const probability = levels[support.end[i]!]! - levels[support.start[i]!]!;
    if (!(probability > 0)) return Number.NEGATIVE_INFINITY;
    sum += rows.weight[i]! * Math.log(probability);
  }
  return sum;
}

/** Largest part of the step, at most 1, that leaves no mass negative. */
function longestPart(levels: Float64Array, step: Float64Array): number {
  let part = 1;
  for (let j = 1; j < levels.length; j++) {
    const mass = levels[j]! - levels[j - 1]!;
    const change = (step[j - 1] ?? 0) - (step[j - 2] ?? 0);
    if (mass + part * change < 0) part = mass / -change;
  }
  return part;
}

/** A level, unless it is next to nothing above the one before or below 1: then that one, so that rows left without mass are seen. */
function settled(value: number, before: number): number {
  if (value - before <= nothing) return before;
  return 1 - value <= nothing ? 1 : value;
}

const mostSteps = 60;

/**
 * Newton's method on the innermost intervals that hold mass; one whose mass would turn negative loses it for good. Quadratic near the
 * maximum, where the steps on the diagonal alone are slow.
 *
 * @returns the new sums of mass
 */
export function newtonOnSupport(rows: AlikeRows, mass: Float64Array): Float64Array {
  const place = new Int32Array(rows.count + 1);
  let current = mass;
  for (let iteration = 0; iteration < mostSteps; iteration++) {
    const support = supportOf(rows, current, place);
    const { levels } = support;
    if (levels.length <= 2) return Float64Array.from(place);
    if (workOf(support) > mostWork) return current;
    const { step, logLikelihood } = newtonStep(rows, support);
    if (!Number.isFinite(logLikelihood)) return current;
    let part = longestPart(levels, step);
    const blocked = part < 1;
    const trial = levels.slice();
    for (let halvings = 0; halvings < 30; halvings++, part /= 2) {
      for (let j = 1; j < levels.length - 1; j++)
        trial[j] = settled(levels[j]! + part * step[j - 1]!, trial[j - 1]!);
      if (likelihoodOf(rows, support, trial) >= logLikelihood - 1e-13 * Math.abs(logLikelihood)) break;
      trial.set(levels);
    }
    current = Float64Array.from(place, (level) => trial[level]!);
    const longest = step.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    if (!blocked && longest * part < 1e-14) break;
    if (trial.every((value, j) => value === levels[j])) break;
  }
  return current;
}
