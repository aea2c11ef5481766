import { looksLikeTable, readFileAsGrid, type ShapedSheet, shapeSheet } from "../../ingest/index.js";
import { comparedName } from "../../ingest/text/header.js";
import { StopError, type Table, type TableName, tableNames, tables } from "../../schema/index.js";
import { InputError } from "../../schema/input-error.js";
import type { NamedBytes } from "./tasks.js";

/** Files that cannot be used together as they were brought. */
export class BringError extends InputError {
  override readonly name = "BringError";
}

/** A file as a sheet, and the names of all sheets of a workbook. */
export interface SheetOfFile {
  readonly sheet: ShapedSheet;
  readonly sheets: readonly string[];
}

/**
 * Reads a file as a sheet with a header.
 *
 * @throws StopError where it cannot be read; BringError where it is no table
 */
export async function sheetOf(
  { name: file, bytes }: NamedBytes,
  chosen: string | null,
): Promise<SheetOfFile> {
  const { grid, sheets = [], queries } = await readFileAsGrid({ file, bytes }, { sheet: chosen });
  const stops = queries.filter(({ severity }) => severity === "stop");
  if (grid === null || stops.length > 0) throw new StopError(stops);
  const shaped = looksLikeTable(grid) ? shapeSheet(grid) : null;
  if (shaped === null || shaped.records.length === 0)
    throw new BringError(
      `${file}: no header with rows below it was found.\n  Bring a spreadsheet with one row per injury: a CSV file or a workbook (.xlsx).`,
    );
  return { sheet: shaped, sheets };
}

/** The table of the toolkit in whose own columns a sheet is written; null where it is in a site's columns. */
export function tableOfColumns(sheet: ShapedSheet): TableName | null {
  const names = new Set(sheet.columns.map(({ name }) => comparedName(name)));
  const fitting = tableNames
    .filter((table) => needed(tables[table] as Table).every((name) => names.has(name)))
    .map((table) => ({
      table,
      known: (tables[table] as Table).fields.filter(({ name }) => names.has(name)).length,
    }))
    .sort((one, other) => other.known - one.known);
  return fitting[0]?.table ?? null;
}

const needed = ({ fields }: Table): readonly string[] =>
  fields.filter(({ required }) => required).map(({ name }) => name);

export const isStudyFile = ({ name }: NamedBytes): boolean => /\.ya?ml$/i.test(name);
