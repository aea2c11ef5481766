/** Rows in ascending order of their values; rows with equal values keep the order they had. */
export interface Ordered {
  readonly rows: Int32Array;
  /** The values in that order: `values[at]` is that of row `rows[at]`. */
  readonly values: Float64Array;
}

/** From few rows on, dealing by digits does not pay. */
const digitsFrom = 256;
const mostDigitBits = 13;
/** Moves of a row by one place that putting right may take, for each row, before sorting by all bits is cheaper. */
const movesAllowed = 4;

/**
 * Sorts rows by value: times, entries, scores. Linear in rows.
 *
 * The bits of floating-point numbers rise with the numbers, so the rows are dealt into heaps by the first 32 of their 64 bits, a dozen or so
 * at a time and the last of them first. That leaves almost nothing to put right, which is done by moving rows up one place at a time. Numbers
 * so close together that their first bits hardly differ are dealt by all bits.
 *
 * @param values finite; -0 and 0 are equal
 */
export function orderByTime(values: ArrayLike<number>): Ordered {
  const own = new Float64Array(values.length);
  for (let row = 0; row < own.length; row++) own[row] = (values[row] as number) + 0; // -0 becomes 0
  if (own.length < digitsFrom) {
    const rows = rowNumbers(own.length);
    rows.sort((a, b) => (own[a] as number) - (own[b] as number) || a - b);
    return { rows, values: own.sort() };
  }
  const keys = keysOf(own, "first half");
  const nearly = dealt(keys, rowNumbers(own.length));
  return putRight(own, nearly) ?? byAllBits(own, keys);
}

function rowNumbers(count: number): Int32Array {
  const rows = new Int32Array(count);
  for (let row = 0; row < count; row++) rows[row] = row;
  return rows;
}

/** Place of the half of a number that holds sign, exponent and first digits. */
const firstHalf = new Uint32Array(Float64Array.of(1).buffer)[1] === 0 ? 0 : 1;

/** Half of the bits of each value as a whole number from 0 on that rises with the value. Below 0 all bits count the other way round. */
function keysOf(values: Float64Array, half: "first half" | "second half"): Uint32Array {
  const words = new Uint32Array(values.buffer);
  const wanted = half === "first half" ? firstHalf : 1 - firstHalf;
  const signBit = half === "first half" ? 0x80000000 : 0;
  const keys = new Uint32Array(values.length);
  let lowest = 0xffffffff;
  for (let row = 0; row < keys.length; row++) {
    const negative = (words[2 * row + firstHalf] as number) >> 31; // all ones or all zeros
    const key = ((words[2 * row + wanted] as number) ^ (negative | signBit)) >>> 0;
    keys[row] = key;
    if (key < lowest) lowest = key;
  }
  for (let row = 0; row < keys.length; row++) keys[row]! -= lowest;
  return keys;
}

/** Rows by key, those with equal keys in the order in which they came. */
function dealt(keyOfRow: Uint32Array, start: Int32Array): Int32Array {
  const n = start.length;
  let rows: Int32Array = start;
  let keys: Uint32Array = new Uint32Array(n);
  let highest = 0;
  for (let at = 0; at < n; at++) {
    const key = keyOfRow[rows[at] as number] as number;
    keys[at] = key;
    if (key > highest) highest = key;
  }
  let nextRows: Int32Array = new Int32Array(n);
  let nextKeys: Uint32Array = new Uint32Array(n);
  const bits = 32 - Math.clz32(highest);
  const digitBits = Math.ceil(bits / Math.ceil(bits / mostDigitBits));
  const digits = 1 << digitBits;
  const place = new Int32Array(digits + 1);
  for (let shift = 0; shift < bits; shift += digitBits) {
    place.fill(0);
    for (let at = 0; at < n; at++) place[(((keys[at] as number) >>> shift) & (digits - 1)) + 1]!++;
    for (let digit = 0; digit < digits; digit++) place[digit + 1]! += place[digit] as number;
    for (let at = 0; at < n; at++) {
      const key = keys[at] as number;
      const to = place[(key >>> shift) & (digits - 1)]!++;
      nextKeys[to] = key;
      nextRows[to] = rows[at] as number;
    }
    [rows, nextRows] = [nextRows, rows];
    [keys, nextKeys] = [nextKeys, keys];
  }
  return rows;
}

/** Moves each row up past those with greater values; null where that would take long. */
function putRight(values: Float64Array, nearly: Int32Array): Ordered | null {
  const rows = nearly;
  const sorted = new Float64Array(rows.length);
  let left = movesAllowed * rows.length;
  for (let at = 0; at < rows.length; at++) {
    const row = rows[at] as number;
    const value = values[row] as number;
    let to = at;
    for (; to > 0 && (sorted[to - 1] as number) > value; to--) {
      sorted[to] = sorted[to - 1] as number;
      rows[to] = rows[to - 1] as number;
      if (left-- === 0) return null;
    }
    sorted[to] = value;
    rows[to] = row;
  }
  return { rows, values: sorted };
}

function byAllBits(values: Float64Array, firstHalves: Uint32Array): Ordered {
  const bySecondHalf = dealt(keysOf(values, "second half"), rowNumbers(values.length));
  const rows = dealt(firstHalves, bySecondHalf);
  const sorted = new Float64Array(rows.length);
  for (let at = 0; at < rows.length; at++) sorted[at] = values[rows[at] as number] as number;
  return { rows, values: sorted };
}
