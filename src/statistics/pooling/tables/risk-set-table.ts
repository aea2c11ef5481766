import { ArgumentError, checkColumn, checkSameLength } from "../../shared/arguments.js";
import { type Covariates, checkCovariates } from "../../shared/covariates.js";
import { checkColumnNames, type NamesOf } from "../../shared/options.js";
import { profilesOf } from "./profiles.js";

/**
 * Who came under observation, left it, or had an event, counted by time. All columns are as long as `times`; a line is one time among the
 * rows that share group, stratum and values of the covariates. Whoever is at risk at a time is told by what was counted before it.
 *
 * Persons cannot be told apart in it: all that is computed from one takes every row on its own.
 */
export interface RiskSetTable {
  /** The time of the line, on one unit throughout: that of an event or of the end of follow-up, or after which rows came under observation. */
  readonly times: ArrayLike<number>;
  /** Rows at risk from after this time on; those at risk from the start, time 0 included, at a time below 0. */
  readonly entered: ArrayLike<number>;
  /** Rows whose follow-up ended at this time without an event; at risk for the events at it. */
  readonly censored: ArrayLike<number>;
  /** Events of cause 1, of cause 2, and so on. */
  readonly events: readonly ArrayLike<number>[];
  /** Whole numbers; left out: one group. */
  readonly groups?: ArrayLike<number>;
  /** Whole numbers; left out: one stratum. */
  readonly strata?: ArrayLike<number>;
  /** Left out: none. */
  readonly covariates?: Covariates;
}

export const riskSetTableNames: NamesOf<RiskSetTable> = {
  times: true,
  entered: true,
  censored: true,
  events: true,
  groups: true,
  strata: true,
  covariates: true,
};

/** A table whose lines are sorted by stratum, group, covariates and time, none of them twice and none without a row. */
export interface SortedTable extends RiskSetTable {
  readonly times: readonly number[];
  readonly entered: readonly number[];
  readonly censored: readonly number[];
  readonly events: readonly (readonly number[])[];
  readonly groups: readonly number[];
  readonly strata: readonly number[];
  readonly covariates: {
    readonly names: readonly string[];
    readonly columns: readonly (readonly number[])[];
  };
}

function checkCounts(table: RiskSetTable): void {
  const times = { name: "times", values: table.times };
  checkColumn(times, "finite");
  const counts = [
    { name: "entered", values: table.entered },
    { name: "censored", values: table.censored },
    ...table.events.map((values, i) => ({ name: `events[${i}]`, values })),
  ];
  for (const column of counts) {
    checkSameLength(column, times);
    checkColumn(column, "count");
  }
  for (const name of ["groups", "strata"] as const) {
    const values = table[name];
    if (values === undefined) continue;
    checkSameLength({ name, values }, times);
    checkColumn({ name, values }, "code");
  }
  if (table.covariates !== undefined) checkCovariates(table.covariates, times);
}

/** The lines of a table in order of profile and time. */
export function linesInOrder(
  { times }: RiskSetTable,
  { of }: { readonly of: ArrayLike<number> },
): Int32Array {
  const order = Int32Array.from({ length: times.length }, (_, line) => line);
  return order.sort((a, b) => of[a]! - of[b]! || times[a]! - times[b]!);
}

const leavingAt = ({ censored, events }: RiskSetTable, line: number): number =>
  events.reduce((sum, ofCause) => sum + ofCause[line]!, censored[line]!);

/** In each profile as many leave as came, and nobody leaves before having come. */
function checkBalance(table: RiskSetTable): void {
  const profiles = profilesOf(table);
  const order = linesInOrder(table, profiles);
  const { times, entered } = table;
  let present = 0;
  // those who come at a time are at risk only after it
  let coming = 0;
  for (let i = 0; i < order.length; i++) {
    const line = order[i]!;
    const before = i > 0 ? order[i - 1]! : -1;
    const sameProfile = before >= 0 && profiles.of[before] === profiles.of[line];
    if (!sameProfile) present = coming = 0;
    else if (times[before] !== times[line]) {
      present += coming;
      coming = 0;
    }
    const leaving = leavingAt(table, line);
    present -= leaving;
    if (present < 0 || (times[line]! < 0 && leaving > 0))
      throw new ArgumentError({
        argument: "times",
        index: line,
        expected: "a time at which no more rows leave than are at risk",
        found: `${times[line]} with ${leaving} leaving`,
      });
    coming += entered[line]!;
    const next = order[i + 1];
    const last = next === undefined || profiles.of[next] !== profiles.of[line];
    if (last && present + coming !== 0)
      throw new ArgumentError({
        argument: "entered",
        index: line,
        expected: "as many rows as leave in the end, in each group, stratum and set of covariates",
        found: `${present + coming} more`,
      });
  }
}

/** @throws ArgumentError naming the column and the line at fault */
export function checkRiskSetTable(table: RiskSetTable): void {
  checkColumnNames(riskSetTableNames, { table });
  if (!Array.isArray(table.events))
    throw new ArgumentError({
      argument: "events",
      index: null,
      expected: "an array with the events of each cause",
      found: typeof table.events,
    });
  checkCounts(table);
  checkBalance(table);
}
