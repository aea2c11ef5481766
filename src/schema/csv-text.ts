import Papa from "papaparse";
import { visibleText } from "./hidden-characters.js";

export type CsvCell = string | number | null;

/** A cell that a spreadsheet would take for a formula, in full-width letters too; a plain negative number is left alone. */
const startsFormula = /^[=+\-@\t\r\n\uff1d\uff0b\uff0d\uff20]/;
const plainNumber = /^-?\d+(\.\d+)?([eE][+-]?\d+)?$/;

/**
 * CSV text that is safe to open in a spreadsheet: UTF-8, commas, LF, a header line, blank for null,
 * an apostrophe before any cell that would start a formula, and characters that cannot be seen written out.
 */
export function csvText(columns: readonly string[], rows: Iterable<readonly CsvCell[]>): string {
  const lines = [[...columns], ...rows].map((row) => row.map(safeCell));
  return `${Papa.unparse(lines, { newline: "\n", header: false })}\n`;
}

function safeCell(cell: CsvCell): string {
  if (cell === null) return "";
  const text = visibleText(String(cell).replaceAll("\r\n", "\n"));
  return startsFormula.test(text) && !plainNumber.test(text) ? `'${text}` : text;
}
