import type { CellRow } from "../../schema/cells.js";
import type { DataQuery } from "../../schema/data-query.js";
import { tables } from "../../schema/tables.js";
import { visitSheet } from "../../schema/visit-sheet.js";
import type { Files, FileWords, ReadFile, RowsOfFile } from "../text/rows-of-file.js";
import type { NamedQuery } from "./register.js";

/** What answers do to the files on their way in: the files themselves are never changed. */
export interface Amendments {
  /** New text of cells, by file, row and column. */
  readonly cells: Map<string, string>;
  /** Rows that are set aside, by file and row, with the query that was answered so. */
  readonly leftOut: Map<string, DataQuery>;
}

export const noAmendments = (): Amendments => ({ cells: new Map(), leftOut: new Map() });

/** The row that a query is about, as a key; null for a query about a whole file. */
export const rowKey = ({ file, row }: Pick<DataQuery, "file" | "row">): string | null =>
  row === null ? null : JSON.stringify([file, row]);

/** The cell that a query is about, as a key; null where it is not about one cell of the table. */
export function cellKey({ query, table }: Pick<NamedQuery, "query" | "table">): string | null {
  const { file, row, column, found } = query;
  if (row === null || column === null || found === null) return null;
  const known = [...Object.values(tables), visitSheet].filter(({ name }) => name === table);
  if (!known.some(({ fields }) => fields.some(({ name }) => name === column))) return null;
  return cellName({ file, row, column });
}

const cellName = ({ file, row, column }: Pick<DataQuery, "file" | "row" | "column">): string =>
  JSON.stringify([file, row, column]);

/** The files as the answers have them: cells changed before they are typed, rows set aside with their reason. */
export function amended(files: Files, { cells, leftOut }: Amendments): Files {
  if (cells.size === 0 && leftOut.size === 0) return files;
  return new Map([...files].map(([table, file]) => [table, amendedFile(file, { cells, leftOut })] as const));
}

function amendedFile({ file, read }: ReadFile, { cells, leftOut }: Amendments): ReadFile {
  const changed = byRow(cells);
  const rows: CellRow[] = [];
  const setAside = read.setAside.map((entry) => {
    const answered = leftOut.get(rowKey({ file, row: entry.row })!);
    return answered === undefined ? entry : { row: entry.row, query: leftOutBy(answered) };
  });
  const out: CellRow[] = [];
  for (const row of read.rows) {
    const key = rowKey(row)!;
    const answered = leftOut.get(key);
    if (answered !== undefined) {
      setAside.push({ row: row.row, query: leftOutBy(answered) });
      out.push(row);
      continue;
    }
    const answer = changed.get(key);
    rows.push(answer === undefined ? row : withAnswers(row, { answer, read }));
  }
  const words = read.words && { ...read.words, asWritten: asWrittenAnew(read.words, cells) };
  const amendedRows: RowsOfFile = { ...read, rows, setAside, ...(words && { words }) };
  return { file, read: amendedRows, leftOut: out };
}

/** A query about a cell that an answer has changed is about the new text, not about what stands in the file. */
function asWrittenAnew({ asWritten }: FileWords, cells: Amendments["cells"]): FileWords["asWritten"] {
  return (query) => {
    const written = asWritten(query);
    const answer = query.found === null ? undefined : cells.get(cellName(query));
    return answer === undefined ? written : { ...query, column: written.column, found: answer };
  };
}

/** A new cell of a file that was translated is in the site's words, like those that stand there. */
function withAnswers(
  row: CellRow,
  { answer, read }: { readonly answer: Readonly<Record<string, string>>; readonly read: RowsOfFile },
): CellRow {
  const cells = Object.entries(answer).map(([column, text]) => [
    column,
    read.words?.inOurText({ column, row: row.row, text }) ?? text,
  ]);
  return { ...row, cells: { ...row.cells, ...Object.fromEntries(cells) } };
}

function byRow(cells: Amendments["cells"]): ReadonlyMap<string, Readonly<Record<string, string>>> {
  const rows = new Map<string, Record<string, string>>();
  for (const [key, text] of cells) {
    const [file, row, column] = JSON.parse(key) as [string, number, string];
    const name = rowKey({ file, row })!;
    rows.set(name, { ...rows.get(name), [column]: text });
  }
  return rows;
}

/** Why a row is set aside that the site wants left out. */
const leftOutBy = ({ file, row, column, code, injury }: DataQuery): DataQuery => ({
  code: "left-out-by-answer",
  severity: "set-aside",
  file,
  row,
  column,
  found: null,
  facts: { rule: code },
  injury,
});
