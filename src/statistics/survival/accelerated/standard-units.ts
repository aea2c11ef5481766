/** An intercept of 1 and each covariate less its mean, over its standard deviation, one row after the other; a constant covariate becomes 0. */
export interface StandardUnits {
  /** Flat by rows. */
  readonly x: Float64Array;
  /** Of a row. */
  readonly size: number;
  readonly centre: Float64Array;
  readonly scale: Float64Array;
}

/** A spread below this part of the values is rounding: the column is constant. */
const constantBelow = 1e-12;

/** Weighted mean and standard deviation. */
function spreadOf(column: ArrayLike<number>, weights: Float64Array): { mean: number; deviation: number } {
  let total = 0;
  let sum = 0;
  for (let row = 0; row < weights.length; row++) {
    total += weights[row]!;
    sum += weights[row]! * column[row]!;
  }
  if (total === 0) return { mean: 0, deviation: 0 };
  const mean = sum / total;
  let squares = 0;
  for (let row = 0; row < weights.length; row++) squares += weights[row]! * (column[row]! - mean) ** 2;
  return { mean, deviation: Math.sqrt(squares / total) };
}

/** Changes no estimate; keeps sums of squares from losing digits. @param weights 0 for rows that say nothing */
export function inStandardUnits(columns: readonly ArrayLike<number>[], weights: Float64Array): StandardUnits {
  const size = columns.length + 1;
  const n = weights.length;
  const x = new Float64Array(n * size);
  const centre = new Float64Array(columns.length);
  const scale = new Float64Array(columns.length).fill(1);
  for (let row = 0; row < n; row++) x[row * size] = 1;
  columns.forEach((column, j) => {
    const { mean, deviation } = spreadOf(column, weights);
    centre[j] = mean;
    if (deviation <= constantBelow * Math.abs(mean)) return;
    scale[j] = deviation;
    for (let row = 0; row < n; row++)
      if (weights[row] !== 0) x[row * size + j + 1] = (column[row]! - mean) / deviation;
  });
  return { x, size, centre, scale };
}
