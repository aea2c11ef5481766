/** The different times, ascending, and where each row stands among them. */
export interface DistinctTimes {
  readonly times: Float64Array;
  /** For each row, the index of its time in `times`. */
  readonly position: Int32Array;
}

/** A table of presence pays while it is not much longer than the rows are many. */
const tableFactor = 8;

/** The largest of whole numbers from 0 on that a table can hold; null where a table does not pay or there are other numbers. */
export function largestInTable(times: ArrayLike<number>): number | null {
  const most = tableFactor * times.length + 1024;
  let largest = 0;
  for (let row = 0; row < times.length; row++) {
    const time = times[row] as number;
    if (time !== Math.floor(time) || time > most || time < 0) return null;
    if (time > largest) largest = time;
  }
  return largest;
}

/** Whole numbers: mark each in a table, read the table off in order. Linear in rows plus range. */
function distinctByTable(times: ArrayLike<number>, largest: number): DistinctTimes {
  const order = new Int32Array(largest + 1);
  for (let row = 0; row < times.length; row++) order[times[row] as number] = 1;
  let count = 0;
  for (let time = 0; time <= largest; time++) count += order[time] as number;
  const distinct = new Float64Array(count);
  let next = 0;
  for (let time = 0; time <= largest; time++) {
    if (order[time] === 0) continue;
    distinct[next] = time;
    order[time] = next++;
  }
  const position = new Int32Array(times.length);
  for (let row = 0; row < times.length; row++) position[row] = order[times[row] as number] as number;
  return { times: distinct, position };
}

/** How many of the ascending `sorted` are below the value. */
export function countBelow(sorted: ArrayLike<number>, value: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((sorted[middle] as number) < value) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** How many of the ascending `sorted` are at most the value. */
export function countUpTo(sorted: ArrayLike<number>, value: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((sorted[middle] as number) <= value) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** From few rows on, sorting by digits does not pay. */
const digitsFrom = 2048;
const digitBits = 11;
const digits = 1 << digitBits;

/** Any times: sorted by value, each row looked up in the sorted list. */
function distinctBySorting(times: ArrayLike<number>): DistinctTimes {
  const sorted = Float64Array.from(times).sort();
  let count = 0;
  for (let index = 0; index < sorted.length; index++)
    if (index === 0 || sorted[index] !== sorted[index - 1]) sorted[count++] = sorted[index] as number;
  const distinct = sorted.slice(0, count);
  const position = new Int32Array(times.length);
  for (let row = 0; row < times.length; row++) position[row] = countBelow(distinct, times[row] as number);
  return { times: distinct, position };
}

/**
 * Many rows: the bits of numbers that are not negative rise with the numbers, so rows are dealt into heaps by eleven bits at a time, from
 * the last bits to the first. Linear in rows.
 */
function distinctByDigits(times: ArrayLike<number>): DistinctTimes {
  const n = times.length;
  const values = new Float64Array(n);
  for (let row = 0; row < n; row++) values[row] = (times[row] as number) + 0; // -0 and 0 are one time
  const words = new Uint32Array(values.buffer);
  const highWord = new Uint32Array(Float64Array.of(1).buffer)[1] === 0 ? 0 : 1;
  let rows = new Int32Array(n);
  let dealt = new Int32Array(n);
  for (let row = 0; row < n; row++) rows[row] = row;
  const next = new Int32Array(digits + 1);
  for (const word of [1 - highWord, highWord])
    for (let shift = 0; shift < 32; shift += digitBits) {
      next.fill(0);
      for (let row = 0; row < n; row++)
        next[(((words[2 * row + word] as number) >>> shift) & (digits - 1)) + 1]!++;
      const first = ((words[word] as number) >>> shift) & (digits - 1);
      // all alike in these bits: nothing to deal
      if (next[first + 1] === n) continue;
      for (let digit = 0; digit < digits; digit++) next[digit + 1]! += next[digit] as number;
      for (let at = 0; at < n; at++) {
        const row = rows[at] as number;
        dealt[next[((words[2 * row + word] as number) >>> shift) & (digits - 1)]!++] = row;
      }
      [rows, dealt] = [dealt, rows];
    }
  const distinct = new Float64Array(n);
  const position = new Int32Array(n);
  let count = 0;
  for (let at = 0; at < n; at++) {
    const row = rows[at] as number;
    const value = values[row] as number;
    if (count === 0 || value !== distinct[count - 1]) distinct[count++] = value;
    position[row] = count - 1;
  }
  return { times: distinct.slice(0, count), position };
}

/** Sorts once: by a table for whole numbers of moderate size (days), else by value. Ties are exact. @param times 0 or more */
export function distinctTimes(times: ArrayLike<number>): DistinctTimes {
  const largest = largestInTable(times);
  if (largest !== null) return distinctByTable(times, largest);
  return times.length < digitsFrom ? distinctBySorting(times) : distinctByDigits(times);
}
