import { distinctTimes } from "../../shared/distinct-times.js";
import type { Visits } from "./columns.js";

/** An interval that may hold mass: (from, to], or the time itself; `to` infinite where nobody was seen with an end after `from`. */
export interface Candidate {
  readonly from: number;
  readonly to: number;
  readonly exact: boolean;
}

/** The candidates of each end, ascending, and those of which no row tells the end. */
export interface Candidates {
  /** By the place of the end's code. */
  readonly ofEnds: readonly (readonly Candidate[])[];
  readonly open: readonly Candidate[];
}

/** Three places for each different time: just before it (an exact time starts), at it (an interval ends), just after it (one starts). */
const before = 0;
const upTo = 1;
const after = 2;

interface Keys {
  readonly times: Float64Array;
  readonly startOf: (row: number) => number;
  readonly endOf: (row: number) => number;
  readonly entryEnd: (row: number) => number;
  readonly size: number;
}

function keysOf(visits: Visits): Keys {
  const { left, right, n } = visits;
  const entry = Array.from({ length: n }, (_, row) => visits.entries?.[row] ?? 0);
  const known = [...left, ...right, ...entry].filter((time) => time >= 0 && Number.isFinite(time));
  const { times } = distinctTimes(Float64Array.from(known));
  const places = new Map(Array.from(times, (time, i) => [time, 3 * (i + 1)]));
  const placeOf = (time: number): number => places.get(time) ?? 0;
  const beyond = 3 * (times.length + 1) + upTo;
  return {
    times,
    startOf: (row) => placeOf(left[row]!) + (left[row] === right[row] ? before : after),
    endOf: (row) => (Number.isFinite(right[row]) ? placeOf(right[row]!) + upTo : beyond),
    entryEnd: (row) => placeOf(entry[row]!) + upTo,
    size: beyond + 1,
  };
}

/** From each end back to the last start before it, with neither between. */
function innermost(starts: Uint8Array, ends: Uint8Array): [number, number][] {
  const found: [number, number][] = [];
  let open = -1;
  for (let key = 0; key < starts.length; key++) {
    if (starts[key] === 1) open = key;
    if (ends[key] !== 1 || open < 0) continue;
    found.push([open, key]);
    open = -1;
  }
  return found;
}

/**
 * The intervals on which alone the estimate can put mass. For each end: from the last start (of a row with that end, or of a row without any)
 * before the close of such a row or before a late entry. Where no row with an end holds such an interval, its end cannot be told: open.
 *
 * @source Hudgens, Satten & Longini 2001, Biometrics 57:74; late entries close intervals: Frydman 1994, J R Stat Soc B 56:71
 */
export function candidatesOf(visits: Visits): Candidates {
  const keys = keysOf(visits);
  const rows = Array.from({ length: visits.n }, (_, row) => row).filter((row) => visits.weights[row]! > 0);
  const late = rows.filter((row) => (visits.entries?.[row] ?? 0) > 0);
  const timeAt = (key: number): number => {
    const place = Math.floor(key / 3);
    if (place === 0) return -1;
    return place > keys.times.length ? Number.POSITIVE_INFINITY : keys.times[place - 1]!;
  };
  const asCandidate = ([start, end]: readonly [number, number]): Candidate => ({
    from: timeAt(start),
    to: timeAt(end),
    exact: start % 3 === before,
  });
  const open = new Map<string, [number, number]>();
  const ofEnds = visits.endCodes.map((code) => {
    const own = rows.filter((row) => visits.ends[row] === code);
    const [starts, ends] = [new Uint8Array(keys.size), new Uint8Array(keys.size)];
    for (const row of rows)
      if (visits.ends[row] === code || visits.ends[row] === 0) starts[keys.startOf(row)] = 1;
    for (const row of own) ends[keys.endOf(row)] = 1;
    for (const row of late) ends[keys.entryEnd(row)] = 1;
    const held = (pair: readonly [number, number]): boolean =>
      own.some((row) => keys.startOf(row) <= pair[0] && pair[1] <= keys.endOf(row));
    const all = innermost(starts, ends);
    for (const pair of all) if (!held(pair)) open.set(pair.join(), pair);
    return all.filter(held).map(asCandidate);
  });
  const without = rows.filter((row) => visits.ends[row] === 0);
  if (without.length > 0) {
    const last = Math.max(...without.map((row) => keys.startOf(row)));
    open.set("beyond", [last, keys.size - 1]);
  }
  return { ofEnds, open: [...open.values()].sort((a, b) => a[0] - b[0]).map(asCandidate) };
}
