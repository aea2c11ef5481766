import { columnsOf } from "./column-names.js";
import { headerPlaces } from "./header-rows.js";
import { isTotalsRow, isUnitsRow, notesAtEnd, repeatsHeader } from "./left-out.js";
import { spreadMerged } from "./spread-merged.js";
/**
 * Takes a sheet apart: rows before the header, the header (of up to three rows), a row of units, the records, and
 * among them headers that come again, totals, and notes below the table. A pure function of the grid; what the columns
 * mean is not looked at.
 *
 * @returns null where no row looks like a header, or none of the stated rows is there
 */
export function shapeSheet(grid, { headerRows } = {}) {
    const seen = spreadMerged(grid.rows, { merged: grid.merged, direction: "all" }).rows;
    const places = headerRows === undefined
        ? headerPlaces(grid.rows, seen)
        : grid.rows.flatMap(({ row }, place) => (headerRows.includes(row) ? [place] : []));
    const [first, last] = [places[0], places.at(-1)];
    if (first === undefined || last === undefined)
        return null;
    const headers = places.map((place) => seen[place]);
    const asWritten = places.map((place) => grid.rows[place]);
    const body = grid.rows.slice(last + 1);
    const units = body[0] !== undefined && isUnitsRow(body[0]) ? body[0] : null;
    const width = Math.max(...headers.map(({ cells }) => cells.filter((cell) => cell.trim() !== "").length));
    const rest = units === null ? body : body.slice(1);
    const sorted = sortBody(rest, { headers: [...headers, ...asWritten], width });
    const { rows: records, used: joined } = spreadMerged(sorted.records, {
        merged: grid.merged,
        direction: "down",
    });
    const above = grid.rows.slice(0, last).filter((_, place) => !places.includes(place));
    return {
        file: grid.file,
        sheet: grid.sheet,
        headerRows: asWritten.map(({ row }) => row),
        columns: columnsOf(headers, { records, units, merged: grid.merged }),
        records,
        leftOut: [
            ...above.map(({ row }) => ({ row, kind: "preamble" })),
            ...asWritten.map(({ row }) => ({ row, kind: "header" })),
            ...(units === null ? [] : [{ row: units.row, kind: "units" }]),
            ...sorted.leftOut,
        ],
        joined,
    };
}
function sortBody(rows, { headers, width }) {
    const notes = notesAtEnd(rows, width);
    const records = [];
    const leftOut = [];
    for (const row of rows.slice(0, rows.length - notes)) {
        if (repeatsHeader(row, headers))
            leftOut.push({ row: row.row, kind: "header" });
        else if (isTotalsRow(row, width))
            leftOut.push({ row: row.row, kind: "totals" });
        else
            records.push(row);
    }
    for (const { row } of rows.slice(rows.length - notes))
        leftOut.push({ row, kind: "footnote" });
    return { records, leftOut };
}
