import { rowsByIndex } from "../../shared/clusters.js";
import { distinctTimes } from "../../shared/distinct-times.js";
import { orderByKey } from "./order.js";

/** Codes of the strata, ascending, and the index of each row's code among them. */
export interface Strata {
  readonly codes: readonly number[];
  readonly index: Int32Array;
}

/**
 * Rows sorted by stratum, in each from the last time to the first, at each time those without a counted event before those with one, and
 * otherwise as they were. A cell is a time in a stratum; some may be empty.
 */
export interface Cells {
  /** Place in the caller's columns of each sorted row. */
  readonly row: Int32Array;
  /** Sorted place of each of the caller's rows. */
  readonly place: Int32Array;
  /** Of cell i: first sorted row at 2 i, first event at 2 i + 1, end at 2 i + 2. */
  readonly start: Int32Array;
  readonly time: Float64Array;
  readonly stratum: Int32Array;
}

/** A table of all times in all strata pays while it is not much longer than the rows are many. */
const tableFactor = 4;

/** The other way round. */
export function placesOf(row: Int32Array): Int32Array {
  const place = new Int32Array(row.length);
  for (let i = 0; i < row.length; i++) place[row[i]!] = i;
  return place;
}

/** @param counted 1 for the rows whose event counts */
export function sortIntoCells(
  times: Float64Array,
  by: { readonly counted: Uint8Array; readonly strata: Strata },
): Cells {
  const { counted, strata } = by;
  const n = times.length;
  const { times: distinct, position } = distinctTimes(times);
  const count = distinct.length;
  const key = new Int32Array(n);
  for (let row = 0; row < n; row++) key[row] = 2 * (count - 1 - position[row]!) + counted[row]!;
  const cells = count * strata.codes.length;
  if (cells > tableFactor * n + 1024) return cellsByRows({ key, distinct, strata });
  if (strata.codes.length > 1) for (let row = 0; row < n; row++) key[row]! += 2 * count * strata.index[row]!;
  const { rows, start } = rowsByIndex(key, 2 * cells);
  const time = new Float64Array(cells);
  const stratum = new Int32Array(cells);
  for (let cell = 0, own = 0; cell < cells; own++)
    for (let i = count - 1; i >= 0; i--, cell++) {
      time[cell] = distinct[i]!;
      stratum[cell] = own;
    }
  return { row: rows, place: placesOf(rows), start, time, stratum };
}

/** Many times in many strata: only the cells that have rows. @param sorted key: of each row, falling times and events in one number */
function cellsByRows(sorted: {
  readonly key: Int32Array;
  readonly distinct: Float64Array;
  readonly strata: Strata;
}): Cells {
  const { key, distinct, strata } = sorted;
  const n = key.length;
  const byTime = rowsByIndex(key, 2 * distinct.length).rows;
  const row = orderByKey(byTime, { of: strata.index, count: strata.codes.length });
  const start = new Int32Array(2 * n + 1);
  const time = new Float64Array(n);
  const stratum = new Int32Array(n);
  let cells = 0;
  let last = -1;
  for (let i = 0; i < n; i++) {
    const from = row[i]!;
    const own = strata.index[from]!;
    const falling = key[from]! >> 1;
    if (cells === 0 || falling !== last || own !== stratum[cells - 1]) {
      start[2 * cells] = i;
      start[2 * cells + 1] = i;
      time[cells] = distinct[distinct.length - 1 - falling]!;
      stratum[cells] = own;
      last = falling;
      cells++;
    }
    // events come last: where the last row is none, the first event lies at the end
    if ((key[from]! & 1) === 0) start[2 * cells - 1] = i + 1;
  }
  start[2 * cells] = n;
  return {
    row,
    place: placesOf(row),
    start: start.slice(0, 2 * cells + 1),
    time: time.slice(0, cells),
    stratum: stratum.slice(0, cells),
  };
}
