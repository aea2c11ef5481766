import { ArgumentError, checkColumn, checkSameLength, type Kind } from "../shared/arguments.js";
import { rowsByIndex } from "../shared/clusters.js";
import { indexOfCodes } from "../shared/codes.js";
import { checkColumnNames, type NamesOf } from "../shared/options.js";
import { checkEntries, checkOptional } from "../shared/time-to-event.js";

/**
 * One row a stay in a state, as far as it was followed; a subject that moved on has one row a state. All columns are as long as `times`.
 *
 * - `times`: when the subject moved on or was last followed in this row, 0 or more. Ties are exact comparisons.
 * - `from`: number of the state that the subject is in during the row, 0 or more
 * - `to`: number of the state into which it moved at that time; the same as `from` where it did not move
 * - `subjects`: whole numbers; rows with the same number are one subject's, and follow each other in time
 * - `entries`: the row is at risk on (entry, time]. Left out: from the start, time 0 included, and each subject has one row.
 * - `clusters`: whole numbers; subjects with the same number belong together (fingers of one person). Left out: each subject by itself.
 */
export interface StateRows {
  readonly times: ArrayLike<number>;
  readonly from: ArrayLike<number>;
  readonly to: ArrayLike<number>;
  readonly subjects: ArrayLike<number>;
  readonly entries?: ArrayLike<number>;
  readonly clusters?: ArrayLike<number>;
}

export const stateRowsNames: NamesOf<StateRows> = {
  times: true,
  from: true,
  to: true,
  subjects: true,
  entries: true,
  clusters: true,
};

const neededColumns: readonly (readonly ["from" | "to" | "subjects", Kind])[] = [
  ["from", "count"],
  ["to", "count"],
  ["subjects", "code"],
];

/** @throws ArgumentError naming the column and the first index at fault, rows of a subject that do not follow each other included */
export function checkStateRows(columns: StateRows): void {
  checkColumnNames(stateRowsNames, { columns });
  const times = { name: "times", values: columns.times };
  for (const [name, kind] of neededColumns) {
    const column = { name, values: columns[name] };
    checkSameLength(column, times);
    checkColumn(column, kind);
  }
  checkColumn(times, "not negative");
  checkEntries(columns);
  checkOptional({ name: "clusters", values: columns.clusters, kind: "code" }, columns.times);
  checkHistories(columns);
}

/** The rows of each subject in order of time: none begins before the last has ended, nor in another state than it ended in. */
function checkHistories(columns: StateRows): void {
  const subjects = indexOfCodes(columns.subjects);
  const { rows, start } = rowsByIndex(subjects.index, subjects.codes.length);
  for (let k = 0; k < subjects.codes.length; k++) {
    if (start[k + 1]! - start[k]! < 2) continue;
    const own = rows.slice(start[k], start[k + 1]).sort((a, b) => columns.times[a]! - columns.times[b]!);
    for (let i = 1; i < own.length; i++) checkFollows(columns, { before: own[i - 1]!, row: own[i]! });
  }
}

function checkFollows(columns: StateRows, at: { readonly before: number; readonly row: number }): void {
  const { before, row } = at;
  const { times, entries, from, to, clusters } = columns;
  const fault = (argument: string, expected: string, found: unknown): ArgumentError =>
    new ArgumentError({ argument, index: row, expected, found });
  const ended = times[before]!;
  if (entries === undefined)
    throw fault(
      "subjects",
      "a subject of its own, as without entries each has one row",
      columns.subjects[row],
    );
  const entry = entries[row]!;
  if (entry < ended)
    throw fault("entries", `${ended} or later, when row ${before} of the same subject ended`, entry);
  if (entry === ended && from[row] !== to[before])
    throw fault(
      "from",
      `${to[before]}, the state in which row ${before} of the same subject ended`,
      from[row],
    );
  if (clusters !== undefined && clusters[row] !== clusters[before])
    throw fault("clusters", `${clusters[before]}, as in row ${before} of the same subject`, clusters[row]);
}
