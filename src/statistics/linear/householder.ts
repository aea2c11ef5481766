/**
 * Least squares by Householder reflections, columns taken in the order given. A column that adds nothing to those before it is skipped and
 * reported. Columns are scaled to unit length first, so that the test for "nothing" does not depend on units.
 */

/** Q R of the kept columns. */
export interface Reflections {
  readonly rows: number;
  /** Columns kept, ascending. */
  readonly kept: readonly number[];
  /** Reflection vectors, one a kept column, each `rows` long, of unit length, 0 before its own place. */
  readonly vectors: readonly Float64Array[];
  /** Upper triangle by columns: triangle[k][i], i <= k, in the caller's units. */
  readonly triangle: readonly Float64Array[];
}

/** What is left of a unit column after the earlier ones are taken out, below which it counts as nothing. */
const nothingLeft = 1e-11;

/** Reflects a vector in place: v -= 2 u (u'v). */
function reflect(vector: Float64Array, u: Float64Array, from: number): void {
  let product = 0;
  for (let i = from; i < vector.length; i++) product += u[i]! * vector[i]!;
  for (let i = from; i < vector.length; i++) vector[i]! -= 2 * product * u[i]!;
}

const lengthFrom = (vector: Float64Array, from: number): number => {
  let squares = 0;
  for (let i = from; i < vector.length; i++) squares += vector[i]! ** 2;
  return Math.sqrt(squares);
};

/** @param columns each as long as `rows`; not changed */
export function reflections(columns: readonly ArrayLike<number>[], rows: number): Reflections {
  const kept: number[] = [];
  const vectors: Float64Array[] = [];
  const triangle: Float64Array[] = [];
  columns.forEach((column, index) => {
    const work = Float64Array.from(column);
    const length = lengthFrom(work, 0);
    if (length === 0 || kept.length >= rows) return;
    vectors.forEach((u, k) => {
      reflect(work, u, k);
    });
    const place = kept.length;
    const left = lengthFrom(work, place);
    if (left <= nothingLeft * length) return;
    const pivot = work[place]!;
    const diagonal = pivot > 0 ? -left : left;
    const u = new Float64Array(rows);
    for (let i = place; i < rows; i++) u[i] = work[i]!;
    u[place] = pivot - diagonal;
    const size = lengthFrom(u, place);
    for (let i = place; i < rows; i++) u[i]! /= size;
    const column_ = new Float64Array(place + 1);
    for (let i = 0; i < place; i++) column_[i] = work[i]!;
    column_[place] = diagonal;
    kept.push(index);
    vectors.push(u);
    triangle.push(column_);
  });
  return { rows, kept, vectors, triangle };
}

/** Q' y. */
export function rotated({ vectors }: Reflections, y: ArrayLike<number>): Float64Array {
  const work = Float64Array.from(y);
  vectors.forEach((u, k) => {
    reflect(work, u, k);
  });
  return work;
}

/** Q y. */
export function rotatedBack({ vectors }: Reflections, y: ArrayLike<number>): Float64Array {
  const work = Float64Array.from(y);
  for (let k = vectors.length - 1; k >= 0; k--) reflect(work, vectors[k]!, k);
  return work;
}

/** Solves R b = y over the kept columns. */
export function solveTriangle({ triangle }: Reflections, y: ArrayLike<number>): Float64Array {
  const size = triangle.length;
  const b = new Float64Array(size);
  for (let k = size - 1; k >= 0; k--) {
    let value = y[k]!;
    for (let j = k + 1; j < size; j++) value -= triangle[j]![k]! * b[j]!;
    b[k] = value / triangle[k]![k]!;
  }
  return b;
}

/** Inverse of R by columns: inverse[k][i], i <= k. */
export function inverseTriangle(qr: Reflections): Float64Array[] {
  const size = qr.triangle.length;
  return Array.from({ length: size }, (_, k) => {
    const unit = new Float64Array(size);
    unit[k] = 1;
    return solveTriangle(qr, unit);
  });
}
