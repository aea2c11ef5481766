import { assertAccountBalances } from "../schema/accounting.js";
import type { DateOrder } from "../schema/cells/read-date.js";
import type { ReadCohort } from "../schema/cohort-tables.js";
import type { DataQuery } from "../schema/data-query.js";
import type { IsoDate } from "../schema/dates.js";
import { queryList } from "../schema/query-list.js";
import { StopError } from "../schema/stop-error.js";
import { type Table, type TableName, tables } from "../schema/tables.js";
import { questionsAboutFiles } from "./check-files.js";
import { readLinkedTables } from "./read-linked-tables.js";
import { readSingleSheet } from "./read-single-sheet.js";
import { type ReadFile, readTable } from "./read-table.js";
import { type LinkContext, linkRows } from "./rules/link-rule.js";
import { linkRules } from "./rules/link-rules.js";
import type { SourceFile } from "./source-file.js";

export interface ReadOptions {
  /** The day on which the data were closed: later dates set a row aside. Null when not stated. */
  readonly closedOn: IsoDate | null;
  /** Distance above which the study calls a rupture complete, mm. */
  readonly thresholdMm: number;
  /** Which comes first in dates that do not put the year first; by default only YYYY-MM-DD is taken. */
  readonly dateOrder?: DateOrder;
  /** Whether all dates lie on one calendar (the default), or each person has one of their own. */
  readonly calendar?: LinkContext["calendar"];
}

/**
 * Files to the typed tables of a cohort, with the account of every row and every doubt.
 *
 * Each file is read, its cells typed, each row held against itself, then the tables against each other. What is
 * wrong beyond doubt sets a row aside, and with an injury the rows that name it; what is odd is asked and used.
 * Rows read = rows used + rows set aside, for every file, or the run stops.
 *
 * @param sources the linked tables (injuries needed), or one single sheet
 * @throws StopError with every reason at once, when a file cannot be read at all
 */
export function readCohort(
  sources: readonly SourceFile[],
  { closedOn, thresholdMm, dateOrder = "year-first", calendar = "common" }: ReadOptions,
): ReadCohort {
  const files = readFiles(sources);
  const queries = queryList();
  const context = { closedOn, dateOrder };
  const sheet = files.get("single_sheet");
  const { accounts, tables: used } =
    sheet === undefined
      ? readLinkedTables(files, { context, queries })
      : readSingleSheet(sheet, { context, queries });
  const linked = linkRows(used);
  for (const rule of linkRules) {
    for (const query of rule(linked, { thresholdMm, calendar })) queries.add(query);
  }
  for (const account of accounts) assertAccountBalances(account);
  return { tables: used, accounts, queries: queries.all() };
}

function readFiles(sources: readonly SourceFile[]): ReadonlyMap<TableName, ReadFile> {
  const stops: DataQuery[] = [...questionsAboutFiles(sources)];
  const files = new Map<TableName, ReadFile>();
  for (const source of sources) {
    const read = readTable(source, tables[source.table] as Table);
    stops.push(...read.queries.filter(({ severity }) => severity === "stop"));
    files.set(source.table, { file: source.file, read });
  }
  if (stops.length > 0) throw new StopError(stops);
  return files;
}
