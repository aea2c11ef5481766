/**
 * Rows of the sheet in which each joined area holds its text in every cell of the area, as it is seen. Areas that
 * begin in other rows are left as they are.
 *
 * @param options within: the rows that are concerned; direction: "all" for headers; "down" for records, where a value
 *   written once beside several rows is that of each, but one across several columns is not that of each column
 */
export function spreadMerged(rows, { merged, direction }) {
    if (merged.length === 0)
        return { rows, used: [] };
    const byRow = new Map(rows.map((row) => [row.row, row]));
    const changed = new Map();
    const used = [];
    for (const area of merged) {
        const text = byRow.get(area.firstRow)?.cells[area.firstColumn] ?? "";
        const lastColumn = direction === "all" ? area.lastColumn : area.firstColumn;
        if (text.trim() === "" || (area.lastRow === area.firstRow && lastColumn === area.firstColumn))
            continue;
        used.push(area);
        for (const row of rowsWithin(area, byRow)) {
            const cells = changed.get(row.row) ?? [...row.cells];
            while (cells.length <= lastColumn)
                cells.push("");
            cells.fill(text, area.firstColumn, lastColumn + 1);
            changed.set(row.row, cells);
        }
    }
    return {
        rows: rows.map((row) => ({ ...row, cells: changed.get(row.row) ?? row.cells })),
        used,
    };
}
function rowsWithin(area, byRow) {
    // an area may claim a million rows of which few are filled
    if (area.lastRow - area.firstRow > byRow.size) {
        return [...byRow.values()].filter(({ row }) => row >= area.firstRow && row <= area.lastRow);
    }
    const rows = [];
    for (let row = area.firstRow; row <= area.lastRow; row++) {
        const found = byRow.get(row);
        if (found !== undefined)
            rows.push(found);
    }
    return rows;
}
