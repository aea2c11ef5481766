import { countUpTo, distinctTimes } from "../survival/distinct-times.js";
import { rowsByIndex } from "../survival/robust-variance.js";
import type { GroupedTimes } from "./grouped-times.js";

/** Codes spread over at most this many values for each row are looked up in a table. */
const tableFactor = 4;

/** Different codes, ascending, and the index of each row's code among them. */
export function indexOfCodes(codes: ArrayLike<number>): { codes: number[]; index: Int32Array } {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let row = 0; row < codes.length; row++) {
    const code = codes[row] as number;
    if (code < low) low = code;
    if (code > high) high = code;
  }
  return high - low <= tableFactor * codes.length + 1024
    ? indexByTable(codes, { low, range: high - low + 1 })
    : indexBySorting(codes);
}

function indexByTable(
  codes: ArrayLike<number>,
  { low, range }: { readonly low: number; readonly range: number },
): { codes: number[]; index: Int32Array } {
  const place = new Int32Array(codes.length === 0 ? 0 : range);
  const index = new Int32Array(codes.length);
  for (let row = 0; row < codes.length; row++) place[(codes[row] as number) - low] = 1;
  const distinct: number[] = [];
  for (let at = 0; at < place.length; at++) {
    if (place[at] === 0) continue;
    place[at] = distinct.length;
    distinct.push(at + low);
  }
  for (let row = 0; row < codes.length; row++) index[row] = place[(codes[row] as number) - low] as number;
  return { codes: distinct, index };
}

function indexBySorting(codes: ArrayLike<number>): { codes: number[]; index: Int32Array } {
  const sorted = [...new Set(Array.from(codes))].sort((a, b) => a - b);
  const place = new Map(sorted.map((code, at) => [code, at]));
  return { codes: sorted, index: Int32Array.from(codes, (code) => place.get(code) as number) };
}

/** The rows of each stratum in turn; one of all rows where there are no strata. */
export function rowsByStratum(columns: {
  readonly times: ArrayLike<number>;
  readonly strata?: ArrayLike<number>;
}): Int32Array[] {
  const n = columns.times.length;
  if (columns.strata === undefined) {
    const all = new Int32Array(n);
    for (let row = 0; row < n; row++) all[row] = row;
    return [all];
  }
  const strata = indexOfCodes(columns.strata);
  const { rows, start } = rowsByIndex(strata.index, strata.codes.length);
  return strata.codes.map((_, s) => rows.subarray(start[s], start[s + 1]));
}

/** Counts by time and group in one stratum, flat by times. */
export interface CountsByGroup {
  readonly count: number;
  readonly times: Float64Array;
  readonly events: Float64Array;
  readonly atRisk: Float64Array;
  /** For each row listed, the index of its time. */
  readonly position: Int32Array;
  /** For each row listed, the index of the first time at which it is at risk; null: all from the start. */
  readonly start: Int32Array | null;
}

/** @param stratum rows: of the stratum; group: of each row of the columns, from 0 to size - 1 */
export function countsByGroup(
  columns: Pick<GroupedTimes, "times" | "events" | "entries">,
  stratum: { readonly rows: Int32Array; readonly group: Int32Array; readonly size: number },
): CountsByGroup {
  const { rows, group, size } = stratum;
  const ownTimes = new Float64Array(rows.length);
  for (let i = 0; i < rows.length; i++) ownTimes[i] = columns.times[rows[i] as number] as number;
  const { times, position } = distinctTimes(ownTimes);
  const cells = times.length * size;
  const events = new Float64Array(cells);
  const leaving = new Float64Array(cells);
  const starting = new Float64Array(cells);
  const start = columns.entries ? new Int32Array(rows.length) : null;
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] as number;
    const cell = (position[i] as number) * size + (group[row] as number);
    leaving[cell]!++;
    if (columns.events[row] === 1) events[cell]!++;
    if (columns.entries === undefined || start === null) continue;
    const first = countUpTo(times, columns.entries[row] as number);
    start[i] = first;
    starting[first * size + (group[row] as number)]!++;
  }
  const atRisk = new Float64Array(cells);
  for (let cell = cells - 1; cell >= 0; cell--) {
    const after = cell + size;
    const later = after < cells ? (atRisk[after] as number) - (starting[after] as number) : 0;
    atRisk[cell] = later + (leaving[cell] as number);
  }
  return { count: times.length, times, events, atRisk, position, start };
}
