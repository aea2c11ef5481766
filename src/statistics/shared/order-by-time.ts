/** Values in ascending order, each with its label; equal values keep the order they had. */
export interface Sorted {
  readonly values: Float64Array;
  readonly labels: Int32Array;
}

/** Rows in ascending order of their values. */
export interface Ordered {
  /** `values[at]` is that of row `rows[at]`. */
  readonly values: Float64Array;
  readonly rows: Int32Array;
}

/** With few rows, sorting by digits does not pay. */
const digitsFrom = 256;
const mostDigitBits = 13;
/** Moves by one place that putting right may take, for each row, before sorting by all bits is cheaper. */
const movesAllowed = 4;

/** Sorts rows by value: times, entries, scores. See sortedWithLabels. */
export function orderByTime(values: ArrayLike<number>): Ordered {
  const rowNumbers = new Int32Array(values.length);
  for (let row = 0; row < rowNumbers.length; row++) rowNumbers[row] = row;
  const sorted = sortedWithLabels(values, rowNumbers);
  return { values: sorted.values, rows: sorted.labels };
}

/**
 * Sorts values and takes a label of each along: the number of its row, or all that has to be known of the row, which saves looking it up.
 * Linear in rows.
 *
 * The bits of floating-point numbers rise with the numbers, so the rows are distributed into buckets by the first 32 of their 64 bits, a dozen or so
 * at a time and the last of them first. That leaves almost nothing to put right, which is done by moving rows up one place at a time. Numbers
 * so close together that their first bits hardly differ are sorted by all bits.
 *
 * @param values finite; -0 becomes 0
 */
export function sortedWithLabels(values: ArrayLike<number>, labels: Int32Array | Uint8Array): Sorted {
  const own = new Float64Array(values.length);
  for (let row = 0; row < own.length; row++) own[row] = values[row]! + 0;
  if (own.length < digitsFrom) return sortedByComparing(own, labels);
  const sorted = distributed({ values: own, labels: new Int32Array(labels) }, "first half");
  return isPutRight(sorted) ? sorted : distributed(distributed(sorted, "second half"), "first half");
}

function sortedByComparing(values: Float64Array, labels: Int32Array | Uint8Array): Sorted {
  const rows = Int32Array.from(labels.keys());
  rows.sort((a, b) => values[a]! - values[b]! || a - b);
  return { values: values.sort(), labels: rows.map((row) => labels[row]!) };
}

/** Place of the half of a number that holds sign, exponent and first digits. */
const firstHalf = new Uint32Array(Float64Array.of(1).buffer)[1] === 0 ? 0 : 1;

/** How to read a whole number that rises with the value from the bits of the value. All are whole numbers of 32 bits with sign. */
interface Key {
  readonly half: number;
  readonly signBit: number;
  readonly lowest: number;
}

/** From 0 on once shifted without sign. Below 0 all bits of a value count the other way round. */
function keyAt(words: Uint32Array, at: number, { half, signBit, lowest }: Key): number {
  const negative = words[2 * at + firstHalf]! >> 31; // all ones or all zeros
  return ((words[2 * at + half]! ^ (negative | signBit)) - lowest) | 0;
}

function keyOf(values: Float64Array, half: "first half" | "second half"): { key: Key; bits: number } {
  const whole =
    half === "first half"
      ? { half: firstHalf, signBit: 0x80000000 | 0, lowest: 0 }
      : { half: 1 - firstHalf, signBit: 0, lowest: 0 };
  const words = new Uint32Array(values.buffer);
  let lowest = 0xffffffff;
  let highest = 0;
  for (let i = 0; i < values.length; i++) {
    const key = keyAt(words, i, whole) >>> 0;
    if (key < lowest) lowest = key;
    if (key > highest) highest = key;
  }
  return { key: { ...whole, lowest: lowest | 0 }, bits: 32 - Math.clz32(highest - lowest) };
}

/** Sorts by half of the bits; what is equal in these keeps its order. What is handed over serves as room to work in. */
function distributed(start: Sorted, half: "first half" | "second half"): Sorted {
  const { key, bits } = keyOf(start.values, half);
  const digitBits = Math.ceil(bits / Math.ceil(bits / mostDigitBits));
  const place = new Int32Array((1 << digitBits) + 1);
  let from = start;
  let to: Sorted = {
    values: new Float64Array(start.values.length),
    labels: new Int32Array(start.labels.length),
  };
  for (let shift = 0; shift < bits; shift += digitBits) {
    distributeByDigit(from, to, { key, shift, place });
    [from, to] = [to, from];
  }
  return from;
}

/** One pass, by the digit of the key that the table of places has room for. */
function distributeByDigit(
  from: Sorted,
  to: Sorted,
  digit: { readonly key: Key; readonly shift: number; readonly place: Int32Array },
): void {
  const { key, shift, place } = digit;
  const words = new Uint32Array(from.values.buffer);
  const n = from.values.length;
  const digits = place.length - 1;
  place.fill(0);
  for (let i = 0; i < n; i++) place[((keyAt(words, i, key) >>> shift) & (digits - 1)) + 1]!++;
  for (let next = 0; next < digits; next++) place[next + 1]! += place[next]!;
  for (let i = 0; i < n; i++) {
    const next = place[(keyAt(words, i, key) >>> shift) & (digits - 1)]!++;
    to.values[next] = from.values[i]!;
    to.labels[next] = from.labels[i]!;
  }
}

/** Moves each value up past greater ones; gives up where that takes long. */
function isPutRight({ values, labels }: Sorted): boolean {
  let left = movesAllowed * values.length;
  for (let i = 1; i < values.length; i++) {
    const value = values[i]!;
    if (value >= values[i - 1]!) continue;
    const label = labels[i]!;
    let to = i;
    for (; to > 0 && values[to - 1]! > value; to--) {
      values[to] = values[to - 1]!;
      labels[to] = labels[to - 1]!;
    }
    values[to] = value;
    labels[to] = label;
    left -= i - to;
    if (left < 0) return false;
  }
  return true;
}
