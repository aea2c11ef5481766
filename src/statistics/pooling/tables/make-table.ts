import { checkColumn, checkSameLength } from "../../shared/arguments.js";
import { type Covariates, checkCovariates } from "../../shared/covariates.js";
import { checkColumnNames, type NamesOf } from "../../shared/options.js";
import { checkEntries } from "../../shared/time-to-event.js";
import { checkCauses } from "../../survival/competing-events.js";
import type { SortedTable } from "./risk-set-table.js";
import { tally } from "./tally.js";

/** One row a record. */
export interface TableRows {
  readonly times: ArrayLike<number>;
  /** 0 where follow-up ended without any event, else 1, 2, ... for the event that came first. */
  readonly causes: ArrayLike<number>;
  /** At risk on (entry, time]; left out: at risk from the start, time 0 included. */
  readonly entries?: ArrayLike<number>;
  /** Whole numbers. */
  readonly groups?: ArrayLike<number>;
  /** Whole numbers. */
  readonly strata?: ArrayLike<number>;
  readonly covariates?: Covariates;
}

const tableRowsNames: NamesOf<TableRows> = {
  times: true,
  causes: true,
  entries: true,
  groups: true,
  strata: true,
  covariates: true,
};

/** Before every time, so that whoever comes then is at risk from the start. */
export const fromStart = -1;

/** @throws ArgumentError naming the column and index of the first value at fault */
export function checkRows(columns: TableRows): void {
  checkColumnNames(tableRowsNames, { columns });
  const times = { name: "times", values: columns.times };
  checkColumn(times, "not negative");
  checkCauses(columns);
  checkEntries(columns);
  for (const name of ["groups", "strata"] as const) {
    const values = columns[name];
    if (values === undefined) continue;
    checkSameLength({ name, values }, times);
    checkColumn({ name, values }, "code");
  }
  if (columns.covariates !== undefined) checkCovariates(columns.covariates, times);
}

/**
 * Counts rows into a table of risk sets: from it the curves, tests and regressions of the rows come out again, as if each row were another
 * person's.
 *
 * @returns a table without lines for no rows
 * @throws ArgumentError naming the column and index of the first value at fault
 * @example
 * riskSetTable({ times: [7, 7, 14], causes: [1, 0, 1] }).events // => [[0, 1, 1]]
 */
export function riskSetTable(columns: TableRows): SortedTable {
  checkRows(columns);
  const n = columns.times.length;
  const { entries, causes } = columns;
  // each row is a line when it comes and another one when it leaves
  const twice = (values: ArrayLike<number>): Float64Array => {
    const both = new Float64Array(2 * n);
    both.set(values);
    both.set(values, n);
    return both;
  };
  const times = twice(columns.times);
  for (let row = 0; row < n; row++) times[row] = Math.max(fromStart, entries?.[row] ?? fromStart);
  const entered = new Float64Array(2 * n).fill(1, 0, n);
  const censored = new Float64Array(2 * n);
  let last = 0;
  for (let row = 0; row < n; row++) last = Math.max(last, causes[row]!);
  const events = Array.from({ length: last }, () => new Float64Array(2 * n));
  for (let row = 0; row < n; row++) (causes[row] === 0 ? censored : events[causes[row]! - 1]!)[n + row] = 1;
  return tally({
    times,
    entered,
    censored,
    events,
    ...(columns.groups && { groups: twice(columns.groups) }),
    ...(columns.strata && { strata: twice(columns.strata) }),
    ...(columns.covariates && {
      covariates: { names: columns.covariates.names, columns: columns.covariates.columns.map(twice) },
    }),
  });
}
