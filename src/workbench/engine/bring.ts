import { type Grid, type ShapedSheet, shapeSheet } from "../../ingest/index.js";
import {
  codesFor,
  type FoundBook,
  gridToFit,
  type OddShape,
  oddShapeOf,
} from "../../ingest/mapping/index.js";
import { comparedName } from "../../ingest/text/header.js";
import { type Table, type TableName, tableNames, tables } from "../../schema/index.js";
import { InputError } from "../../schema/input-error.js";
import type { NamedBytes } from "./tasks.js";

/** Files that cannot be used together as they were brought. */
export class BringError extends InputError {
  override readonly name = "BringError";
}

/** A file as a sheet, and what else the file holds. */
export interface SheetOfFile {
  readonly sheet: ShapedSheet;
  readonly grid: Grid;
  /** Other sheets of a workbook. */
  readonly others: readonly string[];
  /** What the codes of the sheet stand for, where another sheet says it. */
  readonly book: FoundBook | null;
  /** Rows of the same kind in several sheets, until one is chosen. */
  readonly odd: OddShape | null;
}

const table = "single_sheet";

/**
 * Reads a file as a sheet with a header: the one that was chosen, or the one most like the table.
 *
 * @throws StopError where it cannot be read; SheetError or BringError where it is no table that could be read
 */
export async function sheetOf(
  { name: file, bytes }: NamedBytes,
  chosen: string | null,
): Promise<SheetOfFile> {
  const source = { file, bytes };
  const { grid, others } = await gridToFit({ ...source, table, sheet: chosen });
  const sheet = shapeSheet(grid);
  if (sheet === null || sheet.records.length === 0)
    throw new BringError(
      `${file}: no header with rows below it was found.\n  Bring a spreadsheet with one row per injury: a CSV file or a workbook (.xlsx).`,
    );
  if (tableOfColumns(sheet) !== null) return { sheet, grid, others, book: null, odd: null };
  const odd = await oddShapeOf(grid, { source, others, table, isNamed: chosen !== null });
  if (odd?.kind === "persons-across") throw new BringError(`${odd.found}\n  ${odd.change} Then bring that.`);
  const book = await codesFor(sheet, { source, sheets: others });
  return { sheet, grid, others, book, odd };
}

/** The table of the toolkit in whose own columns a sheet is written; null where it is in a site's columns. */
export const tableOfColumns = ({ columns }: Pick<ShapedSheet, "columns">): TableName | null =>
  tableOfNames(columns.map(({ name }) => comparedName(name)));

/** The same, from the names of the columns as they are compared. */
export function tableOfNames(columns: readonly string[]): TableName | null {
  const names = new Set(columns);
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

/** A study file, and no mapping or scenario: it names data. */
export function isStudyText({ bytes }: NamedBytes): boolean {
  const text = new TextDecoder().decode(bytes);
  return /^data:/m.test(text) && /^study:/m.test(text);
}
