import { strToU8, zipSync } from "fflate";
import { counted } from "../../schema/counted.js";
import { queryList } from "../../schema/query-list.js";
import { type AskAboutFile, askerAboutFile } from "../text/ask-about-file.js";
import { hasTooManyRows, mostRows, type RowLimit } from "../text/most-rows.js";
import type { SourceFile } from "../text/source-file.js";
import { columnLetters } from "./column-letters.js";
import { type Grid, type GridRead, type GridRow, isBlankCell } from "./grid.js";
import { readGrid } from "./read-grid.js";
import { type CellValue, cellText, type RawNumber } from "./workbook/cell-text.js";
import { chooseSheet } from "./workbook/choose-sheet.js";
import { looksLikeWorkbook, openArchive, type WorkbookParts } from "./workbook/open-archive.js";
import { cellKey, type SheetFacts, sheetBounds, sheetFacts, textsByRow } from "./workbook/sheet-facts.js";
import { type ListedSheet, type SheetList, sheetList } from "./workbook/sheet-list.js";
import { withAddresses } from "./workbook/with-addresses.js";

type File = Pick<SourceFile, "file" | "bytes">;

/** Which sheet of a workbook to read. */
export interface SheetChoice {
  /** Its name; by default the first that holds anything. */
  readonly sheet?: string | null;
}

/** A grid, and the names of all sheets of the workbook it came from. */
export interface WorkbookRead extends GridRead {
  readonly sheets: readonly string[];
}

/** Reads a file into a grid by what it is: a workbook by its first bytes, else delimited text, which has no sheets. */
export const readFileAsGrid = (
  source: File,
  choice: SheetChoice = {},
): Promise<GridRead & Partial<Pick<WorkbookRead, "sheets">>> =>
  looksLikeWorkbook(source.bytes) ? readWorkbook(source, choice) : Promise.resolve(readGrid(source));

/**
 * Reads one sheet of a workbook (.xlsx) into a grid of text.
 *
 * Dates stand as the day their number and format mean, in either numbering of days; formulas as their stored results;
 * cells in error as their error (`#REF!`), formulas without a result as the formula. Hidden rows and columns are read
 * and mentioned. The archive is unpacked within bounds and looked through first; the reader of cells sees only parts
 * that passed. Nothing is thrown for what the file holds: what cannot be read gives queries of severity `stop`.
 */
export async function readWorkbook(
  { file, bytes }: File,
  { sheet = null, most = mostRows }: SheetChoice & RowLimit = {},
): Promise<WorkbookRead> {
  const queries = queryList();
  const ask = askerAboutFile(file, queries);
  const parts = openArchive(bytes, ask);
  if (parts === null) return { grid: null, sheets: [], queries: queries.all() };
  const list = sheetList(parts);
  const chosen = chooseSheet(list.sheets, { named: sheet, ask });
  const grid = chosen === null ? null : await gridOf(chosen, { file, parts, list, ask, most });
  return { grid, sheets: list.sheets.map(({ name }) => name), queries: queries.all() };
}

interface Reading {
  readonly file: string;
  readonly parts: WorkbookParts;
  readonly list: SheetList;
  readonly ask: AskAboutFile;
  readonly most: number;
}

/** The reader fills every row up to the farthest column: more cells than this are not begun. */
const mostCells = 40_000_000;

async function gridOf(
  sheet: ListedSheet,
  { file, parts, list: { dateEpoch, epochOfReader }, ask, most }: Reading,
): Promise<Grid | null> {
  const xml = withAddresses(sheet.xml ?? "");
  const facts = sheetFacts(xml, parts.get("xl/styles.xml") ?? "");
  const { lastRow, lastColumn } = facts;
  const isTooWide = lastRow > sheetBounds.rows || lastColumn > sheetBounds.columns;
  if (isTooWide || lastRow * lastColumn > mostCells) {
    const what = Number.isFinite(lastRow)
      ? `a sheet of ${counted(lastRow, "row", "rows")} and ${counted(lastColumn, "column", "columns")}`
      : "a sheet with cells that have no valid address";
    ask({ code: "workbook-too-large", severity: "stop", facts: { what } });
    return null;
  }
  const values = await valuesOf({ ...sheet, xml }, partsWith(parts, { instead: sheet.xml, xml }));
  if (values === null) {
    ask({ code: "workbook-damaged", severity: "stop" });
    return null;
  }
  const text = (value: CellValue) => cellText(value, { epoch: dateEpoch, epochOfReader });
  const rows = rowsOf(values, { facts, text });
  if (hasTooManyRows(rows, { most, ask })) return null;
  const grid: Grid = {
    file,
    sheet: sheet.name,
    rows,
    hiddenColumns: facts.hiddenColumns.filter((column) => rows.some(({ cells }) => isFilled(cells[column]))),
    merged: facts.merged,
    format: { kind: "workbook", dateEpoch },
  };
  mentionHidden(grid, ask);
  return grid;
}

const partsWith = (
  parts: WorkbookParts,
  { instead, xml }: { readonly instead: string | null; readonly xml: string },
): WorkbookParts => new Map([...parts].map(([name, text]) => [name, text === instead ? xml : text]));

const isFilled = (cell: string | undefined) => cell !== undefined && !isBlankCell(cell);

/** The cells as the reader gives them, from an archive of the parts that were looked through; null if it fails. */
async function valuesOf(
  { place }: ListedSheet,
  parts: WorkbookParts,
): Promise<readonly (readonly CellValue[])[] | null> {
  const { readSheet } = await import("read-excel-file/universal");
  const files = Object.fromEntries([...parts].map(([name, text]) => [name, strToU8(text)]));
  const archive = zipSync(files, { level: 0, mtime: "1980-01-02" });
  try {
    const parseNumber = (raw: string): RawNumber => ({ raw });
    const rows = await readSheet(archive.buffer as ArrayBuffer, place, { trim: false, parseNumber });
    return rows as unknown as readonly (readonly CellValue[])[];
  } catch {
    return null;
  }
}

const timeOfDay = /T\d{2}:\d{2}$/;

function rowsOf(
  values: readonly (readonly CellValue[])[],
  { facts, text }: { facts: SheetFacts; text: (value: CellValue) => string },
): readonly GridRow[] {
  const rows: GridRow[] = [];
  const others = textsByRow(facts.texts);
  const height = [...others.keys()].reduce((last, row) => Math.max(last, row), values.length);
  for (let row = 1; row <= height; row++) {
    const cells = (values[row - 1] ?? []).map((value, column) =>
      facts.shownAsDay.has(cellKey(row, column)) ? text(value).replace(timeOfDay, "") : text(value),
    );
    for (const [column, other] of others.get(row) ?? []) {
      while (cells.length < column) cells.push("");
      cells[column] = other;
    }
    if (!cells.every(isBlankCell)) rows.push({ row, cells, isHidden: facts.hiddenRows.has(row) });
  }
  return rows;
}

/** Rows and columns listed in a query at most. */
const listed = 20;

function mentionHidden({ rows, hiddenColumns }: Grid, ask: AskAboutFile): void {
  const hidden = rows.filter(({ isHidden }) => isHidden).map(({ row }) => String(row));
  const mention = (code: "rows-hidden" | "columns-hidden", names: readonly string[]) => {
    if (names.length === 0) return;
    const more = names.length > listed ? " and more" : "";
    ask({
      code,
      severity: "look-at",
      found: `${names.slice(0, listed).join(", ")}${more}`,
      facts: { count: names.length },
    });
  };
  mention("rows-hidden", hidden);
  mention("columns-hidden", hiddenColumns.map(columnLetters));
}
