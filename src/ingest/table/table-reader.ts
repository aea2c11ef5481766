import Papa from "papaparse";
import type { DataQuery } from "../../schema/data-query.js";
import type { Table } from "../../schema/tables.js";
import { type AskAboutFile, askAboutQuote } from "../text/ask-about-file.js";
import { delimiterLine } from "../text/delimiter-line.js";
import { evenLineEnds } from "../text/line-ends.js";
import { askAboutRows, type RowLimit } from "../text/most-rows.js";
import { wholeRows } from "../text/whole-rows.js";
import { type Columns, holdsHeader, type OpenedTable, openTable } from "./open-table.js";

/** Takes what a table reader finds. */
export interface RowTaker {
  /** Called once, before the first row. */
  readonly open: (columns: Columns) => void;
  /** A row that fits the header. */
  readonly take: (entries: readonly string[], row: number) => void;
  /** A row that does not fit the header: it is set aside. */
  readonly setAside: (
    query: DataQuery,
    at: { readonly entries: readonly string[]; readonly row: number },
  ) => void;
}

interface TableReaderOptions extends RowLimit {
  readonly ask: AskAboutFile;
  readonly rows: RowTaker;
}

/** Reads the text of a table block by block. */
export interface TableReader {
  /** The next block; blocks may end anywhere. */
  readonly read: (text: string) => void;
  /** Says that all text was given. @returns how many rows were read; those set aside count, blank rows do not */
  readonly finish: () => number;
}

/** The header is looked for in so much text, or in more where it is longer. */
const beginning = 65_536;

/** A row may hold so many characters. */
const longestRow = 20_000_000;

/** Tables that may have a header and no rows: nobody was treated, imaged or seen. */
const mayBeWithoutRows: ReadonlySet<string> = new Set(["treatments", "imaging", "visits", "sites"]);

/**
 * A reader of one table in delimited text, however the text is cut into blocks; what the cells mean is decided later.
 *
 * The delimiter is the one of comma, semicolon, tab and | that gives most known column names. Rows are numbered as a
 * spreadsheet shows them: a line break within a quoted cell does not begin a row, blank rows count and are skipped.
 * Where the table cannot be read, a query of severity `stop` is asked and the rows given so far are void.
 *
 * @param options most: with more rows the table counts as one that cannot be read; by default there may be any number
 */
export function tableReader(
  table: Table,
  { ask, rows, most = Number.POSITIVE_INFINITY }: TableReaderOptions,
): TableReader {
  let text = "";
  let opened: OpenedTable | null = null;
  let stopped = false;
  let row = 0;
  let count = 0;

  const open = (): void => {
    text = text.replace(delimiterLine, "");
    opened = openTable(text, { table, ask });
    if (opened === null) stopped = true;
    else rows.open(opened.columns);
  };

  const readRows = (block: string, { header, headerRow, columns }: OpenedTable): void => {
    const even = evenLineEnds(block, header.delimiter);
    if ("openedInRow" in even) {
      askAboutQuote(even, { ask, above: row });
      stopped = true;
      return;
    }
    parseRows(even.text, { header, headerRow, columns });
  };

  /** Rows that all end in LF, with every quotation mark closed. */
  const parseRows = (lines: string, { header, headerRow, columns }: OpenedTable): void => {
    if (lines === "") return;
    const sort = rowSorter({ columns, width: header.names.length, table, ask, rows });
    // a line end at the end of a block ends its last row and does not begin another
    const ended = lines.endsWith("\n") ? lines.slice(0, -1) : lines;
    // no text at all is no row to the parser
    if (ended === "") {
      row += 1;
      return;
    }
    // row by row: an array of all rows would outlive the young garbage and cost more than the parsing
    Papa.parse<string[]>(ended, {
      delimiter: header.delimiter,
      newline: "\n",
      step: ({ data: entries }, parser) => {
        row += 1;
        if (row <= headerRow || entries.every(isBlank)) return;
        count += 1;
        if (count > most) {
          askAboutRows(ask, { most, soFar: count, table: table.name });
          stopped = true;
          parser.abort();
          return;
        }
        sort(entries, row);
      },
    });
  };

  /** A row that has not ended after so much text never will. */
  const askAboutEndlessRow = (): void => {
    ask({ code: "row-without-end", severity: "stop", row: row + 1, facts: { longest: longestRow } });
    stopped = true;
  };

  const read = (block: string): void => {
    if (stopped) return;
    // a row that goes on and on is put together without looking through it each time
    const mayEndRow = /[\r\n"]/.test(block);
    text += block;
    const isReady = mayEndRow && (opened !== null || (text.length >= beginning && holdsHeader(text)));
    if (!isReady) {
      if (text.length > longestRow) askAboutEndlessRow();
      return;
    }
    if (opened === null) open();
    if (opened === null) return;
    const { end, isBalanced } = wholeRows(text, opened.header.delimiter);
    const whole = text.slice(0, end);
    text = text.slice(end);
    const isPlain = isBalanced && !["\r", ' "', '" '].some((odd) => whole.includes(odd));
    if (isPlain) parseRows(whole, opened);
    else readRows(whole, opened);
    if (!stopped && text.length > longestRow) askAboutEndlessRow();
  };

  const finish = (): number => {
    if (opened === null && !stopped) open();
    if (opened !== null && !stopped && text !== "") readRows(text, opened);
    if (stopped) return 0;
    if (count === 0) {
      ask({ code: "file-header-only", severity: mayBeWithoutRows.has(table.name) ? "look-at" : "stop" });
    }
    return count;
  };

  return { read, finish };
}

/** Hands on the rows that fit the header; those with more entries than columns are set aside. */
function rowSorter({
  columns,
  width,
  table,
  ask,
  rows,
}: {
  readonly columns: Columns;
  readonly width: number;
  readonly table: Table;
  readonly ask: AskAboutFile;
  readonly rows: RowTaker;
}): (entries: readonly string[], row: number) => void {
  const required = new Set(table.fields.filter((field) => field.required).map(({ name }) => name));
  const mustBeFilled = columns.filter(({ name }) => required.has(name));
  return (entries, row) => {
    const surplus = entries.length > width ? entries.slice(width).find((cell) => !isBlank(cell)) : undefined;
    if (surplus !== undefined) {
      const facts = { columns: width };
      const query = ask({ code: "row-too-long", severity: "set-aside", row, found: surplus, facts });
      rows.setAside(query, { entries, row });
      return;
    }
    const missing =
      entries.length < width ? mustBeFilled.find(({ place }) => place >= entries.length)?.name : undefined;
    if (missing !== undefined) ask({ code: "row-too-short", severity: "look-at", row, facts: { missing } });
    rows.take(entries, row);
  };
}

const isBlank = (cell: string): boolean => cell === "" || cell.trim() === "";
