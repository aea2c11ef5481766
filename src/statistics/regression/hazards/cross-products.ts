/** Rows taken together: their part of the columns stays in the nearest cache while all pairs of columns go over it. */
const rowsAtOnce = 512;

/**
 * Adds factor times X' diag(weights) X to the lower triangle of a square matrix (flat by rows, whole after mirror()).
 *
 * Two columns against two at a time, so that each value read serves twice; an odd last column is paired with zeros.
 *
 * @param x columns, each at least as long as the weights
 */
export function addCrossProducts(
  into: Float64Array,
  x: readonly Float64Array[],
  how: { readonly weights: Float64Array; readonly rows: number; readonly factor: 1 | -1 },
): void {
  const { weights, rows, factor } = how;
  const size = x.length;
  const zeros = new Float64Array(size % 2 === 0 ? 0 : rows);
  for (let from = 0; from < rows; from += rowsAtOnce) {
    const to = Math.min(rows, from + rowsAtOnce);
    for (let j = 0; j < size; j += 2) {
      const a = x[j] as Float64Array;
      const b = x[j + 1] ?? zeros;
      for (let k = 0; k <= j; k += 2) {
        const c = x[k] as Float64Array;
        const d = x[k + 1] ?? zeros;
        let ac = 0;
        let ad = 0;
        let bc = 0;
        let bd = 0;
        for (let at = from; at < to; at++) {
          const weight = weights[at] as number;
          const wa = weight * (a[at] as number);
          const wb = weight * (b[at] as number);
          const left = c[at] as number;
          const right = d[at] as number;
          ac += wa * left;
          ad += wa * right;
          bc += wb * left;
          bd += wb * right;
        }
        into[j * size + k]! += factor * ac;
        if (j + 1 < size) into[(j + 1) * size + k]! += factor * bc;
        if (k < j && k + 1 < size) into[j * size + k + 1]! += factor * ad;
        if (j + 1 < size && k + 1 < size) into[(j + 1) * size + k + 1]! += factor * bd;
      }
    }
  }
}

/** Copies the lower triangle into the upper one. */
export function mirror(matrix: Float64Array, size: number): void {
  for (let j = 0; j < size; j++)
    for (let k = 0; k < j; k++) matrix[k * size + j] = matrix[j * size + k] as number;
}
