import { checkColumnNames } from "../../shared/options.js";
import { type VisitColumns, visitColumnsNames, visitsOf } from "./columns.js";

/** Times on one day each, as the curves of exact times take them. */
export interface Reading {
  readonly times: Float64Array;
  /** The end at that time; 0: still without one. */
  readonly ends: Int32Array;
}

/** The same rows with every end as early as it may have come, as late, and halfway. */
export interface ThreeReadings {
  /** The first whole day after `left`: the share with the end is at no time higher. */
  readonly earliest: Reading;
  readonly latest: Reading;
  /** Halfway, in whole days (halves up). */
  readonly midpoint: Reading;
}

/**
 * Three readings of ends known only between visits, for a table beside each other: whatever the true days, the share with the end lies between
 * that of the latest and that of the earliest reading where no other end competes. Rows without an end stay at `left`.
 *
 * @param columns times in whole days; see VisitColumns
 * @throws ArgumentError naming the column and index at fault
 * @source Lindsey & Ryan 1998, Stat Med 17:219
 * @example
 * threeReadings({ left: [42, 84], right: [84, null] }).midpoint.times // => [63, 84]
 */
export function threeReadings(columns: VisitColumns): ThreeReadings {
  checkColumnNames(visitColumnsNames, { columns });
  const { left, right, ends } = visitsOf(columns);
  const reading = (day: (from: number, to: number) => number): Reading => ({
    times: left.map((from, row) => {
      const start = Math.max(0, from);
      const to = right[row]!;
      if (ends[row] === 0) return start;
      return from === to ? to : day(start, to);
    }),
    ends: ends.slice(),
  });
  return {
    earliest: reading((from, to) => Math.min(to, Math.floor(from) + 1)),
    latest: reading((_, to) => to),
    midpoint: reading((from, to) => Math.min(to, Math.floor((from + to + 1) / 2))),
  };
}
