import type { Evaluation, Objective } from "./objective.js";
import { weightedProducts } from "./products.js";
import type { Margins } from "./recession.js";

/** Rows of a multinomial regression on the columns of a basis. */
export interface MultinomialRows {
  readonly n: number;
  /** Columns of the basis. */
  readonly width: number;
  /** Flat by rows. */
  readonly x: Float64Array;
  /** Category seen, 0 for the reference. */
  readonly y: Int32Array;
  readonly categories: number;
  readonly weights: Float64Array;
  /** 1 where a row may still be in a category, flat by rows; null: everywhere. */
  readonly allowed: Uint8Array | null;
}

/**
 * Probabilities of all rows, flat by rows, categories in order; the reference has predictor 0. Beside them the logarithm of the probability
 * of the category seen, weighted and summed, and the largest predictor.
 */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: likelihood, score and information in one pass over the rows
export function probabilities(
  rows: Pick<MultinomialRows, "n" | "width" | "x" | "categories" | "allowed">,
  at: { readonly beta: Float64Array; readonly seen?: MultinomialRows },
): { readonly p: Float64Array; readonly value: number; readonly farthest: number } {
  const { n, width, x, categories, allowed } = rows;
  const { beta, seen } = at;
  const p = new Float64Array(n * categories);
  let value = 0;
  let farthest = 0;
  for (let row = 0; row < n; row++) {
    const first = row * categories;
    let largest = Number.NEGATIVE_INFINITY;
    for (let k = 0; k < categories; k++) {
      let eta = 0;
      if (k > 0) {
        const from = (k - 1) * width;
        for (let j = 0; j < width; j++) eta += x[row * width + j]! * beta[from + j]!;
      }
      if (Math.abs(eta) > farthest) farthest = Math.abs(eta);
      const may = allowed === null || allowed[first + k] === 1;
      p[first + k] = may ? eta : Number.NEGATIVE_INFINITY;
      if (may && eta > largest) largest = eta;
    }
    const own = seen === undefined ? 0 : p[first + seen.y[row]!]!;
    let sum = 0;
    for (let k = 0; k < categories; k++) {
      p[first + k] = Math.exp(p[first + k]! - largest);
      sum += p[first + k]!;
    }
    for (let k = 0; k < categories; k++) p[first + k]! /= sum;
    if (seen !== undefined) value += seen.weights[row]! * (own - largest - Math.log(sum));
  }
  return { p, value, farthest };
}

/** Information: for each pair of categories the symmetric block sum of w (p_a [a = b] - p_a p_b) x x'. */
function informationOf(rows: MultinomialRows, p: Float64Array): Float64Array {
  const { n, width, x, categories, weights } = rows;
  const size = (categories - 1) * width;
  const information = new Float64Array(size * size);
  const factors = new Float64Array(n);
  for (let a = 1; a < categories; a++)
    for (let b = 1; b <= a; b++) {
      for (let row = 0; row < n; row++) {
        const own = p[row * categories + a]!;
        factors[row] = weights[row]! * own * (a === b ? 1 - own : -p[row * categories + b]!);
      }
      const block = weightedProducts({ x, rows: n, size: width }, factors);
      for (let i = 0; i < width; i++)
        for (let j = 0; j < width; j++) {
          const value = block[i * width + j]!;
          information[((a - 1) * width + i) * size + (b - 1) * width + j] = value;
          information[((b - 1) * width + i) * size + (a - 1) * width + j] = value;
        }
    }
  return information;
}

/** sum of w log P(category seen), variables by category (reference left out) and within it by column of the basis. */
export function multinomialLogLikelihood(rows: MultinomialRows): Objective {
  const { n, width, x, y, categories, weights } = rows;
  const size = (categories - 1) * width;
  const evaluate = (beta: Float64Array): Evaluation => {
    const { p, value, farthest } = probabilities(rows, { beta, seen: rows });
    const gradient = new Float64Array(size);
    for (let row = 0; row < n; row++)
      for (let a = 1; a < categories; a++) {
        const residual = weights[row]! * ((a === y[row] ? 1 : 0) - p[row * categories + a]!);
        const from = (a - 1) * width;
        for (let j = 0; j < width; j++) gradient[from + j]! += residual * x[row * width + j]!;
      }
    return { value, gradient, information: informationOf(rows, p), farthest };
  };
  return { size, evaluate };
}

/** For each row and each category that it is not in: what raises the one seen above that one. */
export function marginsOf({ n, width, x, y, categories }: MultinomialRows): Margins {
  const size = (categories - 1) * width;
  const z = new Float64Array(n * (categories - 1) * size);
  let at = 0;
  for (let row = 0; row < n; row++)
    for (let k = 0; k < categories; k++) {
      const seen = y[row]!;
      if (k === seen) continue;
      for (let j = 0; j < width; j++) {
        const value = x[row * width + j]!;
        if (seen > 0) z[at * size + (seen - 1) * width + j] = value;
        if (k > 0) z[at * size + (k - 1) * width + j] = -value;
      }
      at++;
    }
  return { count: at, size, z };
}

/** The rows with the marked pairs of row and category ruled out; pairs in the order of marginsOf. */
export function ruledOut(rows: MultinomialRows, strict: Uint8Array): MultinomialRows {
  const { n, y, categories } = rows;
  const allowed = new Uint8Array(n * categories).fill(1);
  let at = 0;
  for (let row = 0; row < n; row++)
    for (let k = 0; k < categories; k++) {
      if (k === y[row]) continue;
      if (strict[at] === 1) allowed[row * categories + k] = 0;
      at++;
    }
  return { ...rows, allowed };
}
