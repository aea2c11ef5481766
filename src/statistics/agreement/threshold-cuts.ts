import type { Direction } from "./roc-placements.js";
import type { ReadingsAndStates } from "./test-accuracy.js";

/** Different readings in the order in which they turn positive, with the rows that read so. */
export interface Cuts {
  readonly thresholds: Float64Array;
  readonly affectedAt: Float64Array;
  readonly healthyAt: Float64Array;
  /** Place of each row's reading among the thresholds. */
  readonly place: Int32Array;
  readonly affected: number;
  readonly healthy: number;
}

/** Of checked columns; sorts once. */
export function cutsOf({ values, states }: ReadingsAndStates, direction: Direction): Cuts {
  const sorted = Float64Array.from(values).sort();
  if (direction === "high") sorted.reverse();
  let count = 0;
  for (const value of sorted) if (count === 0 || value !== sorted[count - 1]) sorted[count++] = value;
  const thresholds = sorted.slice(0, count);
  const affectedAt = new Float64Array(count);
  const healthyAt = new Float64Array(count);
  const before = direction === "high" ? (a: number, b: number) => a > b : (a: number, b: number) => a < b;
  let affected = 0;
  const place = Int32Array.from(values, (value, row) => {
    let low = 0;
    let high = count - 1;
    while (low < high) {
      const middle = (low + high) >>> 1;
      if (before(thresholds[middle]!, value)) low = middle + 1;
      else high = middle;
    }
    if (states[row] === 1) {
      affectedAt[low]! += 1;
      affected++;
    } else healthyAt[low]! += 1;
    return low;
  });
  return { thresholds, affectedAt, healthyAt, place, affected, healthy: values.length - affected };
}
