import { predictorOf } from "./likelihood.js";
import type { LimitFit } from "./limit-fit.js";
import { combined } from "./objective.js";
import type { Prepared } from "./prepare.js";

/** Rows of the design on the basis, for every row that was passed in, whatever its weight. */
export function designRows(
  prepared: Pick<Prepared, "layout">,
  columns: {
    readonly covariates: { readonly columns: readonly ArrayLike<number>[] };
    readonly total: number;
  },
): Float64Array {
  const { basis, rows } = prepared.layout;
  const { size, inverse, kept, values } = basis;
  if (rows.length === columns.total) return values;
  const result = new Float64Array(columns.total * size);
  for (let row = 0; row < columns.total; row++)
    for (let i = 0; i < size; i++) {
      const column = kept[i]!;
      const value = column === 0 ? 1 : columns.covariates.columns[column - 1]![row]!;
      for (let k = i; k < size; k++) result[row * size + k]! += value * inverse[i * size + k]!;
    }
  return result;
}

/** A row pulled further than this share of its own length along a direction of separation is certain. */
const pulled = 1e-7;

/** Log odds by row; infinite where separation makes the outcome certain. */
export function predictors(
  design: { readonly x: Float64Array; readonly size: number; readonly total: number },
  fit: LimitFit,
): Float64Array {
  const { x, size, total } = design;
  const beta = fit.span === null ? fit.climb.point : combined(fit.span, { at: fit.climb.point, size });
  const rows = { n: total, size, x, y: new Uint8Array(0), weights: new Float64Array(0) };
  return Float64Array.from({ length: total }, (_, row) => {
    if (fit.recession !== null) {
      const one = x.subarray(row * size, (row + 1) * size);
      const length = Math.sqrt(one.reduce((sum, value) => sum + value * value, 0));
      for (const direction of fit.recession.directions) {
        const pull = one.reduce((sum, value, j) => sum + value * direction[j]!, 0);
        if (Math.abs(pull) > pulled * length)
          return pull > 0 ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
      }
    }
    return predictorOf(rows, { row, beta });
  });
}

/** Probability that belongs to log odds, exact at both infinities. */
export const probabilityOf = (logOdds: number): number =>
  logOdds >= 0 ? 1 / (1 + Math.exp(-logOdds)) : Math.exp(logOdds) / (1 + Math.exp(logOdds));
