/** Columns less their mean, over their standard deviation, in an order of rows; a constant column becomes 0. */
export interface StandardisedColumns {
  readonly x: Float64Array[];
  readonly centre: Float64Array;
  readonly scale: Float64Array;
  /** Largest less smallest value of each, in standard deviations. */
  readonly ranges: Float64Array;
}

/** With the sum over the rows of each standardised column times what they count. */
interface SummedColumns extends StandardisedColumns {
  readonly sums: Float64Array;
}

/** A spread below this part of the values is rounding: the column is constant. */
const constantBelow = 1e-12;

/**
 * Centring and scaling change no estimate; they keep the sums of squares from losing digits.
 *
 * Values are read as they lie and written to their places: writing here and there is several times as fast as reading here and there.
 *
 * @param rows for each row its sorted place, and what it counts in the sums
 */
export function standardisedAndSummed(
  columns: readonly Float64Array[],
  rows: { readonly place: Int32Array; readonly counts: Float64Array },
): SummedColumns {
  const centre = new Float64Array(columns.length);
  const scale = new Float64Array(columns.length).fill(1);
  const ranges = new Float64Array(columns.length);
  const sums = new Float64Array(columns.length);
  // filled one by one: an array that map() makes changes its kind when the engine compiles it, and all loops over it would be compiled anew
  const x: Float64Array[] = [];
  for (let j = 0; j < columns.length; j++) {
    const column = columns[j]!;
    const { mean, deviation, range } = spreadOf(column);
    const sorted = new Float64Array(column.length);
    x.push(sorted);
    centre[j] = mean;
    if (deviation <= constantBelow * Math.abs(mean)) continue;
    scale[j] = deviation;
    ranges[j] = range / deviation;
    sums[j] = writeInOrder(column, { ...rows, mean, deviation }, sorted);
  }
  return { x, centre, scale, ranges, sums };
}

/** The same where no sums are wanted. @param place sorted place of each row */
export const standardisedInOrder = (
  columns: readonly Float64Array[],
  place: Int32Array,
): StandardisedColumns => standardisedAndSummed(columns, { place, counts: new Float64Array(place.length) });

/** @returns the sum of what is written, times what the rows count */
function writeInOrder(
  column: Float64Array,
  settings: {
    readonly place: Int32Array;
    readonly counts: Float64Array;
    readonly mean: number;
    readonly deviation: number;
  },
  sorted: Float64Array,
): number {
  const { place, counts, mean } = settings;
  const per = 1 / settings.deviation;
  let sum = 0;
  for (let row = 0; row < column.length; row++) {
    const value = (column[row]! - mean) * per;
    sorted[place[row]!] = value;
    sum += counts[row]! * value;
  }
  return sum;
}

function spreadOf(column: Float64Array): { mean: number; deviation: number; range: number } {
  const n = column.length;
  if (n === 0) return { mean: 0, deviation: 0, range: 0 };
  let sum = 0;
  let low = column[0]!;
  let high = low;
  for (let row = 0; row < n; row++) {
    const value = column[row]!;
    sum += value;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  const mean = sum / n;
  let squares = 0;
  for (let row = 0; row < n; row++) {
    const apart = column[row]! - mean;
    squares += apart * apart;
  }
  return { mean, deviation: Math.sqrt(squares / n), range: high - low };
}
