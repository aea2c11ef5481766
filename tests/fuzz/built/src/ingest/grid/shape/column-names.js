import { columnLetters } from "../column-letters.js";
import { isBlankCell } from "../grid.js";
const tidied = (cell) => cell.trim().replaceAll(/\s+/g, " ");
/**
 * The columns that have a name or hold anything. Names of several rows are joined (`TPD / rest`); a name of a group
 * goes for the blank cells to its right, in a workbook with joined cells only for those it is joined with. A column
 * without a name is called by its letters (`column F`); a name that comes again is numbered (`rest (2)`).
 */
export function columnsOf(headers, { records, units, merged, }) {
    const labels = headers.map((row, place) => {
        const isLast = place === headers.length - 1;
        const isJoined = merged.some(({ firstRow, firstColumn, lastColumn }) => firstRow === row.row && lastColumn > firstColumn);
        const below = headers[place + 1]?.cells ?? [];
        return isLast || isJoined ? row.cells.map(tidied) : carriedRight(row.cells.map(tidied), below);
    });
    const used = new Map();
    return placesInUse(headers, records).map((place) => {
        const parts = labels
            .map((row) => row[place] ?? "")
            .filter((part, at, all) => part !== "" && part !== all[at - 1]);
        const name = parts.length === 0 ? `column ${columnLetters(place)}` : parts.join(" / ");
        const times = (used.get(name) ?? 0) + 1;
        used.set(name, times);
        const unit = tidied(units?.cells[place] ?? "");
        return { name: times === 1 ? name : `${name} (${times})`, place, unit: unit === "" ? null : unit };
    });
}
function carriedRight(cells, below) {
    let group = "";
    return Array.from({ length: Math.max(cells.length, below.length) }, (_, place) => {
        const cell = cells[place] ?? "";
        if (cell !== "")
            group = cell;
        return isBlankCell(below[place] ?? "") ? cell : group;
    });
}
function placesInUse(headers, records) {
    const used = new Set();
    for (const { cells } of [...headers, ...records]) {
        for (const [place, cell] of cells.entries())
            if (!isBlankCell(cell))
                used.add(place);
    }
    return [...used].sort((one, other) => one - other);
}
