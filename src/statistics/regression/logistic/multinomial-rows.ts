import type { LimitFit } from "./limit-fit.js";
import { type MultinomialRows, probabilities } from "./multinomial-likelihood.js";
import { combined, coordinatesAlong } from "./objective.js";

/** Share of a row's length beyond which a direction of separation pulls it. */
const pulled = 1e-7;

/** Categories that a row may be in at the end of the directions: those that no other one outweighs, direction by direction. */
function stillAllowed(
  one: Float64Array,
  of: { readonly directions: readonly Float64Array[]; readonly categories: number },
): Uint8Array {
  const width = one.length;
  const small = pulled * Math.sqrt(one.reduce((sum, value) => sum + value * value, 0));
  const may = new Uint8Array(of.categories).fill(1);
  for (const direction of of.directions) {
    const pull = Array.from({ length: of.categories }, (_, k) =>
      k === 0 ? 0 : one.reduce((sum, value, j) => sum + value * direction[(k - 1) * width + j]!, 0),
    );
    const most = Math.max(...pull.filter((_, k) => may[k] === 1));
    pull.forEach((value, k) => {
      if (value < most - small) may[k] = 0;
    });
  }
  return may;
}

const variablesOf = (fit: LimitFit, size: number): Float64Array =>
  fit.span === null ? fit.climb.point : combined(fit.span, { at: fit.climb.point, size });

/** Which categories are left to each row at the limit, flat; null without separation. */
function allowedAt(
  fit: LimitFit,
  of: {
    readonly x: Float64Array;
    readonly width: number;
    readonly categories: number;
    readonly total: number;
  },
): Uint8Array | null {
  if (fit.recession === null) return null;
  const { directions } = fit.recession;
  const allowed = new Uint8Array(of.total * of.categories);
  for (let row = 0; row < of.total; row++) {
    const one = of.x.subarray(row * of.width, (row + 1) * of.width);
    allowed.set(stillAllowed(one, { directions, categories: of.categories }), row * of.categories);
  }
  return allowed;
}

/** Probability of each category, by row. */
export function fittedProbabilities(
  fit: LimitFit,
  of: { readonly rows: MultinomialRows; readonly x: Float64Array; readonly total: number },
): number[][] {
  const { width, categories } = of.rows;
  const beta = variablesOf(fit, (categories - 1) * width);
  const allowed = allowedAt(fit, { x: of.x, width, categories, total: of.total });
  const { p } = probabilities({ n: of.total, width, x: of.x, categories, allowed }, { beta });
  return Array.from({ length: categories }, (_, k) =>
    Array.from({ length: of.total }, (_, row) => p[row * categories + k]!),
  );
}

/** Scores of each row over the variables of the maximum, flat by rows. */
export function multinomialScores(fit: LimitFit, rows: MultinomialRows): Float64Array {
  const { n, width, x, y, categories, weights } = rows;
  const size = (categories - 1) * width;
  const beta = variablesOf(fit, size);
  const allowed = allowedAt(fit, { x, width, categories, total: n });
  const { p } = probabilities({ ...rows, allowed }, { beta });
  const count = fit.climb.point.length;
  const result = new Float64Array(n * count);
  const score = new Float64Array(size);
  for (let row = 0; row < n; row++) {
    for (let a = 1; a < categories; a++) {
      const residual = weights[row]! * ((a === y[row] ? 1 : 0) - p[row * categories + a]!);
      for (let j = 0; j < width; j++) score[(a - 1) * width + j] = residual * x[row * width + j]!;
    }
    result.set(fit.span === null ? score : coordinatesAlong(fit.span, score), row * count);
  }
  return result;
}
