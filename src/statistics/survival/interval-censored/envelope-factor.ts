/**
 * Solves A x = b for a symmetric non-negative definite matrix of which each row is kept from its first entry to the diagonal only: the factor
 * has entries nowhere else. Linear for a band, and a band is what intervals short beside the follow-up give.
 */
export interface Envelope {
  readonly size: number;
  /** First column of each row. */
  readonly firstColumn: Int32Array;
  /** Where each row starts in `entries`; one more at the end. */
  readonly rowStart: Float64Array;
  /** Row by row, from the first column to the diagonal. */
  readonly entries: Float64Array;
}

/** An empty matrix with room from the first column of each row on. */
export function emptyEnvelope(firstColumn: Int32Array): Envelope {
  const size = firstColumn.length;
  const rowStart = new Float64Array(size + 1);
  for (let i = 0; i < size; i++) rowStart[i + 1] = rowStart[i]! + i - firstColumn[i]! + 1;
  return { size, firstColumn, rowStart, entries: new Float64Array(rowStart[size]!) };
}

/** A pivot this small beside its diagonal is none: the direction changes nothing and gets no step. */
const pivotBelow = 1e-13;

/** The solution; the matrix is overwritten by its factor L D L'. */
export function solveEnvelope(matrix: Envelope, right: Float64Array): Float64Array {
  const { size, firstColumn, rowStart, entries } = matrix;
  const pivots = new Float64Array(size);
  const x = right.slice();
  for (let i = 0; i < size; i++) {
    const own = rowStart[i]! - firstColumn[i]!;
    const begin = firstColumn[i]!;
    for (let j = begin; j < i; j++) {
      const other = rowStart[j]! - firstColumn[j]!;
      let value = entries[own + j]!;
      for (let k = Math.max(begin, firstColumn[j]!); k < j; k++)
        value -= entries[own + k]! * entries[other + k]!;
      entries[own + j] = value; // L D for now
    }
    const diagonal = entries[own + i]!;
    let pivot = diagonal;
    for (let j = begin; j < i; j++) {
      const scaled = entries[own + j]!;
      const factor = pivots[j] === 0 ? 0 : scaled / pivots[j]!;
      pivot -= scaled * factor;
      entries[own + j] = factor;
      x[i]! -= factor * x[j]!;
    }
    pivots[i] = pivot > pivotBelow * diagonal ? pivot : 0;
  }
  for (let i = 0; i < size; i++) x[i] = pivots[i] === 0 ? 0 : x[i]! / pivots[i]!;
  for (let i = size - 1; i >= 0; i--) {
    if (pivots[i] === 0) continue;
    const own = rowStart[i]! - firstColumn[i]!;
    for (let j = firstColumn[i]!; j < i; j++) if (pivots[j] !== 0) x[j]! -= entries[own + j]! * x[i]!;
  }
  return x;
}
