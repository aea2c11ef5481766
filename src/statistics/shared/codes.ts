import { floatsOf } from "./arguments.js";
import { rowsByIndex } from "./clusters.js";
import { codeRange } from "./code-range.js";

/** Different codes, ascending, and the index of each row's code among them. */
export function indexOfCodes(of: ArrayLike<number>): { codes: number[]; index: Int32Array } {
  const codes = floatsOf(of);
  const range = codeRange(codes);
  return range === null ? indexBySorting(codes) : indexByTable(codes, range);
}

function indexByTable(
  codes: Float64Array,
  { low, range }: { readonly low: number; readonly range: number },
): { codes: number[]; index: Int32Array } {
  const place = new Int32Array(range);
  const index = new Int32Array(codes.length);
  for (let row = 0; row < codes.length; row++) place[codes[row]! - low] = 1;
  const distinct: number[] = [];
  for (let i = 0; i < place.length; i++) {
    if (place[i] === 0) continue;
    place[i] = distinct.length;
    distinct.push(i + low);
  }
  for (let row = 0; row < codes.length; row++) index[row] = place[codes[row]! - low]!;
  return { codes: distinct, index };
}

function indexBySorting(codes: Float64Array): { codes: number[]; index: Int32Array } {
  const sorted = [...new Set(Array.from(codes))].sort((a, b) => a - b);
  const place = new Map(sorted.map((code, i) => [code, i]));
  return { codes: sorted, index: Int32Array.from(codes, (code) => place.get(code)!) };
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
