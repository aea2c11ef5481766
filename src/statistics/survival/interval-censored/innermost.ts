import { countBelow, distinctTimes } from "../../shared/distinct-times.js";
import type { Intervals } from "./interval-data.js";

/** The intervals on which alone the estimate can put mass, ascending, and which of them each row contains. */
export interface Innermost {
  readonly count: number;
  /** Open ends; the time itself for an exact one. */
  readonly from: Float64Array;
  /** Closed ends; Infinity where no end was seen. */
  readonly to: Float64Array;
  readonly exact: Uint8Array;
  /** First and last innermost interval of each row; -1 for a row of weight 0. */
  readonly first: Int32Array;
  readonly last: Int32Array;
}

/**
 * The order of ends that share a time: just before it (an exact time starts), at it (an interval ends), just after it (one starts).
 */
const before = 0;
const upTo = 1;
const after = 2;

/** Key of each end: three places for each different time; below them the starts from before time 0, above them Infinity. */
function keysOf({ left, right }: Intervals) {
  const n = left.length;
  const known = new Float64Array(2 * n);
  let count = 0;
  for (let row = 0; row < n; row++) {
    if (left[row]! >= 0) known[count++] = left[row]!;
    if (Number.isFinite(right[row])) known[count++] = right[row]!;
  }
  const { times, position } = distinctTimes(known.subarray(0, count));
  const startKey = new Int32Array(n);
  const endKey = new Int32Array(n);
  const beyond = 3 * (times.length + 1) + upTo;
  let next = 0;
  for (let row = 0; row < n; row++) {
    const leftPlace = left[row]! >= 0 ? 3 * (1 + position[next++]!) : 0;
    startKey[row] = leftPlace + (left[row] === right[row] ? before : after);
    endKey[row] = Number.isFinite(right[row]) ? 3 * (1 + position[next++]!) + upTo : beyond;
  }
  return { times, startKey, endKey, size: beyond + 1 };
}

/**
 * Innermost intervals: from a start to an end with neither start nor end between them.
 *
 * @source Peto 1973, Appl Stat 22:86; Turnbull 1976, J R Stat Soc B 38:290; half-open ends: Ng 2002, Biometrics 58:439
 */
export function innermostOf(intervals: Intervals): Innermost {
  const { times, startKey, endKey, size } = keysOf(intervals);
  const n = startKey.length;
  const kind = new Uint8Array(size); // 1: a start, 2: an end
  for (let row = 0; row < n; row++) {
    if (intervals.weights[row] === 0) continue;
    kind[startKey[row]!] = 1;
    kind[endKey[row]!] = 2;
  }
  const starts: number[] = [];
  const ends: number[] = [];
  let open = -1;
  for (let key = 0; key < size; key++) {
    if (kind[key] === 1) open = key;
    if (kind[key] !== 2 || open < 0) continue;
    starts.push(open);
    ends.push(key);
    open = -1;
  }
  const timeAt = (key: number): number => {
    const place = Math.floor(key / 3);
    if (place === 0) return -1;
    return place > times.length ? Number.POSITIVE_INFINITY : times[place - 1]!;
  };
  const first = new Int32Array(n).fill(-1);
  const last = new Int32Array(n).fill(-1);
  for (let row = 0; row < n; row++) {
    if (intervals.weights[row] === 0) continue;
    first[row] = countBelow(starts, startKey[row]!);
    last[row] = countBelow(ends, endKey[row]! + 1) - 1;
  }
  return {
    count: starts.length,
    from: Float64Array.from(starts, timeAt),
    to: Float64Array.from(ends, timeAt),
    exact: Uint8Array.from(starts, (key) => Number(key % 3 === before)),
    first,
    last,
  };
}
