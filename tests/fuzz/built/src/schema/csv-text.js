import Papa from "papaparse";
/** A cell that a spreadsheet would take for a formula; a plain negative number is left alone. */
const startsFormula = /^[=+\-@\t\r]/;
const plainNumber = /^-?\d+(\.\d+)?([eE][+-]?\d+)?$/;
/**
 * CSV text that is safe to open in a spreadsheet: UTF-8, commas, LF, a header line, blank for null,
 * and an apostrophe before any cell that would start a formula.
 */
export function csvText(columns, rows) {
    const lines = [[...columns], ...rows].map((row) => row.map(safeCell));
    return `${Papa.unparse(lines, { newline: "\n", header: false })}\n`;
}
function safeCell(cell) {
    if (cell === null)
        return "";
    const text = String(cell);
    return startsFormula.test(text) && !plainNumber.test(text) ? `'${text}` : text;
}
