import { type GridRow, isBlankCell } from "../grid.js";
import { looksLikeLabel, looksLikeUnit, looksLikeValue } from "./cell-looks.js";

/** How many rows are looked at for the header. */
const lookedAt = 40;
/** A row this close to the best is the header when it comes first. */
const closeToBest = 0.8;
/** A header of this worth at least: half of the columns named, by nothing but names. */
const worthAtLeast = 0.5;
/** A header has no more rows. */
const mostRows = 3;

/**
 * The rows of the header, as places among the rows: those whose cells are names of columns, filled as widely as the
 * table below. None where no row looks like one. A row of groups above (`TPD` over `rest` and `loaded`) and rows that
 * continue the names below belong to it. The rule is common practice, no source.
 */
export function headerPlaces(rows: readonly GridRow[], asSeen: readonly GridRow[]): readonly number[] {
  const looked = rows.slice(0, lookedAt);
  const width = usualWidth(rows);
  const worths = looked.map(({ cells }) => worthOf(cells, width));
  const best = Math.max(0, ...worths);
  if (best < worthAtLeast) return [];
  const first = worths.findIndex((worth) => worth >= best * closeToBest);
  const places = [first];
  const above = first - 1;
  if (
    above >= 0 &&
    isGroupRow(looked[above]!, { below: looked[first]!, seen: asSeen[above]!, belowAsSeen: asSeen[first]! })
  ) {
    places.unshift(above);
  }
  while (places.length < mostRows && continues(rows, { header: places, next: places.at(-1)! + 1 })) {
    places.push(places.at(-1)! + 1);
  }
  return places;
}

const filledIn = (cells: readonly string[]): readonly string[] => cells.filter((cell) => !isBlankCell(cell));

/** The commonest number of filled cells of the rows looked at; of several the largest. */
function usualWidth(rows: readonly GridRow[]): number {
  const counts = new Map<number, number>();
  for (const { cells } of rows.slice(0, lookedAt * 5)) {
    const { length } = filledIn(cells);
    if (length > 1) counts.set(length, (counts.get(length) ?? 0) + 1);
  }
  const most = Math.max(0, ...counts.values());
  return Math.max(1, ...[...counts].filter(([, times]) => times === most).map(([length]) => length));
}

function worthOf(cells: readonly string[], width: number): number {
  const filled = filledIn(cells);
  if (filled.length === 0) return 0;
  const labels = filled.filter((cell) => looksLikeLabel(cell.trim())).length;
  const different = new Set(filled.map((cell) => cell.trim().toLowerCase())).size;
  return (Math.min(1, filled.length / width) * labels * different) / filled.length ** 2;
}

/** Names of groups over the names of columns; one that stands alone in the first column, or spans all, is a title. */
function isGroupRow(
  row: GridRow,
  { below, seen, belowAsSeen }: { below: GridRow; seen: GridRow; belowAsSeen: GridRow },
): boolean {
  const filled = filledIn(row.cells);
  if (!filled.every((cell) => looksLikeLabel(cell.trim()))) return false;
  if (below.row !== row.row + 1) return false;
  const columns = filledIn(below.cells).length;
  const spanned = filledIn(seen.cells).length;
  const standsFirst = spanned === 1 && !isBlankCell(row.cells[0] ?? "");
  const isTitle = filled.length === 1 && (standsFirst || spanned >= columns);
  // a name joined with the blank cell below it is the name of one column
  return (
    !isTitle && row.cells.every((cell, i) => isBlankCell(cell) || !isBlankCell(belowAsSeen.cells[i] ?? ""))
  );
}

/** Whether the next row goes on with names: nothing but names, under gaps of the header, and not as records look. */
function continues(
  rows: readonly GridRow[],
  { header, next }: { header: readonly number[]; next: number },
): boolean {
  const row = rows[next];
  const last = rows[next - 1];
  if (row === undefined || last === undefined || row.row !== last.row + 1) return false;
  const filled = filledIn(row.cells);
  if (!filled.every((cell) => looksLikeLabel(cell.trim()))) return false;
  if (filled.every((cell) => looksLikeUnit(cell.trim()))) return false;
  const named = (place: number) => header.some((each) => !isBlankCell(rows[each]?.cells[place] ?? ""));
  const fillsGap = row.cells.some((cell, i) => !isBlankCell(cell) && !named(i));
  const leavesFirst = isBlankCell(row.cells[0] ?? "") && named(0);
  return fillsGap && leavesFirst && valuesBelow(rows.slice(next + 1, next + 11), row);
}

/** Whether what stands below the names of a row are values, in half of the columns or more. */
function valuesBelow(rows: readonly GridRow[], { cells }: GridRow): boolean {
  const places = cells.flatMap((cell, i) => (isBlankCell(cell) ? [] : [i]));
  const withValues = places.filter((place) =>
    rows.some((row) => looksLikeValue((row.cells[place] ?? "").trim())),
  );
  return withValues.length * 2 >= places.length;
}
