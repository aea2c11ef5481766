import { countBelow, type DistinctTimes, distinctTimes } from "../../survival/distinct-times.js";

/** Sorts rows by a key from 0 to count - 1. @param rows in the order that ties keep */
export function orderByKey(
  rows: Int32Array,
  keys: { readonly of: Int32Array; readonly count: number },
): Int32Array {
  const next = new Int32Array(keys.count + 1);
  for (let at = 0; at < rows.length; at++) next[(keys.of[rows[at] as number] as number) + 1]!++;
  for (let key = 0; key < keys.count; key++) next[key + 1]! += next[key] as number;
  const sorted = new Int32Array(rows.length);
  for (let at = 0; at < rows.length; at++) {
    const row = rows[at] as number;
    sorted[next[keys.of[row] as number]!++] = row;
  }
  return sorted;
}

/** Times are dealt by the table or by digits; values below 0 (scores, early entries) are looked up in the sorted list. */
function placesOf(values: Float64Array): DistinctTimes {
  let lowest = 0;
  for (let row = 0; row < values.length; row++) lowest = Math.min(lowest, values[row] as number);
  if (lowest >= 0) return distinctTimes(values);
  const times = values.slice().sort();
  const position = new Int32Array(values.length);
  for (let row = 0; row < values.length; row++) position[row] = countBelow(times, values[row] as number);
  return { times, position };
}

/** Sorts rows from the largest value to the smallest. @param rows in the order that ties keep */
export function orderFalling(rows: Int32Array, values: Float64Array): Int32Array {
  const { times, position } = placesOf(values);
  const of = new Int32Array(values.length);
  for (let row = 0; row < of.length; row++) of[row] = times.length - 1 - (position[row] as number);
  return orderByKey(rows, { of, count: times.length });
}

/** Different codes, ascending, and the index of each row's code among them. */
export function indexOfCodes(codes: Float64Array): { readonly codes: number[]; readonly index: Int32Array } {
  const index = new Int32Array(codes.length);
  const falling = orderFalling(
    Int32Array.from({ length: codes.length }, (_, row) => row),
    codes,
  );
  const different: number[] = [];
  for (let at = falling.length - 1; at >= 0; at--) {
    const code = codes[falling[at] as number] as number;
    if (code !== different.at(-1)) different.push(code);
    index[falling[at] as number] = different.length - 1;
  }
  return { codes: different, index };
}
