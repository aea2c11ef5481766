import type { CellRow } from "../../schema/cells.js";
import { type Keep, type QueryList, queryList } from "../../schema/query-list.js";
import type { Table } from "../../schema/tables.js";
import { askerAboutFile } from "../text/ask-about-file.js";
import { mostRows, type RowLimit } from "../text/most-rows.js";
import { noRows, type RowsOfFile } from "../text/rows-of-file.js";
import type { SourceFile } from "../text/source-file.js";
import { textOfFile } from "../text/text-of-file.js";
import type { Columns } from "./open-table.js";
import { tableReader } from "./table-reader.js";

/** Characters taken at a time, so that what a parser holds besides the rows stays small. */
const block = 1_000_000;

/**
 * Reads a CSV file into rows of cells by column name; what the cells mean is decided later.
 * Nothing is thrown for what the file holds: a file that cannot be read gives queries of severity `stop`.
 */
export function readTable(
  { file, bytes }: Pick<SourceFile, "file" | "bytes">,
  table: Table,
  { keep = "some", most }: { readonly keep?: Keep } & RowLimit = {},
): RowsOfFile {
  const queries = queryList(keep);
  const text = textOfFile(bytes, askerAboutFile(file, queries))?.text ?? null;
  return text === null
    ? noRows(queries.all())
    : rowsOfText(text, table, { file, queries, ...(most === undefined ? {} : { most }) });
}

/** The rows of a table from its delimited text; queries go to those that are there already. */
export function rowsOfText(
  text: string,
  table: Table,
  { file, queries, most = mostRows }: { readonly file: string; readonly queries: QueryList } & RowLimit,
): RowsOfFile {
  const ask = askerAboutFile(file, queries);
  const rows: CellRow[] = [];
  const setAside: RowsOfFile["setAside"][number][] = [];
  let cellsOf = cellsBy([]);
  const reader = tableReader(table, {
    ask,
    most,
    rows: {
      open: (found) => {
        cellsOf = cellsBy(found);
      },
      take: (entries, row) => rows.push({ file, row, cells: cellsOf(entries) }),
      setAside: (query, { entries, row }) => setAside.push({ row, query, cells: cellsOf(entries) }),
    },
  });
  for (let from = 0; from < text.length; from += block) reader.read(text.slice(from, from + block));
  const read = reader.finish();
  const found = queries.all();
  const isStopped = found.some(({ severity }) => severity === "stop");
  return isStopped ? noRows(found) : { read, rows, setAside, queries: found };
}

/** Only columns of the table get in, so that no name in a file can reach anything but a cell. */
function cellsBy(columns: Columns): (entries: readonly string[]) => Record<string, string> {
  // a row is a filled copy of one that has all columns: to grow each row column by column takes longer
  const noCells: Readonly<Record<string, string>> = Object.fromEntries(columns.map(({ name }) => [name, ""]));
  const places = columns.map(({ name, place }) => ({ name, place, shared: sharedTexts() }));
  return (entries) => {
    const cells = { ...noCells };
    for (const { name, place, shared } of places) {
      const text = entries[place] ?? "";
      cells[name] = text === "" ? text : shared(text);
    }
    return cells;
  };
}

/** A column with more different texts than this is one of names or remarks, which do not repeat. */
const mostShared = 5_000;

/** Gives equal texts of a column as one: most columns hold few different ones, and a large file many rows. */
function sharedTexts(): (text: string) => string {
  let known: Map<string, string> | null = new Map();
  return (text) => {
    if (known === null) return text;
    const before = known.get(text);
    if (before !== undefined) return before;
    if (known.size === mostShared) known = null;
    else known.set(text, text);
    return text;
  };
}
