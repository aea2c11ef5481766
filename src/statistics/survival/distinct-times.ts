/** The different times, ascending, and where each row stands among them. */
export interface DistinctTimes {
  readonly times: Float64Array;
  /** For each row, the index of its time in `times`. */
  readonly position: Int32Array;
}

/** A table of presence pays while it is not much longer than the rows are many. */
const tableFactor = 8;

function largestWholeNumber(times: ArrayLike<number>): number | null {
  let largest = 0;
  for (let row = 0; row < times.length; row++) {
    const time = times[row] as number;
    if (!Number.isSafeInteger(time)) return null;
    if (time > largest) largest = time;
  }
  return largest;
}

/** Whole numbers: mark each in a table, read the table off in order. Linear in rows plus range. */
function distinctByTable(times: ArrayLike<number>, largest: number): DistinctTimes {
  const order = new Int32Array(largest + 1);
  for (let row = 0; row < times.length; row++) order[times[row] as number] = 1;
  let count = 0;
  for (let time = 0; time <= largest; time++) if (order[time] === 1) count++;
  const distinct = new Float64Array(count);
  let next = 0;
  for (let time = 0; time <= largest; time++) {
    if (order[time] !== 1) continue;
    distinct[next] = time;
    order[time] = next++;
  }
  const position = Int32Array.from(
    { length: times.length },
    (_, row) => order[times[row] as number] as number,
  );
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

function distinctBySorting(times: ArrayLike<number>): DistinctTimes {
  const sorted = Float64Array.from(times).sort();
  let count = 0;
  for (let index = 0; index < sorted.length; index++)
    if (index === 0 || sorted[index] !== sorted[index - 1]) sorted[count++] = sorted[index] as number;
  const distinct = sorted.slice(0, count);
  const position = Int32Array.from({ length: times.length }, (_, row) =>
    countBelow(distinct, times[row] as number),
  );
  return { times: distinct, position };
}

/** Sorts once: by a table for whole numbers of moderate size (days), else by value. Ties are exact. */
export function distinctTimes(times: ArrayLike<number>): DistinctTimes {
  const largest = largestWholeNumber(times);
  const byTable = largest !== null && largest <= tableFactor * times.length + 1024;
  return byTable ? distinctByTable(times, largest) : distinctBySorting(times);
}
