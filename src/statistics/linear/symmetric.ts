/**
 * Small dense symmetric matrices, as an array of rows or flat by rows, factored in the order given: a column that adds nothing to
 * those before it is skipped and reported, so that of two covariates that say the same the one listed first is kept.
 */

/** Factor L D L' of a non-negative definite matrix, skipping columns without a pivot. */
export interface Factor {
  readonly size: number;
  /** Columns kept, ascending. */
  readonly kept: readonly number[];
  /** Unit lower triangle by rows, over all columns; rows and columns of skipped ones are 0. */
  readonly lower: Float64Array;
  readonly pivots: Float64Array;
}

/**
 * @param matrix flat by rows, symmetric, not changed
 * @param options tolerance: a pivot smaller than this times its diagonal counts as none; floor: so does one no larger than this
 */
export function factorSymmetric(
  matrix: ArrayLike<number>,
  options: { readonly size: number; readonly tolerance: number; readonly floor?: number },
): Factor {
  const { size, tolerance, floor = 0 } = options;
  const lower = new Float64Array(size * size);
  const pivots = new Float64Array(size);
  const kept: number[] = [];
  for (let j = 0; j < size; j++) {
    const diagonal = matrix[j * size + j]!;
    let pivot = diagonal;
    for (const k of kept) pivot -= lower[j * size + k]! ** 2 * pivots[k]!;
    if (!(diagonal > 0) || !(pivot > Math.max(tolerance * diagonal, floor))) continue;
    pivots[j] = pivot;
    lower[j * size + j] = 1;
    for (let i = j + 1; i < size; i++) {
      let value = matrix[i * size + j]!;
      for (const k of kept) value -= lower[i * size + k]! * lower[j * size + k]! * pivots[k]!;
      lower[i * size + j] = value / pivot;
    }
    kept.push(j);
  }
  return { size, kept, lower, pivots };
}

/** Solution over the kept columns; 0 for the skipped ones. */
export function solveFactored(factor: Factor, right: ArrayLike<number>): Float64Array {
  const { size, kept, lower, pivots } = factor;
  const x = new Float64Array(size);
  for (const i of kept) {
    let value = right[i]!;
    for (const k of kept) {
      if (k >= i) break;
      value -= lower[i * size + k]! * x[k]!;
    }
    x[i] = value;
  }
  for (const i of kept) x[i]! /= pivots[i]!;
  for (let position = kept.length - 1; position >= 0; position--) {
    const i = kept[position]!;
    for (let after = position + 1; after < kept.length; after++) {
      const k = kept[after]!;
      x[i]! -= lower[k * size + i]! * x[k]!;
    }
  }
  return x;
}

/** Inverse over the kept columns, flat by rows; 0 in the rows and columns of skipped ones. */
export function invertFactored(factor: Factor): Float64Array {
  const { size, kept } = factor;
  const inverse = new Float64Array(size * size);
  const unit = new Float64Array(size);
  for (const j of kept) {
    unit.fill(0);
    unit[j] = 1;
    const column = solveFactored(factor, unit);
    for (const i of kept) inverse[i * size + j] = column[i]!;
  }
  return inverse;
}

/** x' A^-1 x over the kept columns. */
export function quadraticForm(factor: Factor, x: ArrayLike<number>): number {
  const solved = solveFactored(factor, x);
  return factor.kept.reduce((sum, i) => sum + x[i]! * solved[i]!, 0);
}

/** A flat matrix as an array of rows. */
export function rowsOfMatrix(matrix: ArrayLike<number>, size: number): number[][] {
  return Array.from({ length: size }, (_, i) =>
    Array.from({ length: size }, (_, j) => matrix[i * size + j]!),
  );
}

/** Logarithm of the determinant over the kept columns. */
export const logDeterminant = ({ kept, pivots }: Factor): number =>
  kept.reduce((sum, k) => sum + Math.log(pivots[k]!), 0);
