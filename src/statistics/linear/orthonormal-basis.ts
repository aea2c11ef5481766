import { inverseTriangle, reflections, rotatedBack } from "./householder.js";

/**
 * The columns of a design as an orthonormal basis: X = Q R over the columns kept, each column of Q with mean square 1. Fitted on Q, no
 * regression depends on the units or the origin of a covariate; R^-1 takes the coefficients back.
 */
export interface OrthonormalBasis {
  readonly rows: number;
  /** Rank: columns of Q. */
  readonly size: number;
  /** Columns of X kept, ascending; the others are combinations of those before them. */
  readonly kept: readonly number[];
  /** Q flat by rows. */
  readonly values: Float64Array;
  /** R^-1, flat by rows: coefficients of the kept columns = inverse times coefficients of Q. */
  readonly inverse: Float64Array;
  /** log |det R|. */
  readonly logDeterminant: number;
}

/** @param columns each `rows` long; not changed */
export function orthonormalBasis(columns: readonly ArrayLike<number>[], rows: number): OrthonormalBasis {
  const qr = reflections(columns, rows);
  const size = qr.kept.length;
  const root = Math.sqrt(rows);
  const values = new Float64Array(rows * size);
  const inverse = new Float64Array(size * size);
  const backwards = inverseTriangle(qr);
  for (let k = 0; k < size; k++) {
    const unit = new Float64Array(rows);
    unit[k] = root;
    const column = rotatedBack(qr, unit);
    for (let row = 0; row < rows; row++) values[row * size + k] = column[row]!;
    for (let i = 0; i <= k; i++) inverse[i * size + k] = backwards[k]![i]! * root;
  }
  const logDeterminant = qr.triangle.reduce(
    (sum, column, k) => sum + Math.log(Math.abs(column[k]!) / root),
    0,
  );
  return { rows, size, kept: qr.kept, values, inverse, logDeterminant };
}

/** Coefficients of the kept columns from those of the basis. */
export function toColumns({ size, inverse }: OrthonormalBasis, onBasis: ArrayLike<number>): Float64Array {
  const result = new Float64Array(size);
  for (let i = 0; i < size; i++)
    for (let k = i; k < size; k++) result[i]! += inverse[i * size + k]! * onBasis[k]!;
  return result;
}

/** The linear function of the basis' coefficients that equals coefficient number `kept` of the columns: a row of R^-1. */
export const functionalOf = ({ size, inverse }: OrthonormalBasis, kept: number): Float64Array =>
  inverse.slice(kept * size, (kept + 1) * size);
