import { orderByTime } from "./order-by-time.js";

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
    const time = times[row]!;
    if (time !== Math.floor(time) || time > most || time < 0) return null;
    if (time > largest) largest = time;
  }
  return largest;
}

/** Whole numbers: mark each in a table, read the table off in order. Linear in rows plus range. */
function distinctByTable(times: ArrayLike<number>, largest: number): DistinctTimes {
  const order = new Int32Array(largest + 1);
  for (let row = 0; row < times.length; row++) order[times[row]!] = 1;
  let count = 0;
  for (let time = 0; time <= largest; time++) count += order[time]!;
  const distinct = new Float64Array(count);
  let next = 0;
  for (let time = 0; time <= largest; time++) {
    if (order[time] === 0) continue;
    distinct[next] = time;
    order[time] = next++;
  }
  const position = new Int32Array(times.length);
  for (let row = 0; row < times.length; row++) position[row] = order[times[row]!]!;
  return { times: distinct, position };
}

/** How many of the ascending `sorted` are below the value. */
export function countBelow(sorted: ArrayLike<number>, value: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sorted[middle]! < value) low = middle + 1;
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
    if (sorted[middle]! <= value) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Any times: sorted by value, equal ones counted once. */
function distinctBySorting(times: ArrayLike<number>): DistinctTimes {
  const { rows, values } = orderByTime(times);
  const distinct = new Float64Array(rows.length);
  const position = new Int32Array(rows.length);
  let count = 0;
  for (let i = 0; i < rows.length; i++) {
    const value = values[i]!;
    if (count === 0 || value !== distinct[count - 1]) distinct[count++] = value;
    position[rows[i]!] = count - 1;
  }
  return { times: distinct.slice(0, count), position };
}

/** Sorts once: by a table for whole numbers of moderate size (days), else by value. Ties are exact. @param times finite */
export function distinctTimes(times: ArrayLike<number>): DistinctTimes {
  const largest = largestInTable(times);
  return largest === null ? distinctBySorting(times) : distinctByTable(times, largest);
}
