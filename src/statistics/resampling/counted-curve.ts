import { countUpTo, distinctTimes } from "../shared/distinct-times.js";
import { checkColumnNames, needed, number, type OptionsOf, readOptions } from "../shared/options.js";
import { checkTimeToEvent, type TimeToEvent, timeToEventNames } from "../shared/time-to-event.js";
import { remaining } from "../survival/robust-variance.js";

/** Rows sorted once: where each leaves, with or without the event, and where it comes in. */
interface CountedRows {
  readonly times: Float64Array;
  readonly rowTime: Int32Array;
  readonly rowStart: Int32Array | null;
  readonly isEvent: Uint8Array;
  readonly weights: ArrayLike<number> | null;
}

/** At each of the once-sorted times, for one set of counts; overwritten by the next. */
interface CountedSets {
  readonly events: Float64Array;
  readonly leaving: Float64Array;
  readonly starting: Float64Array;
  readonly atRisk: Float64Array;
}

/** Sorts once; the function it returns counts the risk sets anew for any counts of the rows, without sorting or allocating. */
function countedRiskSets(columns: TimeToEvent): {
  readonly rows: CountedRows;
  readonly sets: CountedSets;
  readonly count: (counts: ArrayLike<number>) => void;
} {
  checkTimeToEvent(columns);
  const { times, position } = distinctTimes(columns.times);
  const { entries } = columns;
  const rows: CountedRows = {
    times,
    rowTime: position,
    rowStart: entries ? Int32Array.from(entries, (entry) => countUpTo(times, entry)) : null,
    isEvent: Uint8Array.from(columns.events),
    weights: columns.weights ?? null,
  };
  const empty = (): Float64Array => new Float64Array(times.length);
  const sets = { events: empty(), leaving: empty(), starting: empty(), atRisk: empty() };
  return { rows, sets, count: (counts) => countInto({ rows, sets }, counts) };
}

function countInto(
  { rows, sets }: { readonly rows: CountedRows; readonly sets: CountedSets },
  counts: ArrayLike<number>,
): void {
  const { rowTime, rowStart, isEvent, weights } = rows;
  const { events, leaving, starting, atRisk } = sets;
  events.fill(0);
  leaving.fill(0);
  if (rowStart) starting.fill(0);
  for (let row = 0; row < rowTime.length; row++) {
    let count = counts[row]!;
    if (count === 0) continue;
    if (weights) count *= weights[row]!;
    const at = rowTime[row]!;
    leaving[at]! += count;
    if (isEvent[row] === 1) events[at]! += count;
    if (rowStart) starting[rowStart[row]!]! += count;
  }
  let left = 0;
  for (let i = atRisk.length - 1; i >= 0; i--) {
    left += leaving[i]!;
    atRisk[i] = left;
    left -= starting[i]!;
  }
}

/** Part of the curve left by the events of a time; 1 where there are none. */
function factorAt({ atRisk, events }: CountedSets, at: number): number {
  const d = events[at]!;
  if (d === 0) return 1;
  const n = atRisk[at]!;
  return remaining(n, d) === 0 ? 0 : 1 - d / n;
}

const anybody = ({ leaving }: CountedSets): boolean => leaving.some((count) => count > 0);

/** A figure of the curve as a function of how often each row counts; null where no row does. */
export type CountedFigure = (counts: ArrayLike<number>) => number | null;

export const countedRestrictedMeanOptions = {
  /** Time up to which the mean is taken, above 0. */
  horizon: needed(number("positive")),
};

export interface CountedRestrictedMeanOptions extends OptionsOf<typeof countedRestrictedMeanOptions> {}

/**
 * Restricted mean up to a horizon, as `restrictedMean` estimates it, for any counts of rows that are sorted once.
 *
 * Weights multiply the counts: weights of 0 leave rows out, so that the figures of two groups can be taken from one set of counts.
 *
 * @throws ArgumentError naming the column and index at fault, or the horizon
 * @example
 * countedRestrictedMean({ times: [2, 4, 6, 8], events: [1, 1, 1, 1] }, { horizon: 8 })([1, 1, 1, 1]) // => 5
 */
export function countedRestrictedMean(
  columns: TimeToEvent,
  options: CountedRestrictedMeanOptions,
): CountedFigure {
  checkColumnNames(timeToEventNames, { columns });
  const { horizon } = readOptions(countedRestrictedMeanOptions, options);
  const { rows, sets, count } = countedRiskSets(columns);
  const { times } = rows;
  return (counts) => {
    count(counts);
    if (!anybody(sets)) return null;
    let area = 0;
    let share = 1;
    let from = 0;
    for (let i = 0; i < times.length && times[i]! < horizon; i++) {
      if (sets.events[i] === 0) continue;
      area += share * (times[i]! - from);
      from = times[i]!;
      share *= factorAt(sets, i);
    }
    return area + share * (horizon - from);
  };
}

export const countedShareOptions = {
  /** Time of the share, 0 or more. */
  time: needed(number("not negative")),
};

export interface CountedShareOptions extends OptionsOf<typeof countedShareOptions> {}

/**
 * Share without the event at a time, for any counts of rows that are sorted once.
 *
 * Past the last follow-up of the counted rows, where not all of them had the event, there is no share: null.
 *
 * @throws ArgumentError naming the column and index at fault, or the time
 */
export function countedShare(columns: TimeToEvent, options: CountedShareOptions): CountedFigure {
  checkColumnNames(timeToEventNames, { columns });
  const { time } = readOptions(countedShareOptions, options);
  const { rows, sets, count } = countedRiskSets(columns);
  return (counts) => {
    count(counts);
    if (!anybody(sets)) return null;
    let share = 1;
    const until = countUpTo(rows.times, time);
    for (let i = 0; i < until; i++) share *= factorAt(sets, i);
    const followed = until < rows.times.length ? sets.atRisk[until]! > 0 : false;
    const onTime = until > 0 && rows.times[until - 1] === time && sets.leaving[until - 1]! > 0;
    return followed || onTime || share === 0 ? share : null;
  };
}

export const countedQuantileTimeOptions = {
  /** Share with the event, between 0 and 1. */
  p: needed(number("open share")),
};

export interface CountedQuantileTimeOptions extends OptionsOf<typeof countedQuantileTimeOptions> {}

/**
 * Time by which a share p has had the event, the smallest t with S(t) <= 1 - p, for any counts of rows that are sorted once; null where
 * the curve does not come down to it.
 *
 * @throws ArgumentError naming the column and index at fault, or the share
 */
export function countedQuantileTime(
  columns: TimeToEvent,
  options: CountedQuantileTimeOptions,
): CountedFigure {
  checkColumnNames(timeToEventNames, { columns });
  const { p } = readOptions(countedQuantileTimeOptions, options);
  const { rows, sets, count } = countedRiskSets(columns);
  // a product of so many factors is off by at most about one rounding each
  const reached = 1 - p + 2 * Number.EPSILON * (rows.times.length + 4);
  return (counts) => {
    count(counts);
    let share = 1;
    for (let i = 0; i < rows.times.length; i++) {
      if (sets.events[i] === 0) continue;
      share *= factorAt(sets, i);
      if (share <= reached) return rows.times[i]!;
    }
    return null;
  };
}
