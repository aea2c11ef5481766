import Papa from "papaparse";
import { queryList } from "../../schema/query-list.js";
import { type AskAboutFile, askAboutQuote, askerAboutFile } from "../text/ask-about-file.js";
import { evenLineEnds } from "../text/line-ends.js";
import { hasTooManyRows, header, mostRows, type RowLimit } from "../text/most-rows.js";
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
export function readGrid(
  { file, bytes }: Pick<SourceFile, "file" | "bytes">,
  { most = mostRows }: RowLimit = {},
): GridRead {
  const queries = queryList();
  const grid = gridOf(bytes, { file, ask: askerAboutFile(file, queries), most });
  return { grid, queries: queries.all() };
}

interface GridOptions {
  readonly file: string;
  readonly ask: AskAboutFile;
  readonly most: number;
}

function gridOf(bytes: Uint8Array, { file, ask, most }: GridOptions): Grid | null {
  const read = textOfFile(bytes, ask);
  if (read === null) return null;
  const { text, stated } = takeDelimiterLine(read.text);
  const delimiter = stated ?? delimiterByEvidence(text);
  const even = evenLineEnds(text, delimiter);
  if ("openedInRow" in even) {
    askAboutQuote(even, { ask });
    return null;
  }
  const rows = rowsOf(even.text, { delimiter, most: most + header });
  if (hasTooManyRows(rows, { most, ask })) return null;
  return {
    file,
    sheet: null,
    rows,
    hiddenColumns: [],
    merged: [],
    format: { kind: "delimited", delimiter, encoding: read.encoding },
  };
}

/** Rows that are not blank, at most one more than are wanted. */
function rowsOf(
  text: string,
  { delimiter, most }: { readonly delimiter: string; readonly most: number },
): readonly GridRow[] {
  const rows: GridRow[] = [];
  let row = 0;
  Papa.parse<string[]>(text, {
    delimiter,
    newline: "\n",
    step: ({ data: cells }, parser) => {
      row += 1;
      if (cells.every(isBlankCell)) return;
      rows.push({ row, cells, isHidden: false });
      if (rows.length > most) parser.abort();
    },
  });
  return rows;
}
