import { checkColumn, checkNumber, checkSameLength } from "../shared/arguments.js";

/** Eigenvalues, descending, and the unit vectors that belong to them. */
export interface Eigen {
  readonly values: readonly number[];
  readonly vectors: readonly Float64Array[];
}

const sweeps = 60;

/** Turns rows and columns p and q of a symmetric matrix, and columns p and q of the vectors, so that entry (p, q) becomes 0. */
function turn(
  state: { readonly a: Float64Array; readonly v: Float64Array; readonly size: number },
  p: number,
  q: number,
): void {
  const { a, v, size } = state;
  const off = a[p * size + q]!;
  if (off === 0) return;
  const ratio = (a[q * size + q]! - a[p * size + p]!) / (2 * off);
  const tangent = (ratio >= 0 ? 1 : -1) / (Math.abs(ratio) + Math.hypot(1, ratio));
  const cosine = 1 / Math.hypot(1, tangent);
  const sine = tangent * cosine;
  const mix = (m: Float64Array, i: number, j: number): void => {
    const x = m[i]!;
    const y = m[j]!;
    m[i] = cosine * x - sine * y;
    m[j] = sine * x + cosine * y;
  };
  for (let k = 0; k < size; k++) mix(a, k * size + p, k * size + q);
  for (let k = 0; k < size; k++) mix(a, p * size + k, q * size + k);
  for (let k = 0; k < size; k++) mix(v, k * size + p, k * size + q);
}

/**
 * Eigenvalues and eigenvectors of a symmetric matrix by Jacobi's rotations.
 *
 * @param matrix flat by rows, finite, not changed
 * @throws ArgumentError for a size that is no whole number, another number of entries, or naming the index of one that is not finite
 * @source Jacobi 1846, J Reine Angew Math 30:51; Rutishauser 1966, Numer Math 9:1
 */
export function eigenSymmetric(matrix: ArrayLike<number>, size: number): Eigen {
  checkNumber({ name: "size", value: size }, "count");
  checkSameLength(
    { name: "matrix", values: matrix },
    { name: "size times size", values: { length: size * size } },
  );
  checkColumn({ name: "matrix", values: matrix }, "finite");
  const a = Float64Array.from(matrix);
  const v = new Float64Array(size * size);
  for (let k = 0; k < size; k++) v[k * size + k] = 1;
  for (let sweep = 0; sweep < sweeps; sweep++) {
    let off = 0;
    let all = 0;
    for (let i = 0; i < size; i++)
      for (let j = 0; j < size; j++) {
        const square = a[i * size + j]! ** 2;
        all += square;
        if (i !== j) off += square;
      }
    if (off <= 1e-32 * all) break;
    for (let p = 0; p < size; p++) for (let q = p + 1; q < size; q++) turn({ a, v, size }, p, q);
  }
  const order = Array.from({ length: size }, (_, k) => k).sort(
    (i, j) => a[j * size + j]! - a[i * size + i]! || i - j,
  );
  return {
    values: order.map((k) => a[k * size + k]!),
    vectors: order.map((k) => Float64Array.from({ length: size }, (_, i) => v[i * size + k]!)),
  };
}
