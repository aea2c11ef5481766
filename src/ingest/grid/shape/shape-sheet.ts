import type { Grid, GridRow, MergedArea } from "../grid.js";
import { columnsOf, type SheetColumn } from "./column-names.js";
import { headerPlaces } from "./header-rows.js";
import { isTotalsRow, isUnitsRow, type LeftOutRow, notesAtEnd, repeatsHeader } from "./left-out.js";
import { spreadMerged } from "./spread-merged.js";

/** A sheet taken apart. Every row of the grid is a record or is left out, with the reason. */
export interface ShapedSheet {
  readonly file: string;
  readonly sheet: string | null;
  /** Rows that hold the header, as the spreadsheet shows them; they are among those left out. */
  readonly headerRows: readonly number[];
  readonly columns: readonly SheetColumn[];
  readonly records: readonly GridRow[];
  readonly leftOut: readonly LeftOutRow[];
  /** Joined areas over several records, whose text now stands in each of them. */
  readonly joined: readonly MergedArea[];
}

/** What is known about a sheet beforehand. */
export interface ShapeOptions {
  /** Rows of the header as the spreadsheet shows them; found by themselves by default. */
  readonly headerRows?: readonly number[];
}

/**
 * Takes a sheet apart: rows before the header, the header (of up to three rows), a row of units, the records, and
 * among them headers that come again, totals, and notes below the table. A pure function of the grid; what the columns
 * mean is not looked at.
 *
 * @returns null where no row looks like a header, or none of the stated rows is there
 */
export function shapeSheet(grid: Grid, { headerRows }: ShapeOptions = {}): ShapedSheet | null {
  const seen = spreadMerged(grid.rows, { merged: grid.merged, direction: "all" }).rows;
  const places =
    headerRows === undefined
      ? headerPlaces(grid.rows, seen)
      : grid.rows.flatMap(({ row }, i) => (headerRows.includes(row) ? [i] : []));
  const [first, last] = [places[0], places.at(-1)];
  if (first === undefined || last === undefined) return null;
  const headers = places.map((place) => seen[place]!);
  const asWritten = places.map((place) => grid.rows[place]!);
  const body = grid.rows.slice(last + 1);
  const units = body[0] !== undefined && isUnitsRow(body[0]) ? body[0] : null;
  const width = Math.max(...headers.map(({ cells }) => cells.filter((cell) => cell.trim() !== "").length));
  const rest = units === null ? body : body.slice(1);
  const sorted = sortBody(rest, { headers: [...headers, ...asWritten], width });
  const { rows: records, used: joined } = spreadMerged(sorted.records, {
    merged: grid.merged,
    direction: "down",
  });
  const above = grid.rows.slice(0, last).filter((_, i) => !places.includes(i));
  return {
    file: grid.file,
    sheet: grid.sheet,
    headerRows: asWritten.map(({ row }) => row),
    columns: columnsOf(headers, { records, units, merged: grid.merged }),
    records,
    leftOut: [
      ...above.map(({ row }) => ({ row, kind: "preamble" as const })),
      ...asWritten.map(({ row }) => ({ row, kind: "header" as const })),
      ...(units === null ? [] : [{ row: units.row, kind: "units" as const }]),
      ...sorted.leftOut,
    ],
    joined,
  };
}

function sortBody(
  rows: readonly GridRow[],
  { headers, width }: { headers: readonly GridRow[]; width: number },
): { readonly records: readonly GridRow[]; readonly leftOut: readonly LeftOutRow[] } {
  const notes = notesAtEnd(rows, width);
  const records: GridRow[] = [];
  const leftOut: LeftOutRow[] = [];
  for (const row of rows.slice(0, rows.length - notes)) {
    if (repeatsHeader(row, headers)) leftOut.push({ row: row.row, kind: "header" });
    else if (isTotalsRow(row, width)) leftOut.push({ row: row.row, kind: "totals" });
    else records.push(row);
  }
  for (const { row } of rows.slice(rows.length - notes)) leftOut.push({ row, kind: "footnote" });
  return { records, leftOut };
}
