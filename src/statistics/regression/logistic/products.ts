/** Fills the upper triangle of a flat square matrix from its lower one. */
function mirror(matrix: Float64Array, size: number): Float64Array {
  for (let i = 0; i < size; i++)
    for (let j = i + 1; j < size; j++) matrix[i * size + j] = matrix[j * size + i]!;
  return matrix;
}

/** Sum over rows of weight x x', rows of a flat table; symmetric, flat by rows. */
export function weightedProducts(
  table: { readonly x: Float64Array; readonly rows: number; readonly size: number },
  weights: Float64Array,
): Float64Array {
  const { x, rows, size } = table;
  const sum = new Float64Array(size * size);
  for (let row = 0; row < rows; row++) {
    const weight = weights[row]!;
    if (weight === 0) continue;
    const from = row * size;
    for (let i = 0; i < size; i++) {
      const scaled = weight * x[from + i]!;
      const into = i * size;
      for (let j = 0; j <= i; j++) sum[into + j]! += scaled * x[from + j]!;
    }
  }
  return mirror(sum, size);
}

/** a' A b for each pair of vectors, flat by rows. */
export function quadraticProduct(vectors: readonly Float64Array[], matrix: Float64Array): Float64Array {
  const count = vectors.length;
  const size = vectors[0]?.length ?? 0;
  const result = new Float64Array(count * count);
  const moved = new Float64Array(size);
  for (let b = 0; b < count; b++) {
    const vector = vectors[b]!;
    for (let i = 0; i < size; i++) {
      let value = 0;
      for (let j = 0; j < size; j++) value += matrix[i * size + j]! * vector[j]!;
      moved[i] = value;
    }
    for (let a = 0; a <= b; a++) {
      const other = vectors[a]!;
      let value = 0;
      for (let i = 0; i < size; i++) value += other[i]! * moved[i]!;
      result[a * count + b] = value;
      result[b * count + a] = value;
    }
  }
  return result;
}
