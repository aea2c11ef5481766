import { floatsOf } from "./arguments.js";
import { codeRange } from "./code-range.js";

/** Cluster number of each row, from 0 in the order in which they first appear; every row its own where no clusters are given. */
export function clusterIndex(columns: {
  readonly times: ArrayLike<number>;
  readonly clusters?: ArrayLike<number>;
}): {
  readonly of: Int32Array;
  readonly count: number;
} {
  if (columns.clusters !== undefined) return numberedInOrder(floatsOf(columns.clusters));
  const of = new Int32Array(columns.times.length);
  for (let row = 0; row < of.length; row++) of[row] = row;
  return { of, count: of.length };
}

function numberedInOrder(codes: Float64Array): { readonly of: Int32Array; readonly count: number } {
  const of = new Int32Array(codes.length);
  const range = codeRange(codes);
  let count = 0;
  if (range === null) {
    const seen = new Map<number, number>();
    for (let row = 0; row < of.length; row++) {
      const known = seen.get(codes[row]!);
      if (known === undefined) seen.set(codes[row]!, count);
      of[row] = known ?? count++;
    }
    return { of, count };
  }
  const numbers = new Int32Array(range.range); // one more than the number; 0: not seen yet
  for (let row = 0; row < of.length; row++) {
    const place = codes[row]! - range.low;
    if (numbers[place] === 0) numbers[place] = ++count;
    of[row] = numbers[place]! - 1;
  }
  return { of, count };
}

/** The rows in order of an index from 0 to count - 1: first row of k is at start[k]. Stable, linear. */
export function rowsByIndex(index: Int32Array, count: number): { rows: Int32Array; start: Int32Array } {
  const start = new Int32Array(count + 1);
  for (let row = 0; row < index.length; row++) start[index[row]! + 1]!++;
  for (let k = 0; k < count; k++) start[k + 1]! += start[k]!;
  const next = start.slice();
  const rows = new Int32Array(index.length);
  for (let row = 0; row < index.length; row++) rows[next[index[row]!]!++] = row;
  return { rows, start };
}
