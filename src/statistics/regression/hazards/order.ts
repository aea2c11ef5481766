/** Sorting once: orders of rows by whole numbers (counting) or by any numbers (radix on the bits). Both stable, both linear. */

/** A table of counts pays while it is not much longer than the rows are many. */
const tableFactor = 8;

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

/** Smallest and largest, if all are whole numbers in a range that a table can hold. */
function wholeRange(values: Float64Array): { low: number; high: number } | null {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let row = 0; row < values.length; row++) {
    const value = values[row] as number;
    if (value !== Math.floor(value)) return null;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return high - low <= tableFactor * values.length + 1024 ? { low, high } : null;
}

const digitBits = 11;
const digits = 1 << digitBits;

/** The bits of each number, turned so that they rise as unsigned whole numbers where the numbers fall. */
function fallingBits(values: Float64Array): { high: Uint32Array; low: Uint32Array } {
  const high = new Uint32Array(values.length);
  const low = new Uint32Array(values.length);
  const one = new Float64Array(1);
  const words = new Uint32Array(one.buffer);
  one[0] = 1;
  const highWord = words[1] === 0 ? 0 : 1; // where the sign bit lies on this machine
  for (let row = 0; row < values.length; row++) {
    one[0] = (values[row] as number) + 0; // -0 and 0 are one time
    const top = words[highWord] as number;
    const negative = top >>> 31 === 1;
    high[row] = negative ? top : ~top & 0x7fffffff;
    low[row] = negative ? (words[1 - highWord] as number) : ~(words[1 - highWord] as number);
  }
  return { high, low };
}

function orderByBits(rows: Int32Array, values: Float64Array): Int32Array {
  const { high, low } = fallingBits(values);
  let sorted = rows;
  for (const word of [low, high])
    for (let shift = 0; shift < 32; shift += digitBits) {
      const key = (row: number): number => ((word[row] as number) >>> shift) & (digits - 1);
      const next = new Int32Array(digits + 1);
      for (let at = 0; at < sorted.length; at++) next[key(sorted[at] as number) + 1]!++;
      // all alike in this digit: nothing to sort
      if (sorted.length > 0 && next[key(sorted[0] as number) + 1] === sorted.length) continue;
      for (let digit = 0; digit < digits; digit++) next[digit + 1]! += next[digit] as number;
      const moved = new Int32Array(sorted.length);
      for (let at = 0; at < sorted.length; at++) {
        const row = sorted[at] as number;
        moved[next[key(row)]!++] = row;
      }
      sorted = moved;
    }
  return sorted;
}

/** Sorts rows from the largest value to the smallest. @param rows in the order that ties keep */
export function orderFalling(rows: Int32Array, values: Float64Array): Int32Array {
  const range = wholeRange(values);
  if (range === null) return orderByBits(rows, values);
  const of = new Int32Array(values.length);
  for (let row = 0; row < values.length; row++) of[row] = range.high - (values[row] as number);
  return orderByKey(rows, { of, count: values.length === 0 ? 0 : range.high - range.low + 1 });
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
