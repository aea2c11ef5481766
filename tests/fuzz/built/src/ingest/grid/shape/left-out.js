import { isBlankCell } from "../grid.js";
import { looksLikeDay, looksLikeNote, looksLikeTotal, looksLikeUnit } from "./cell-looks.js";
const filledIn = (cells) => cells.map((cell) => cell.trim()).filter((cell) => cell !== "");
const compared = (cell) => cell.trim().toLowerCase().replaceAll(/\s+/g, " ");
/** A row that says the units or forms of the columns: nothing else, in two cells or beside a blank first one. */
export function isUnitsRow({ cells }) {
    const filled = filledIn(cells);
    const enough = filled.length >= 2 || (filled.length === 1 && isBlankCell(cells[0] ?? ""));
    return enough && filled.every(looksLikeUnit);
}
/** Whether a row of the body repeats a row of the header, cell for cell. */
export function repeatsHeader({ cells }, headers) {
    const filled = cells.flatMap((cell, place) => (isBlankCell(cell) ? [] : [[cell, place]]));
    if (filled.length < 2)
        return false;
    return headers.some((header) => {
        const same = filled.filter(([cell, place]) => compared(cell) === compared(header.cells[place] ?? ""));
        return same.length >= Math.ceil(filled.length * repeated);
    });
}
/** Share of the cells that must be the same. */
const repeated = 0.8;
/** Share of the columns that a row of totals fills at most. */
const totalsFill = 0.8;
/** A row that begins with a word for a total, has no dates, and leaves columns blank. */
export function isTotalsRow({ cells }, columns) {
    const filled = filledIn(cells);
    const first = filled[0] ?? "";
    return looksLikeTotal(first) && filled.length <= columns * totalsFill && !filled.some(looksLikeDay);
}
/** How many of the rows at the end are notes below the table: one cell of words, or a mark and what it means. */
export function notesAtEnd(rows, columns) {
    if (columns < 3)
        return 0;
    const place = rows.findLastIndex((row) => !isNote(row));
    return rows.length - 1 - place;
}
function isNote({ cells }) {
    const filled = filledIn(cells);
    const first = filled[0] ?? "";
    if (filled.length === 1)
        return looksLikeNote(first) && !looksLikeTotal(first);
    return filled.length === 2 && /^[*†‡§]+\)?$/u.test(first);
}
