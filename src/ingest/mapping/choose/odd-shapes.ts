import { counted } from "../../../schema/counted.js";
import { oneLine } from "../../../schema/hidden-characters.js";
import { type Grid, readFileAsGrid, shapeSheet } from "../../grid/index.js";
import type { Mapping } from "../mapping.js";
import { proposeMapping } from "../propose/propose.js";

/** A sheet as far as it is looked at here. */
interface Looked {
  readonly name: string | null;
  readonly records: number;
  /** Columns that every row needs and that are recognised. */
  readonly needed: number;
  /** The same if rows were columns. */
  readonly neededTurned: number;
}

/** So many needed columns make a sheet one of the table (of seven of the single sheet). */
const enough = 4;
/** Another sheet is of the same kind if it has so large a share of what is recognised in the one that is read. */
const alike = 0.75;
/** Sheets of larger workbooks that are looked at, and columns of a sheet that may be turned. */
const mostSheets = 60;
const mostTurned = 400;

/** What would be read wrongly without a word, and what can be done. */
export interface OddShape {
  /** persons-across: each person has a column. several-sheets: rows of the same kind lie in several sheets. */
  readonly kind: "persons-across" | "several-sheets";
  /** What was found, in a sentence, and how the file can be changed. */
  readonly found: string;
  readonly change: string;
  /** The sheets that hold rows of the same kind. */
  readonly sheets: readonly string[];
}

/**
 * A sheet in which persons are columns, or a workbook whose rows lie in several sheets, as one for each year or each person,
 * unless one is named; null where it is neither.
 */
export async function oddShapeOf(
  grid: Grid,
  {
    source,
    others,
    table,
    isNamed,
  }: {
    readonly source: { readonly file: string; readonly bytes: Uint8Array };
    readonly others: readonly string[];
    readonly table: Mapping["table"];
    /** Whether a person or an earlier mapping has named the sheet. */
    readonly isNamed: boolean;
  },
): Promise<OddShape | null> {
  // one large sheet by itself can be neither, and a wide one takes long to look at
  if ((isNamed || others.length === 0) && !mayBeTurned(grid)) return null;
  const own = look(grid, table);
  const looked: Looked[] = [];
  for (const name of isNamed ? [] : others.slice(0, mostSheets)) {
    const { grid: other } = await readFileAsGrid(source, { sheet: name });
    if (other !== null) looked.push(look(other, table));
  }
  if (isTurned(own)) return personsAcross(source.file, { own, more: looked.filter(isTurned).length });
  const same = looked.filter(({ needed }) => needed >= enough && needed >= own.needed * alike);
  return own.needed >= enough && same.length > 0 ? severalSheets(source.file, [own, ...same]) : null;
}

const isTurned = ({ needed, neededTurned }: Looked): boolean => needed <= 1 && neededTurned >= enough;

const widthOf = ({ rows }: Grid): number => rows.reduce((most, { cells }) => Math.max(most, cells.length), 0);

const mayBeTurned = (grid: Grid): boolean => widthOf(grid) <= mostTurned && grid.rows.length <= mostTurned;

function look(grid: Grid, table: Mapping["table"]): Looked {
  const own = neededIn(grid, table);
  const turns = own.needed <= 1 && mayBeTurned(grid);
  return { name: grid.sheet, ...own, neededTurned: turns ? neededIn(turned(grid), table).needed : 0 };
}

function neededIn(grid: Grid, table: Mapping["table"]): Pick<Looked, "records" | "needed"> {
  const sheet = shapeSheet(grid);
  if (sheet === null || sheet.records.length === 0) return { records: 0, needed: 0 };
  const { guesses } = proposeMapping(sheet, { name: "trial", table });
  const found = guesses.filter(({ field, confidence }) => field.required && confidence !== "unsure");
  return { records: sheet.records.length, needed: found.length };
}

/** The sheet with its columns as rows. */
const turned = (grid: Grid): Grid => ({
  ...grid,
  merged: [],
  rows: Array.from({ length: widthOf(grid) }, (_, place) => ({
    row: place + 1,
    isHidden: false,
    cells: grid.rows.map(({ cells }) => cells[place] ?? ""),
  })),
});

const personsAcross = (
  file: string,
  { own, more }: { readonly own: Looked; readonly more: number },
): OddShape => ({
  kind: "persons-across",
  found: `${oneLine(file)}${own.name === null ? "" : `, sheet "${oneLine(own.name)}"`}: the names of columns stand below each other in one column, and each person has a column. A row must be an injury (or a visit).`,
  change:
    more === 0
      ? "Copy the sheet, and paste it transposed (the spreadsheet's option that exchanges rows and columns)."
      : `${counted(more, "other sheet is", "other sheets are")} of this form. Paste the values of each transposed as one row below a common header, all in one sheet.`,
  sheets: [],
});

function severalSheets(file: string, sheets: readonly Looked[]): OddShape {
  const rows = sheets.reduce((sum, { records }) => sum + records, 0);
  const listed = sheets
    .slice(0, mostListed)
    .map(({ name, records }) => `"${oneLine(name ?? "")}" (${counted(records, "row", "rows")})`);
  const more = sheets.length > mostListed ? ` and ${sheets.length - mostListed} more` : "";
  return {
    kind: "several-sheets",
    found: `${oneLine(file)}: rows of the same kind are in several sheets: ${listed.join(", ")}${more}. A study reads one sheet, so that part of ${counted(rows, "row", "rows")} would be missing.`,
    change:
      "Copy the rows of all of them below each other into one sheet: a column may have another name or another place in each, so put every cell under its own name. If the name of a sheet says something that is needed, as a person or a site, write it into a column.",
    sheets: sheets.flatMap(({ name }) => name ?? []),
  };
}

const mostListed = 12;
