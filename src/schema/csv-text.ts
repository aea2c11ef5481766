import Papa from "papaparse";
import { visibleText } from "./hidden-characters.js";

export type CsvCell = string | number | null;

/** What a spreadsheet may skip before it looks for a formula: white space, control characters, quotation marks. */
const skipped = '[\\s"\\u0000-\\u001f\\u200b-\\u200f\\u2060]*';
/** Where a cell can begin: at its start, and within it where a spreadsheet set to another separator would split it. */
const begins = `((?:^|[;\\t|\\r\\n])${skipped})`;
/** What begins a formula, in full-width letters too. */
const formula = "(?=[=+\\-@\\uff1d\\uff0b\\uff0d\\uff20])";
const unguarded = new RegExp(`${begins}(?='*${formula})`, "gu");
const guarded = new RegExp(`${begins}'(?='*${formula})`, "gu");
const mayBeFormula = /[=+\-@\uff1d\uff0b\uff0d\uff20]/;
const plainNumber = /^-?\d+(\.\d+)?([eE][+-]?\d+)?$/;

/**
 * CSV text that is safe to open in a spreadsheet, whichever separator it is set to: UTF-8, commas, LF, a header line,
 * blank for null, characters that cannot be seen written out, and an apostrophe wherever a cell, or a part of one, would
 * start a formula. Numbers stay as they are.
 * `withoutGuards` takes the apostrophes away again.
 */
export function csvText(columns: readonly string[], rows: Iterable<readonly CsvCell[]>): string {
  const lines = [[...columns], ...rows].map((row) => row.map(safeCell));
  return `${Papa.unparse(lines, { newline: "\n", header: false })}\n`;
}

function safeCell(cell: CsvCell): string {
  if (cell === null) return "";
  const text = visibleText(String(cell).replaceAll("\r\n", "\n"));
  return mayBeFormula.test(text) && !plainNumber.test(text) ? text.replaceAll(unguarded, "$1'") : text;
}

/** The text of a cell as it was before our own CSV put apostrophes before what would start a formula. */
export const withoutGuards = (text: string): string =>
  text.includes("'") && mayBeFormula.test(text) ? text.replaceAll(guarded, "$1") : text;
