import { countBelow, type DistinctTimes, distinctTimes } from "../../shared/distinct-times.js";

/** Sorts rows by a key from 0 to count - 1. @param rows in the order that ties keep */
export function orderByKey(
  rows: Int32Array,
  keys: { readonly of: Int32Array; readonly count: number },
): Int32Array {
  const next = new Int32Array(keys.count + 1);
  for (let i = 0; i < rows.length; i++) next[keys.of[rows[i]!]! + 1]!++;
  for (let key = 0; key < keys.count; key++) next[key + 1]! += next[key]!;
  const sorted = new Int32Array(rows.length);
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i]!;
    sorted[next[keys.of[row]!]!++] = row;
  }
  return sorted;
}

/** Different values, ascending. Those from 0 on are ordered by a table or by digits; any below 0 (scores, early entries) are looked up. */
function placesOf(values: Float64Array): DistinctTimes {
  let lowest = 0;
  for (let row = 0; row < values.length; row++) if (values[row]! < lowest) lowest = values[row]!;
  if (lowest >= 0) return distinctTimes(values);
  const sorted = values.slice().sort();
  let count = 1;
  for (let i = 1; i < sorted.length; i++) if (sorted[i] !== sorted[count - 1]) sorted[count++] = sorted[i]!;
  const times = sorted.slice(0, count);
  return { times, position: Int32Array.from(values, (value) => countBelow(times, value)) };
}

/** Sorts rows from the largest value to the smallest. @param rows in the order that ties keep */
export function orderFalling(rows: Int32Array, values: Float64Array): Int32Array {
  const { times, position } = placesOf(values);
  const of = new Int32Array(values.length);
  for (let row = 0; row < of.length; row++) of[row] = times.length - 1 - position[row]!;
  return orderByKey(rows, { of, count: times.length });
}
