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
  const chosen = source.sheet === null && sheets.length > 1 ? await bestOf(grid, { source, sheets }) : grid;
  return { grid: chosen, others: sheets.filter((name) => name !== chosen.sheet) };
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
