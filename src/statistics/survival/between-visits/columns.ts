import { ArgumentError, checkColumn, checkSameLength } from "../../shared/arguments.js";
import { indexOfCodes } from "../../shared/codes.js";
import { type Covariates, checkCovariates } from "../../shared/covariates.js";
import type { NamesOf } from "../../shared/options.js";
import {
  checkEntries,
  type IntervalColumns,
  type Intervals,
  intervalsOf,
} from "../interval-censored/interval-data.js";

/**
 * Intervals as in IntervalColumns, each with the end that came in it; and where there are any, groups, covariates, late entry and rows that
 * belong together.
 */
export interface VisitColumns extends IntervalColumns {
  /** Which end came in (left, right]: 1, 2 ...; 0 where `right` is null. Left out: 1 wherever an end was seen. */
  readonly ends?: ArrayLike<number>;
  /** Whole numbers. Left out: all one group. */
  readonly groups?: ArrayLike<number>;
  /** What groups are to be made alike in. Left out: none. */
  readonly covariates?: Covariates;
  /** The row is there only because no end had come by this time. Left out: from the start on. */
  readonly entries?: ArrayLike<number>;
  /** Whole numbers; rows with the same number belong together (fingers of one person). */
  readonly clusters?: ArrayLike<number>;
}

export const visitColumnsNames: NamesOf<VisitColumns> = {
  left: true,
  right: true,
  weights: true,
  ends: true,
  groups: true,
  covariates: true,
  entries: true,
  clusters: true,
};

/** The same checked. */
export interface Visits extends Intervals {
  readonly n: number;
  readonly ends: Int32Array;
  /** Codes of the ends that occur, ascending. */
  readonly endCodes: readonly number[];
  readonly groups: readonly number[];
  /** Place of each row's group among the groups. */
  readonly group: Int32Array;
  readonly covariates: Covariates;
  readonly entries: ArrayLike<number> | undefined;
  readonly clusters: ArrayLike<number> | undefined;
}

function checkedEnds(given: ArrayLike<number> | undefined, { left, right }: Intervals): Int32Array {
  const seen = (row: number): boolean => Number.isFinite(right[row]);
  if (given === undefined) return Int32Array.from(left, (_, row) => Number(seen(row)));
  checkSameLength({ name: "ends", values: given }, { name: "left", values: left });
  checkColumn({ name: "ends", values: given }, "count");
  for (let i = 0; i < left.length; i++)
    if (given[i]! > 0 !== seen(i))
      throw new ArgumentError({
        argument: "ends",
        index: i,
        expected: seen(i)
          ? `1 or more, as right[${i}] is ${right[i]}`
          : `0, as right[${i}] says that no end was seen`,
        found: given[i],
      });
  return Int32Array.from(given);
}

/** @throws ArgumentError naming the column and the first index at fault */
export function visitsOf(columns: VisitColumns): Visits {
  const intervals = intervalsOf(columns);
  const n = intervals.left.length;
  const rows = { name: "left", values: intervals.left };
  const { groups = new Int32Array(n), covariates = { names: [], columns: [] }, clusters } = columns;
  for (const [name, values] of [
    ["groups", groups] as const,
    ["clusters", clusters === undefined ? groups : clusters] as const,
  ]) {
    checkSameLength({ name, values }, rows);
    checkColumn({ name, values }, "code");
  }
  checkCovariates(covariates, rows);
  if (columns.entries !== undefined) checkEntries(columns.entries, intervals);
  const ends = checkedEnds(columns.ends, intervals);
  const { codes, index } = indexOfCodes(groups);
  return {
    ...intervals,
    n,
    ends,
    endCodes: [...new Set(ends)].filter((code) => code > 0).sort((a, b) => a - b),
    groups: codes,
    group: index,
    covariates,
    entries: columns.entries,
    clusters,
  };
}
