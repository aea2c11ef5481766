import { type Keep, queryList } from "../../schema/query-list.js";
import { type Table, tables } from "../../schema/tables.js";
import { gridText } from "../grid/grid-text.js";
import { readWorkbook } from "../grid/read-workbook.js";
import { mentionJoined } from "../grid/shape/mention-joined.js";
import { spreadMerged } from "../grid/shape/spread-merged.js";
import { looksLikeWorkbook } from "../grid/workbook/open-archive.js";
import { askerAboutFile } from "../text/ask-about-file.js";
import { noRows } from "../text/rows-of-file.js";
import type { CohortSource, ReadSource, SourceFile } from "../text/source-file.js";
import { rowsOfText } from "./read-table.js";

export interface OpenOptions {
  /** Sheet of the workbook; by default the first that holds anything. */
  readonly sheet?: string | null;
  /** Whether more than 200 alike queries are kept one by one. */
  readonly keep?: Keep;
}

/**
 * Opens a file whose columns are ours: a workbook (.xlsx, told by its first bytes) is read here, since that cannot be
 * done in one go; any other file is handed on as it is. The columns of a workbook are matched, and its rows accounted
 * for, just as those of a CSV file.
 *
 * @returns the rows of the workbook, under the name of the file and of the sheet if that was named
 */
export async function openSource(
  source: SourceFile,
  { sheet = null, keep = "some" }: OpenOptions = {},
): Promise<CohortSource> {
  return looksLikeWorkbook(source.bytes) ? readFromWorkbook(source, { sheet, keep }) : source;
}

async function readFromWorkbook(
  { table, file, bytes }: SourceFile,
  { sheet, keep }: Required<OpenOptions>,
): Promise<ReadSource> {
  const named = sheet === null ? file : `${file} [${sheet}]`;
  const { grid, queries: ofWorkbook } = await readWorkbook({ file: named, bytes }, { sheet });
  if (grid === null) return { table, file: named, read: noRows(ofWorkbook) };
  const queries = queryList(keep);
  for (const query of ofWorkbook) queries.add(query);
  // below the header, which is one row where the columns are ours
  const { rows, used } = spreadMerged(grid.rows.slice(1), { merged: grid.merged, direction: "down" });
  mentionJoined(used, askerAboutFile(named, queries));
  return {
    table,
    file: named,
    read: rowsOfText(gridText({ rows: [...grid.rows.slice(0, 1), ...rows] }), tables[table] as Table, {
      file: named,
      queries,
    }),
  };
}
