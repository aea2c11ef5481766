import Papa from "papaparse";
import { foundText } from "../schema/ask.js";
import type { CellRow } from "../schema/cells.js";
import type { DataQuery, Severity } from "../schema/data-query.js";
import { queryList } from "../schema/query-list.js";
import type { Table } from "../schema/tables.js";
import { type AskAboutFile, askerAboutFile } from "./ask-about-file.js";
import { type Header, type HeaderFault, headerFurtherDown, matchHeader, readHeader } from "./header.js";
import { evenLineEnds } from "./line-ends.js";
import type { SourceFile } from "./source-file.js";
import { textOfFile } from "./text-of-file.js";

/** The rows of a file as text. Rows read = rows given + rows set aside; blank rows are not rows. */
export interface RowsOfFile {
  readonly read: number;
  readonly rows: readonly CellRow[];
  readonly setAside: readonly { readonly row: number; readonly query: DataQuery }[];
  /** Every doubt; when one of them has the severity `stop`, nothing was read. */
  readonly queries: readonly DataQuery[];
}

/** A file with its rows as text. */
export interface ReadFile {
  readonly file: string;
  readonly read: RowsOfFile;
}

/** Tables that may have a header and no rows: nobody was treated, imaged or seen. */
const mayBeWithoutRows: ReadonlySet<string> = new Set(["treatments", "imaging", "visits", "sites"]);

/**
 * Reads a CSV file into rows of cells by column name; what the cells mean is decided later.
 *
 * The delimiter is the one of comma, semicolon, tab and | that gives most known column names. Rows are numbered as a
 * spreadsheet shows them: a line break within a quoted cell does not begin a row, blank rows count and are skipped.
 * Nothing is thrown for what the file holds: a file that cannot be read gives queries of severity `stop`.
 */
export function readTable(source: Pick<SourceFile, "file" | "bytes">, table: Table): RowsOfFile {
  const queries = queryList();
  const ask = askerAboutFile(source.file, queries);
  const text = textOfFile(source.bytes, ask)?.text ?? null;
  const body = text === null ? null : bodyOf(text, { table, ask });
  const nothing = { read: 0, rows: [], setAside: [] };
  return {
    ...(body === null ? nothing : sortRows(body, { file: source.file, table, ask })),
    queries: queries.all(),
  };
}

/** Everything below the header: cells by place, and where the columns of the table are. */
interface Body {
  readonly header: Header;
  readonly columns: readonly { readonly name: string; readonly place: number }[];
  readonly cells: readonly (readonly string[])[];
  /** Row of the first entry of `cells` as the spreadsheet shows it. */
  readonly firstRow: number;
}

/** A line that tells a spreadsheet the delimiter; it does not count as a row. */
const delimiterLine = /^sep=.(?:\r\n?|\n)/;

function bodyOf(fullText: string, { table, ask }: { table: Table; ask: AskAboutFile }): Body | null {
  const text = fullText.replace(delimiterLine, "");
  const blankRows = /^(?:[ \t,;|]*(?:\r\n?|\n))*/.exec(text.slice(0, 10_000))?.[0] ?? "";
  const rowsAbove = blankRows.split(/\r\n?|\n/).length - 1;
  const header = readHeader(text.slice(blankRows.length), table);
  const columns = columnsOf(header, { text, table, ask });
  if (columns === null) return null;
  const even = evenLineEnds(text, header.delimiter);
  if ("openedInRow" in even) {
    ask({ code: "unbalanced-quote", severity: "stop", row: even.openedInRow });
    return null;
  }
  const parsed = Papa.parse<string[]>(even.text, { delimiter: header.delimiter, newline: "\n" }).data;
  return { header, columns, cells: parsed.slice(rowsAbove + 1), firstRow: rowsAbove + 2 };
}

function columnsOf(
  header: Header,
  { text, table, ask }: { text: string; table: Table; ask: AskAboutFile },
): Body["columns"] | null {
  if (header.known === 0) {
    const headerRow = headerFurtherDown(text, table);
    if (headerRow !== null) {
      ask({ code: "header-not-first", severity: "stop", row: 1, facts: { header_row: headerRow } });
      return null;
    }
    if (header.names.length <= 1) {
      const columns = table.fields.slice(0, 3).map(({ name }) => name);
      ask({
        code: "wrong-delimiter",
        severity: "stop",
        row: 1,
        found: header.names.join(),
        facts: { columns: columns.join(", ") },
      });
      return null;
    }
  }
  const { columns, faults } = matchHeader(header.names, table);
  const severities = faults.map((fault) => askAboutHeader(fault, { table, ask }));
  return severities.includes("stop") ? null : columns;
}

function askAboutHeader(fault: HeaderFault, { table, ask }: { table: Table; ask: AskAboutFile }): Severity {
  const { code, column } = fault;
  const severity = code === "column-unknown" ? "look-at" : "stop";
  const near = "near" in fault && fault.near !== null ? { near: foundText(fault.near) } : {};
  const facts = "place" in fault ? { place: fault.place } : {};
  ask({
    code,
    severity,
    column: column.trim() === "" ? null : column,
    found: column,
    facts: { table: table.name, ...facts, ...near },
  });
  return severity;
}

function sortRows(
  { header, columns, cells, firstRow }: Body,
  { file, table, ask }: { file: string; table: Table; ask: AskAboutFile },
): Pick<RowsOfFile, "read" | "rows" | "setAside"> {
  const rows: CellRow[] = [];
  const setAside: { row: number; query: DataQuery }[] = [];
  const mustBeFilled = columns.filter(({ name }) =>
    table.fields.some((field) => field.name === name && field.required),
  );
  for (const [place, entries] of cells.entries()) {
    if (entries.every(isBlank)) continue;
    const row = firstRow + place;
    const surplus = entries.slice(header.names.length).find((cell) => !isBlank(cell));
    if (surplus !== undefined) {
      const facts = { columns: header.names.length };
      setAside.push({
        row,
        query: ask({ code: "row-too-long", severity: "set-aside", row, found: surplus, facts }),
      });
      continue;
    }
    const missing = mustBeFilled.find((column) => column.place >= entries.length)?.name;
    if (missing !== undefined) ask({ code: "row-too-short", severity: "look-at", row, facts: { missing } });
    rows.push({ file, row, cells: cellsOf(entries, columns) });
  }
  const read = rows.length + setAside.length;
  if (read === 0) {
    ask({ code: "file-header-only", severity: mayBeWithoutRows.has(table.name) ? "look-at" : "stop" });
  }
  return { read, rows, setAside };
}

const isBlank = (cell: string): boolean => cell === "" || cell.trim() === "";

/** Only columns of the table get in, so that no name in a file can reach anything but a cell. */
function cellsOf(entries: readonly string[], columns: Body["columns"]): Record<string, string> {
  const cells: Record<string, string> = {};
  for (const { name, place } of columns) cells[name] = entries[place] ?? "";
  return cells;
}
