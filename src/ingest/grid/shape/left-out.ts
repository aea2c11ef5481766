import { type GridRow, isBlankCell } from "../grid.js";
import { looksLikeDay, looksLikeNote, looksLikeTotal, looksLikeUnit } from "./cell-looks.js";

/** Why a row of the sheet is no record. */
export type LeftOutKind = "preamble" | "header" | "units" | "totals" | "footnote";

/** A row that is no record. */
export interface LeftOutRow {
  readonly row: number;
  readonly kind: LeftOutKind;
}

const filledIn = (cells: readonly string[]): readonly string[] =>
  cells.map((cell) => cell.trim()).filter((cell) => cell !== "");
const compared = (cell: string): string =>
  isPlain.test(cell) ? cell : cell.trim().toLowerCase().replaceAll(/\s+/g, " ");
/** Nothing in it that comparing would change: most cells. */
const isPlain = /^[a-z0-9.,:;/_-]*$/;

/** A row that says the units or forms of the columns: nothing else, in two cells or beside a blank first one. */
export function isUnitsRow({ cells }: GridRow): boolean {
  const filled = filledIn(cells);
  const enough = filled.length >= 2 || (filled.length === 1 && isBlankCell(cells[0] ?? ""));
  return enough && filled.every(looksLikeUnit);
}

/** Whether a row of the body repeats a row of the header, cell for cell. */
export function repeatsHeader({ cells }: GridRow, headers: readonly GridRow[]): boolean {
  // every row of a sheet comes here: nothing is built for those that are nothing like the header
  let filled = 0;
  for (const cell of cells) if (!isBlankCell(cell)) filled += 1;
  if (filled < 2) return false;
  const mayDiffer = filled - Math.ceil(filled * repeated);
  return headers.some((header) => {
    const names = comparedNames(header);
    let different = 0;
    for (let i = 0; i < cells.length; i++) {
      const cell = cells[i]!;
      if (!isBlankCell(cell) && compared(cell) !== (names[i] ?? "")) different += 1;
      if (different > mayDiffer) return false;
    }
    return true;
  });
}

const namesOf = new WeakMap<GridRow, readonly string[]>();

/** The cells of a header as they are compared, once for all rows below it. */
function comparedNames(header: GridRow): readonly string[] {
  const names = namesOf.get(header) ?? header.cells.map(compared);
  namesOf.set(header, names);
  return names;
}

/** Share of the cells that must be the same. */
const repeated = 0.8;

/** Share of the columns that a row of totals fills at most. */
const totalsFill = 0.8;

/** A row that begins with a word for a total, has no dates, and leaves columns blank. */
export function isTotalsRow({ cells }: GridRow, columns: number): boolean {
  const first = cells.find((cell) => !isBlankCell(cell))?.trim() ?? "";
  if (!looksLikeTotal(first)) return false;
  const filled = filledIn(cells);
  return filled.length <= columns * totalsFill && !filled.some(looksLikeDay);
}

/** How many of the rows at the end are notes below the table: one cell of words, or a mark and what it means. */
export function notesAtEnd(rows: readonly GridRow[], columns: number): number {
  if (columns < 3) return 0;
  const place = rows.findLastIndex((row) => !isNote(row));
  return rows.length - 1 - place;
}

function isNote({ cells }: GridRow): boolean {
  const filled = filledIn(cells);
  const first = filled[0] ?? "";
  if (filled.length === 1) return looksLikeNote(first) && !looksLikeTotal(first);
  return filled.length === 2 && /^[*†‡§]+\)?$/u.test(first);
}
