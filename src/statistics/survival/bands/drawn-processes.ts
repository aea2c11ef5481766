import { factorSymmetric } from "../../linear/symmetric.js";
import type { Generator } from "../../shared/random.js";

/** Part of the largest variance that is only rounding. */
const rounding = 1e-12;

/**
 * The largest |process| / standard error over the times, for each of so many draws of a process with the covariance of these influences: what
 * multiplying the influences of each unit by one normal number gives, drawn from its covariance so that a draw costs times squared and not times by units.
 *
 * @param influences one column a time, an entry a unit
 * @returns ascending, one a draw; null where nothing varies
 */
export function largestOfProcess(
  influences: readonly Float64Array[],
  { draws, generator }: { readonly draws: number; readonly generator: Generator },
): Float64Array | null {
  const variances = influences.map((column) => product(column, column));
  const floor = rounding * Math.max(0, ...variances);
  const varying = influences.filter((_, i) => variances[i]! > floor);
  if (varying.length === 0) return null;
  const roots = rootsOf(varying);
  const size = varying.length;
  const largest = new Float64Array(draws);
  const normal = new Float64Array(size);
  for (let draw = 0; draw < draws; draw++) {
    for (let k = 0; k < size; k++) normal[k] = generator.normal();
    let most = 0;
    for (let i = 0; i < size; i++) {
      let value = 0;
      for (let k = 0; k <= i; k++) value += roots[i * size + k]! * normal[k]!;
      most = Math.max(most, Math.abs(value));
    }
    largest[draw] = most;
  }
  return largest.sort();
}

function product(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

/** Lower triangle whose square is the correlation matrix of the columns, flat by rows. */
function rootsOf(columns: readonly Float64Array[]): Float64Array {
  const size = columns.length;
  const covariance = new Float64Array(size * size);
  for (let i = 0; i < size; i++)
    for (let j = 0; j <= i; j++) {
      const value = product(columns[i]!, columns[j]!);
      covariance[i * size + j] = value;
      covariance[j * size + i] = value;
    }
  const { lower, pivots } = factorSymmetric(covariance, { size, tolerance: rounding });
  const roots = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    const error = Math.sqrt(covariance[i * size + i]!);
    for (let k = 0; k <= i; k++) roots[i * size + k] = (lower[i * size + k]! * Math.sqrt(pivots[k]!)) / error;
  }
  return roots;
}
