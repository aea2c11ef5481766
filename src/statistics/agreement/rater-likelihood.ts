import { factorSymmetric, invertFactored } from "../linear/symmetric.js";
import type { RaterSums } from "./rater-patterns.js";

/** Variances of subjects and raters as multiples of the residual variance. */
export interface VarianceRatios {
  readonly subjects: number;
  readonly raters: number;
}

/** The restricted likelihood at given ratios, the residual variance at its best for them. */
export interface LikelihoodAt {
  /** -2 log restricted likelihood. */
  readonly deviance: number;
  /** Its derivatives by the two ratios. */
  readonly slopes: VarianceRatios;
  readonly residualVariance: number;
  readonly mean: number;
  /** Trace of P V_i P V_j over subjects and raters, P for a residual variance of 1; traces of P V_i beside them. */
  readonly traces: {
    readonly subjects: number;
    readonly raters: number;
    readonly subjectsSquared: number;
    readonly both: number;
    readonly ratersSquared: number;
  };
}

/**
 * With A = I + a Z_s Z_s' (block by block: A_i^-1 = I - a / (1 + a m_i) 1 1') and V = A + b Z_r Z_r', the mean and the raters are
 * solved for together: F = Z_r T, T = [1, sqrt(b) I], S = F' A^-1 F + diag(0, I), P = A^-1 - A^-1 F S^-1 F' A^-1. Everything then
 * consists of M = Z_r' A^-1 Z_r (raters by raters) and of one vector a pattern; nothing is divided by a or b, so that both may be 0.
 *
 * deviance = (N - 1) (1 + log (2 pi s^2)) + log|A| + log|S|, s^2 = y'Py / (N - 1);
 * slope by a ratio = tr(P V_i) - |Z_i' P y|^2 / s^2.
 *
 * @source Patterson & Thompson 1971, Biometrika 58:545; Harville 1977, J Am Stat Assoc 72:320
 */
export function likelihoodAt(sums: RaterSums, ratios: VarianceRatios): LikelihoodAt {
  const { readings, raters: k, patterns } = sums;
  const { subjects: a } = ratios;
  const root = Math.sqrt(ratios.raters);
  const middle = new Float64Array(k * k);
  const right = sums.raterSums.slice();
  let logDeterminant = 0;
  let quadratic = sums.within;
  for (let j = 0; j < k; j++) middle[j * k + j] = sums.raterCounts[j]!;
  for (const { counts, used, readings: m, subjects, meanSum, squares } of patterns) {
    const shrunk = 1 + a * m;
    const share = a / shrunk;
    logDeterminant += subjects * Math.log(shrunk);
    quadratic += (squares + subjects * meanSum ** 2) / (m * shrunk);
    for (const i of used) {
      right[i]! -= share * subjects * meanSum * counts[i]!;
      for (const j of used) middle[i * k + j]! -= share * subjects * counts[i]! * counts[j]!;
    }
  }
  const size = k + 1;
  const system = bordered(middle, { k, root });
  const factor = factorSymmetric(system, { size, tolerance: 1e-14 });
  for (const pivot of factor.kept) logDeterminant += Math.log(factor.pivots[pivot]!);
  const inverse = invertFactored(factor);
  // G: raters by raters, F S^-1 F' = Z_r G Z_r'
  const inner = sandwiched(inverse, { k, root });
  const effects = timesVector(inner, right);
  for (let j = 0; j < k; j++) quadratic -= effects[j]! * right[j]!;
  const residualVariance = quadratic / (readings - 1);
  const solved = tracesOf(sums, { a, middle, inner, effects, right });
  let mean = 0;
  const border = borderedVector(right, { k, root });
  for (let j = 0; j < size; j++) mean += inverse[j]! * border[j]!;
  return {
    deviance: (readings - 1) * (1 + Math.log(2 * Math.PI * residualVariance)) + logDeterminant,
    slopes: {
      subjects: solved.traces.subjects - solved.subjectsFit / residualVariance,
      raters: solved.traces.raters - solved.ratersFit / residualVariance,
    },
    residualVariance,
    mean,
    traces: solved.traces,
  };
}

/** T' M T + diag(0, I). */
function bordered(
  middle: Float64Array,
  { k, root }: { readonly k: number; readonly root: number },
): Float64Array {
  const size = k + 1;
  const system = new Float64Array(size * size);
  for (let i = 0; i < k; i++) {
    for (let j = 0; j < k; j++) {
      const value = middle[i * k + j]!;
      system[0]! += value;
      system[i + 1]! += root * value;
      system[(i + 1) * size]! += root * value;
      system[(i + 1) * size + j + 1] = root * root * value + (i === j ? 1 : 0);
    }
  }
  return system;
}

