import { ArgumentError, checkColumn } from "../../shared/arguments.js";
import { countBelow, countUpTo } from "../../shared/distinct-times.js";
import { list, needed, type OptionsOf, readOptions } from "../../shared/options.js";
import { joined } from "./add.js";
import { checkRows, fromStart, type TableRows } from "./make-table.js";
import { checkRiskSetTable, type RiskSetTable, type SortedTable } from "./risk-set-table.js";
import { tally } from "./tally.js";

const binOptions = {
  /** The last time of each bin, ascending; a bin holds what lies after the one before it. The first holds time 0 as well. */
  ends: needed(list<ArrayLike<number>>()),
};

export interface BinOptions extends OptionsOf<typeof binOptions> {}

function checkedEnds(options: BinOptions): Float64Array {
  const { ends } = readOptions(binOptions, options);
  checkColumn({ name: "ends", values: ends }, "not negative");
  for (let i = 1; i < ends.length; i++)
    if (!(ends[i]! > ends[i - 1]!))
      throw new ArgumentError({
        argument: "ends",
        index: i,
        expected: `after the end before it, which is ${ends[i - 1]}`,
        found: ends[i],
      });
  return Float64Array.from(ends);
}

/** The end of the bin of a time; a late entry is drawn back to the end of the bin before its own, so that nobody who was at risk is lost. */
const endFor = (ends: Float64Array, time: number): number => ends[countBelow(ends, time)]!;
const entryFor = (ends: Float64Array, entry: number): number => ends[countUpTo(ends, entry) - 1] ?? fromStart;

function checkCovered(times: ArrayLike<number>, ends: Float64Array): void {
  const last = ends[ends.length - 1] ?? -1;
  for (let i = 0; i < times.length; i++)
    if (times[i]! > last)
      throw new ArgumentError({
        argument: "times",
        index: i,
        expected: `in one of the bins, of which the last ends at ${last}`,
        found: times[i],
      });
}

/**
 * Rows with their times drawn to the end of a bin: at risk in every bin in which they were at risk at all. A share back by the end of a bin
 * counts the same events as by days; whoever left within the bin counts as at risk in all of it.
 *
 * @throws ArgumentError for ends that do not ascend, a time after the last, and as riskSetTable
 * @example
 * binnedRows({ times: [3, 8, 14], causes: [1, 1, 0] }, { ends: [7, 14] }).times // => [7, 14, 14]
 */
export function binnedRows(columns: TableRows, options: BinOptions): TableRows {
  checkRows(columns);
  const ends = checkedEnds(options);
  checkCovered(columns.times, ends);
  return {
    ...columns,
    times: Float64Array.from(columns.times, (time) => endFor(ends, time)),
    ...(columns.entries && { entries: Float64Array.from(columns.entries, (entry) => entryFor(ends, entry)) }),
  };
}

/**
 * The table in coarser bins. Where the ends are among those of the table, it is the table of the rows in these bins.
 *
 * @throws ArgumentError as binnedRows, and for what is no table
 */
export function coarserTable(table: RiskSetTable, options: BinOptions): SortedTable {
  checkRiskSetTable(table);
  const ends = checkedEnds(options);
  checkCovered(table.times, ends);
  const { times, entered } = table;
  const none = new Float64Array(times.length);
  const leaving = { ...table, times: Float64Array.from(times, (time) => endFor(ends, time)), entered: none };
  const coming = {
    ...table,
    times: Float64Array.from(times, (time) => entryFor(ends, time)),
    entered,
    censored: none,
    events: table.events.map(() => none),
  };
  return tally(joined([leaving, coming]));
}
