import { saysNothing, tidy } from "../../schema/cells/reading.js";
import type { GridRow } from "../grid/grid.js";
import type { ShapedSheet } from "../grid/shape/shape-sheet.js";
import type { Mapping } from "./mapping.js";
import { comparedText } from "./plain-words.js";

/** Columns that say the same of several injuries in a row: by injury, its columns, in one order for all. */
export type Groups = readonly (readonly string[])[];

/** The groups of a mapping that are read, each as an injury; none where a row is one injury. */
export const groupsRead = ({ injuries_in_row: told }: Pick<Mapping, "injuries_in_row">): Groups =>
  told?.read === "each" ? told.groups : [];

/**
 * A sheet in which each row is one injury: a row in which several groups are filled becomes as many rows, numbered
 * 5.1, 5.2 and so on; what stands outside the groups holds for each of them. The columns are those of the first group.
 */
export function unfoldGroups<Sheet extends Pick<ShapedSheet, "columns" | "records">>(
  sheet: Sheet,
  groups: Groups,
): Sheet {
  if (groups.length === 0) return sheet;
  const places = groups.map((group) => group.map((name) => placeOf(sheet, name)));
  const further = new Set(places.slice(1).flat());
  return {
    ...sheet,
    columns: sheet.columns.filter(({ place }) => !further.has(place)),
    records: sheet.records.flatMap((record) => injuriesIn(record, places)),
  };
}

/** -1 for a column that is not there. */
const placeOf = ({ columns }: Pick<ShapedSheet, "columns">, name: string): number =>
  columns.find((column) => comparedText(column.name) === comparedText(name))?.place ?? -1;

/** The columns of groups that a file does not have. */
export const groupColumnsGone = (sheet: Pick<ShapedSheet, "columns">, groups: Groups): readonly string[] =>
  groups.flat().filter((name) => name !== "" && placeOf(sheet, name) === -1);

function injuriesIn(record: GridRow, places: readonly (readonly number[])[]): readonly GridRow[] {
  const own = places.map((group) => group.map((place) => (place === -1 ? "" : (record.cells[place] ?? ""))));
  const filled = own.flatMap((cells, k) => (cells.some(isSaid) ? [{ cells, k }] : []));
  if (filled.length === 0) return [record];
  const isAlone = filled.length === 1 && filled[0]!.k === 0;
  return filled.map(({ cells, k }) => {
    const unfolded = [...record.cells];
    for (const place of places.flat()) if (place !== -1) unfolded[place] = "";
    for (const [i, cell] of cells.entries()) {
      const place = places[0]![i]!;
      if (place !== -1) unfolded[place] = cell;
    }
    return { ...record, cells: unfolded, row: isAlone ? record.row : numbered(record.row, k) };
  });
}

const isSaid = (cell: string): boolean => tidy(cell) !== "" && !saysNothing(tidy(cell));

/** Nine injuries fit: a hand has five fingers. */
const perRow = 10;
/** The number of what stands in the k-th place of a row: 5.1, 5.2 and so on. */
export const numbered = (row: number, k: number): number => (row * perRow + k + 1) / perRow;

/** What a column of the first group is called in the group that a row was made from. */
export function columnInRow(
  groups: Groups,
  { name, row }: { readonly name: string; readonly row: number },
): string {
  const k = Math.round((row - Math.floor(row)) * perRow) - 1;
  const i = groups[0]?.indexOf(name) ?? -1;
  const own = k > 0 && i !== -1 ? groups[k]?.[i] : undefined;
  return own === undefined || own === "" ? name : own;
}
