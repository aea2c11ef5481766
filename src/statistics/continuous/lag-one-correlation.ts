import { checkColumn } from "../shared/arguments.js";
import type { Figure } from "../shared/figure.js";

/**
 * Correlation of each value with the one before it, in the order given: sum of (y_t - m)(y_t-1 - m) over sum of (y_t - m)^2, m being the mean of
 * all. Tells whether readings, or residuals in the order of time, drift.
 *
 * @returns null with `no-rows`, `too-few-rows` for a single value, `no-variance` where all are equal
 * @throws ArgumentError naming the index of a value that is not finite
 * @source Box & Jenkins 1970, Time Series Analysis, section 2.1
 * @example
 * lagOneCorrelation([1, 3, 2]) // => { value: -0.5 }
 */
export function lagOneCorrelation(values: ArrayLike<number>): Figure {
  checkColumn({ name: "values", values }, "finite");
  const n = values.length;
  if (n < 2) return { value: null, reason: n === 0 ? "no-rows" : "too-few-rows" };
  // values far from 0 and close together keep their digits when the first is taken off all
  const shift = values[0]!;
  const y = Float64Array.from(values, (value) => value - shift);
  const mean = y.reduce((sum, value) => sum + value, 0) / n;
  let squares = 0;
  let products = 0;
  for (let i = 0; i < n; i++) {
    const own = y[i]! - mean;
    squares += own * own;
    if (i > 0) products += own * (y[i - 1]! - mean);
  }
  return squares > 0 ? { value: products / squares } : { value: null, reason: "no-variance" };
}
