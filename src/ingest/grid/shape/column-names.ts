import { columnLetters } from "../column-letters.js";
import { type Grid, type GridRow, isBlankCell } from "../grid.js";

/** A column of the sheet. */
export interface SheetColumn {
  /** As the header writes it; of several header rows joined with ` / `. Each name stands once. */
  readonly name: string;
  /** Place in a row, counted from 0. */
  readonly place: number;
  /** What a row of units says below the name. */
  readonly unit: string | null;
}

const tidied = (cell: string): string => cell.trim().replaceAll(/\s+/g, " ");

/**
 * The columns that have a name or hold anything. Names of several rows are joined (`TPD / rest`); a name of a group
 * goes for the blank cells to its right, in a workbook with joined cells only for those it is joined with. A column
 * without a name is called by its letters (`column F`); a name that comes again is numbered (`rest (2)`).
 */
export function columnsOf(
  headers: readonly GridRow[],
  {
    records,
    units,
    merged,
  }: {
    readonly records: readonly GridRow[];
    readonly units: GridRow | null;
    readonly merged: Grid["merged"];
  },
): readonly SheetColumn[] {
  const labels = headers.map((row, i) => {
    const isLast = i === headers.length - 1;
    const isJoined = merged.some(
      ({ firstRow, firstColumn, lastColumn }) => firstRow === row.row && lastColumn > firstColumn,
    );
    const below = headers[i + 1]?.cells ?? [];
    return isLast || isJoined ? row.cells.map(tidied) : carriedRight(row.cells.map(tidied), below);
  });
  const used = new Map<string, number>();
  return placesInUse(headers, records).map((place) => {
    const parts = labels
      .map((row) => row[place] ?? "")
      .filter((part, i, all) => part !== "" && part !== all[i - 1]);
    const name = parts.length === 0 ? `column ${columnLetters(place)}` : parts.join(" / ");
    const times = (used.get(name) ?? 0) + 1;
    used.set(name, times);
    const unit = tidied(units?.cells[place] ?? "");
    return { name: times === 1 ? name : `${name} (${times})`, place, unit: unit === "" ? null : unit };
  });
}

function carriedRight(cells: readonly string[], below: readonly string[]): readonly string[] {
  let group = "";
  return Array.from({ length: Math.max(cells.length, below.length) }, (_, i) => {
    const cell = cells[i] ?? "";
    if (cell !== "") group = cell;
    return isBlankCell(below[i] ?? "") ? cell : group;
  });
}

function placesInUse(headers: readonly GridRow[], records: readonly GridRow[]): readonly number[] {
  const used: boolean[] = [];
  for (const { cells } of [...headers, ...records]) {
    for (let i = 0; i < cells.length; i++) {
      if (used[i] !== true) used[i] = !isBlankCell(cells[i]!);
    }
  }
  return [...used.keys()].filter((place) => used[place] === true);
}
