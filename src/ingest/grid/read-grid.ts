import Papa from "papaparse";
import { queryList } from "../../schema/query-list.js";
import { type AskAboutFile, askAboutQuote, askerAboutFile } from "../text/ask-about-file.js";
import { evenLineEnds } from "../text/line-ends.js";
import type { SourceFile } from "../text/source-file.js";
import { textOfFile } from "../text/text-of-file.js";
import { delimiterByEvidence, takeDelimiterLine } from "./delimiter.js";
import { type Grid, type GridRead, type GridRow, isBlankCell } from "./grid.js";

/**
 * Reads delimited text of any columns into a grid.
 *
 * The delimiter of comma, semicolon, tab and | is the one that gives even rows, or the one that a line `sep=;` names.
 * Encodings: UTF-8, UTF-16 (with or without byte order mark), else Windows-1252, which is mentioned. Line ends: LF,
 * CR LF, CR; within quotation marks they belong to the cell (RFC 4180). Rows are numbered as a spreadsheet shows them.
 * Nothing is thrown for what the file holds: a file that cannot be read gives queries of severity `stop`.
 */
export function readGrid({ file, bytes }: Pick<SourceFile, "file" | "bytes">): GridRead {
  const queries = queryList();
  const grid = gridOf(bytes, { file, ask: askerAboutFile(file, queries) });
  return { grid, queries: queries.all() };
}

function gridOf(bytes: Uint8Array, { file, ask }: { file: string; ask: AskAboutFile }): Grid | null {
  const read = textOfFile(bytes, ask);
  if (read === null) return null;
  const { text, stated } = takeDelimiterLine(read.text);
  const delimiter = stated ?? delimiterByEvidence(text);
  const even = evenLineEnds(text, delimiter);
  if ("openedInRow" in even) {
    askAboutQuote(even, { ask });
    return null;
  }
  const { data } = Papa.parse<string[]>(even.text, { delimiter, newline: "\n" });
  return {
    file,
    sheet: null,
    rows: rowsOf(data),
    hiddenColumns: [],
    merged: [],
    format: { kind: "delimited", delimiter, encoding: read.encoding },
  };
}

function rowsOf(data: readonly (readonly string[])[]): readonly GridRow[] {
  const rows: GridRow[] = [];
  for (const [place, cells] of data.entries()) {
    if (!cells.every(isBlankCell)) rows.push({ row: place + 1, cells, isHidden: false });
  }
  return rows;
}
