import Papa from "papaparse";

export type CsvCell = string | number | null;

/** A cell that a spreadsheet would take for a formula, in full-width letters too; a plain negative number is left alone. */
const startsFormula = /^[=+\-@\t\r\n\uff1d\uff0b\uff0d\uff20]/;
const plainNumber = /^-?\d+(\.\d+)?([eE][+-]?\d+)?$/;

/**
 * CSV text that is safe to open in a spreadsheet: UTF-8, commas, LF, a header line, blank for null,
 * and an apostrophe before any cell that would start a formula.
 */
export function csvText(columns: readonly string[], rows: Iterable<readonly CsvCell[]>): string {
  const lines = [[...columns], ...rows].map((row) => row.map(safeCell));
  return `${Papa.unparse(lines, { newline: "\n", header: false })}\n`;
}

function safeCell(cell: CsvCell): string {
  if (cell === null) return "";
  const text = String(cell);
  return startsFormula.test(text) && !plainNumber.test(text) ? `'${text}` : text;
}
