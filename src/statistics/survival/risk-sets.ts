import { checkColumn } from "../shared/arguments.js";
import {
  countBelow,
  countUpTo,
  type DistinctTimes,
  distinctTimes,
  largestInTable,
} from "../shared/distinct-times.js";
import { checkColumnNames, checkResult } from "../shared/options.js";
import { checkTimeToEvent, type TimeToEvent, timeToEventNames } from "../shared/time-to-event.js";

/** Who was at risk when: the once-sorted form that curves, tests and tables start from. Counts are weighted. */
export interface RiskSets {
  /** Different times of event or censoring, ascending. */
  readonly times: Float64Array;
  /** At risk at each time: entry < time, and neither event nor censoring before it. */
  readonly atRisk: Float64Array;
  readonly events: Float64Array;
  readonly censored: Float64Array;
  /** Rows, whatever their weight. */
  readonly n: number;
  /** Sum of the weights; n where there are none. */
  readonly total: number;
  /** For each row, the index of its time in `times`. */
  readonly rowTime: Int32Array;
  /** For each row, the index of the first time at which it is at risk; null: all from the start. */
  readonly rowStart: Int32Array | null;
  /** Entry times, ascending, and the weight entered up to and including each; null: all from the start. */
  readonly entered: { readonly times: Float64Array; readonly total: Float64Array } | null;
}

const weightOf = (columns: TimeToEvent, row: number): number => columns.weights?.[row] ?? 1;

/** The weight entered up to and including each different entry. */
function enteredBy(
  { times, position }: DistinctTimes,
  columns: TimeToEvent,
): Exclude<RiskSets["entered"], null> {
  const total = new Float64Array(times.length);
  for (let row = 0; row < position.length; row++) total[position[row]!]! += weightOf(columns, row);
  for (let i = 1; i < total.length; i++) total[i]! += total[i - 1]!;
  return { times, total };
}

/** Entries may lie before time 0 (at risk on time 0 itself), which no table of presence holds. */
function distinctTimesOfEntries(entries: ArrayLike<number>): DistinctTimes {
  const days = Float64Array.from(entries, (entry) => entry + 1);
  if (largestInTable(days) !== null) {
    // whole days from -1 on: the sum is exact
    const { times, position } = distinctTimes(days);
    return { times: times.map((time) => time - 1), position };
  }
  const sorted = Float64Array.from(new Set(Array.from(entries))).sort();
  return { times: sorted, position: Int32Array.from(entries, (entry) => countBelow(sorted, entry)) };
}

/**
 * Sorts the records once and counts who was at risk, had the event or was censored at each different time.
 *
 * Those censored at a time are at risk for the events at that time. Linear in rows for whole numbers of moderate size.
 *
 * @returns empty arrays for no rows
 * @throws ArgumentError naming the column and index of the first value at fault
 */
export function prepareRiskSets(columns: TimeToEvent): RiskSets {
  checkColumnNames(timeToEventNames, { columns });
  checkTimeToEvent(columns);
  const n = columns.times.length;
  const { times, position } = distinctTimes(columns.times);
  const count = times.length;
  const events = new Float64Array(count);
  const censored = new Float64Array(count);
  const starting = new Float64Array(count);
  const entries = columns.entries === undefined ? null : distinctTimesOfEntries(columns.entries);
  const rowStart = entries && startsOf(entries, times);
  let total = 0;
  for (let row = 0; row < n; row++) {
    const weight = weightOf(columns, row);
    total += weight;
    const at = position[row]!;
    if (columns.events[row] === 1) events[at]! += weight;
    else censored[at]! += weight;
    if (rowStart) starting[rowStart[row]!]! += weight;
  }
  const atRisk = new Float64Array(count);
  let left = 0;
  for (let i = count - 1; i >= 0; i--) {
    left += events[i]! + censored[i]!;
    atRisk[i] = left;
    left -= starting[i]!;
  }
  return {
    times,
    atRisk,
    events,
    censored,
    n,
    total,
    rowTime: position,
    rowStart,
    entered: entries && enteredBy(entries, columns),
  };
}

/** The first time at which each row is at risk. */
function startsOf(entries: DistinctTimes, times: Float64Array): Int32Array {
  const first = Int32Array.from(entries.times, (entry) => countUpTo(times, entry));
  return entries.position.map((place) => first[place]!);
}

/**
 * Number at risk at any times: records with entry < t <= time. Weighted where the records are.
 *
 * @throws ArgumentError for a time that is not finite or is negative
 */
export function numberAtRisk(
  riskSets: Pick<RiskSets, "times" | "events" | "censored" | "total" | "entered">,
  times: ArrayLike<number>,
): number[] {
  checkResult(
    { riskSets },
    { expected: "a result of prepareRiskSets", has: ["times", "events", "censored", "total", "entered"] },
  );
  checkColumn({ name: "times", values: times }, "not negative");
  return Array.from(times, (time) => atRiskAt(riskSets, time));
}

/** What has to be known to count the records at risk at a time. */
export interface AtRiskSource {
  readonly times: ArrayLike<number>;
  readonly events: ArrayLike<number>;
  readonly censored: ArrayLike<number>;
  /** Where they are no part of the events. */
  readonly competing?: ArrayLike<number> | null;
  readonly total: number;
  readonly entered: { readonly times: ArrayLike<number>; readonly total: ArrayLike<number> } | null;
}

/** Records at risk at one time, checked already. */
export function atRiskAt(source: AtRiskSource, time: number): number {
  const gone = countBelow(source.times, time);
  let left = 0;
  for (let i = 0; i < gone; i++)
    left += source.events[i]! + source.censored[i]! + (source.competing?.[i] ?? 0);
  if (source.entered === null) return source.total - left;
  const entries = countBelow(source.entered.times, time);
  return (entries === 0 ? 0 : source.entered.total[entries - 1]!) - left;
}