/** T S^-1 T'. */
function sandwiched(
  inverse: Float64Array,
  { k, root }: { readonly k: number; readonly root: number },
): Float64Array {
  const size = k + 1;
  const inner = new Float64Array(k * k);
  for (let i = 0; i < k; i++)
    for (let j = 0; j < k; j++)
      inner[i * k + j] =
        inverse[0]! +
        root * (inverse[i + 1]! + inverse[j + 1]!) +
        root * root * inverse[(i + 1) * size + j + 1]!;
  return inner;
}

/** T' q. */
function borderedVector(
  q: Float64Array,
  { k, root }: { readonly k: number; readonly root: number },
): Float64Array {
  const vector = new Float64Array(k + 1);
  for (let j = 0; j < k; j++) {
    vector[0]! += q[j]!;
    vector[j + 1] = root * q[j]!;
  }
  return vector;
}

function timesVector(matrix: Float64Array, vector: Float64Array): Float64Array {
  const k = vector.length;
  return Float64Array.from(vector, (_, i) => {
    let sum = 0;
    for (let j = 0; j < k; j++) sum += matrix[i * k + j]! * vector[j]!;
    return sum;
  });
}

/** Traces over subjects and raters, and the squared lengths of Z' P y. */
function tracesOf(
  { patterns }: RaterSums,
  of: {
    readonly a: number;
    readonly middle: Float64Array;
    readonly inner: Float64Array;
    readonly effects: Float64Array;
    readonly right: Float64Array;
  },
): { traces: LikelihoodAt["traces"]; subjectsFit: number; ratersFit: number } {
  const { a, middle, inner, effects, right } = of;
  const k = right.length;
  // Z_r' P Z_r = M - M G M, of which rows of Z_s' P Z_r take G M too
  const carried = product(inner, middle, k);
  const ofRaters = product(middle, carried, k).map((value, i) => middle[i]! - value);
  const traces = { subjects: 0, raters: 0, subjectsSquared: 0, both: 0, ratersSquared: 0 };
  let ratersFit = 0;
  const left = timesVector(middle, effects);
  for (let i = 0; i < k; i++) {
    traces.raters += ofRaters[i * k + i]!;
    ratersFit += (right[i]! - left[i]!) ** 2;
    for (let j = 0; j < k; j++) traces.ratersSquared += ofRaters[i * k + j]! ** 2;
  }
  // sum over subjects of g g', g a subject's row of Z_s' A^-1 Z_r
  const gathered = new Float64Array(k * k);
  let subjectsFit = 0;
  for (const { counts, used, readings: m, subjects, meanSum, squares } of patterns) {
    const shrunk = 1 + a * m;
    let usedUp = 0;
    let fitted = 0;
    for (const i of used) {
      const g = counts[i]! / shrunk;
      fitted += counts[i]! * effects[i]!;
      for (const j of used) {
        const both = (g * counts[j]!) / shrunk;
        usedUp += both * inner[i * k + j]!;
        gathered[i * k + j]! += subjects * both;
      }
    }
    for (let i = 0; i < k; i++) {
      let across = counts[i]! / shrunk;
      for (const j of used) across -= (counts[j]! / shrunk) * carried[j * k + i]!;
      traces.both += subjects * across ** 2;
    }
    const own = m / shrunk;
    traces.subjects += subjects * (own - usedUp);
    traces.subjectsSquared += subjects * (own * own - 2 * own * usedUp);
    subjectsFit += (squares + subjects * (meanSum - fitted) ** 2) / shrunk ** 2;
  }
  const spread = product(inner, gathered, k);
  for (let i = 0; i < k; i++)
    for (let j = 0; j < k; j++) traces.subjectsSquared += spread[i * k + j]! * spread[j * k + i]!;
  return { traces, subjectsFit, ratersFit };
}

function product(a: Float64Array, b: Float64Array, k: number): Float64Array {
  const result = new Float64Array(k * k);
  for (let i = 0; i < k; i++)
    for (let l = 0; l < k; l++) {
      const factor = a[i * k + l]!;
      for (let j = 0; j < k; j++) result[i * k + j]! += factor * b[l * k + j]!;
    }
  return result;
}
