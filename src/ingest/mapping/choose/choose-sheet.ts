import { counted } from "../../../schema/counted.js";
import { StopError } from "../../../schema/stop-error.js";
import { type Grid, looksLikeTable, readFileAsGrid, shapeSheet } from "../../grid/index.js";
import type { Mapping } from "../mapping.js";
import { proposeMapping } from "../propose/propose.js";
import { SheetError } from "./sheet-error.js";

/** A file and what is known about where its table stands. */
export interface FileToFit {
  readonly file: string;
  readonly bytes: Uint8Array;
  readonly table: Mapping["table"];
  /** The sheet named by a person or an earlier mapping. */
  readonly sheet: string | null;
}

/** The grid that is fitted, and the other sheets of the workbook. */
export interface ChosenGrid {
  readonly grid: Grid;
  readonly others: readonly string[];
}

/** Of larger workbooks only the first sheets are looked at. */
const mostSheets = 20;

/**
 * Reads the sheet that is named, or of several the one in which most columns of the table are recognised: a workbook
 * often begins with a sheet of explanations.
 *
 * @throws StopError where the file cannot be read; SheetError where it is no table
 */
export async function gridToFit(source: FileToFit): Promise<ChosenGrid> {
  const { grid, sheets = [], queries } = await readFileAsGrid(source, { sheet: source.sheet });
  const stops = queries.filter(({ severity }) => severity === "stop");
  if (grid === null || stops.length > 0) throw new StopError(stops);
  if (!looksLikeTable(grid)) {
    throw new SheetError(
      `${source.file}: this file does not look like a table: its rows are not divided into columns by commas, semicolons, tabs or |.\n  Name a spreadsheet with one row per record: a CSV file or a workbook (.xlsx). Nothing of the file is shown here.`,
    );
  }
  refuseTooWide(grid, source);
  const chosen = source.sheet === null && sheets.length > 1 ? await bestOf(grid, { source, sheets }) : grid;
  return { grid: chosen, others: sheets.filter((name) => name !== chosen.sheet) };
}

/** What a sheet of the usual workbooks holds. With many more columns every comparison of them takes minutes. */
const mostColumns = 16_384;

function refuseTooWide({ rows }: Grid, { file }: FileToFit): void {
  const wide = rows.find(({ cells }) => cells.length > mostColumns);
  if (wide === undefined) return;
  throw new SheetError(
    `${file}: row ${wide.row} has ${counted(wide.cells.length, "cell", "cells")}; at most ${counted(mostColumns, "column is", "columns are")} looked at.\n  Check that line breaks and delimiters are as they should be, or save only the columns that are needed.`,
  );
}

async function bestOf(
  first: Grid,
  { source, sheets }: { readonly source: FileToFit; readonly sheets: readonly string[] },
): Promise<Grid> {
  let best = { grid: first, recognised: recognisedIn(first, source) };
  for (const sheet of sheets.slice(0, mostSheets)) {
    const { grid } = await readFileAsGrid(source, { sheet });
    const recognised = grid === null ? 0 : recognisedIn(grid, source);
    if (grid !== null && recognised > best.recognised) best = { grid, recognised };
  }
  return best.grid;
}

/** How many columns of the table a sheet seems to have. */
function recognisedIn(grid: Grid, { table }: FileToFit): number {
  const sheet = shapeSheet(grid);
  if (sheet === null || sheet.records.length === 0) return 0;
  const { guesses } = proposeMapping(sheet, { name: "trial", table });
  return guesses.filter(({ confidence }) => confidence !== "unsure").length;
}
