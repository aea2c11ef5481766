import Papa from "papaparse";
import type { SingleSheetRow } from "../schema/single-sheet.js";
import { tables } from "../schema/tables.js";
import { type Generator, seededGenerator } from "../statistics/random.js";
import type { SyntheticCohort } from "./draw.js";
import { singleSheetRows } from "./single-sheet.js";
import { dateSpoilings, noteSpoilings, numberSpoilings, termSpoilings } from "./spoil-cells.js";
import { addedRows, contradictionSpoilings } from "./spoil-rows.js";
import { asDayFirst, type Fault, type SheetCells, type Spoiling } from "./spoiling.js";

/** A sheet as it arrives from a busy clinic, and the list of everything that is wrong with it. */
export interface SpoiltSheet {
  /** CSV with commas; every character exists in windows-1252, in which the file is meant to be written. */
  readonly text: string;
  readonly encoding: "windows-1252";
  readonly faults: readonly Fault[];
}

const columns = tables.single_sheet.fields.map(({ name }) => name);
const wholeColumns = [
  { column: "injury_date", mark: ".", wrong: "all dates day.month.year" },
  { column: "last_contact", mark: "/", wrong: "all dates day/month/year; days above 12 prove the order" },
] as const;

/** Rarest first: what needs a certain grade chooses its row before what can happen to any row. */
const spoilings = [
  ...termSpoilings,
  ...contradictionSpoilings,
  ...numberSpoilings,
  ...dateSpoilings,
  ...noteSpoilings,
] as const;

/**
 * Spoils the single sheet of a cohort: each fault of the list befalls one row, chosen at random among the rows that it can
 * happen to and that are still clean; a duplicate and a row of totals are added at the end. A fault for which no clean row
 * is left does not happen, and is then not in the list.
 *
 * @param options seed and stream of the choice of rows
 */
export function spoilSheet(
  cohort: SyntheticCohort,
  { seed, stream = 0 }: { readonly seed: number; readonly stream?: number },
): SpoiltSheet {
  const generator = seededGenerator(seed, stream);
  const clean = singleSheetRows(cohort).map(cellsOf);
  const rows: Record<string, string>[] = clean.map((cells) => ({ ...cells }));
  const left = shuffled(
    rows.map((_, index) => index),
    generator,
  );
  const faults: Fault[] = columnFaults();
  for (const spoiling of spoilings) {
    const index = takeRow(left, (each) => spoiling.where?.(clean[each] as SheetCells) ?? true);
    if (index !== null) faults.push(spoilCell({ rows, index }, spoiling));
  }
  const double = takeRow(left, () => true);
  if (double !== null) faults.push(addDuplicate(rows, double));
  faults.push(addTotals(rows));
  faults.push({
    row: null,
    column: null,
    found: "windows-1252",
    wrong: "the file is not UTF-8",
    reader: "file-not-utf8",
  });
  return { text: sheetText(rows), encoding: "windows-1252", faults: inOrder(faults) };
}

/** The form of whats-wrong: one line a fault. */
export const faultColumns = ["row", "column", "found", "what_is_wrong", "what_the_reader_should_do"] as const;
export const faultCells = ({ row, column, found, wrong, reader }: Fault) => [
  row,
  column,
  found,
  wrong,
  reader,
];

function cellsOf(row: SingleSheetRow): SheetCells {
  const text = (value: unknown) => (Array.isArray(value) ? value.join("|") : String(value ?? ""));
  const cells = Object.fromEntries(Object.entries(row).map(([column, value]) => [column, text(value)]));
  for (const { column, mark } of wholeColumns) cells[column] = asDayFirst(cells[column] as string, mark);
  return cells as SheetCells;
}

const columnFaults = (): Fault[] =>
  wholeColumns.map(({ column, wrong }) => ({ row: null, column, found: "", wrong, reader: "accepted" }));

function shuffled(indices: number[], generator: Generator): number[] {
  for (let end = indices.length - 1; end > 0; end--) {
    const other = generator.integer(end + 1);
    [indices[end], indices[other]] = [indices[other] as number, indices[end] as number];
  }
  return indices;
}

/** Takes the first row that will do out of those left. */
function takeRow(left: number[], willDo: (index: number) => boolean): number | null {
  const place = left.findIndex(willDo);
  return place < 0 ? null : (left.splice(place, 1)[0] as number);
}

/** Row of the spreadsheet of an index: the header is row 1. */
const sheetRow = (index: number): number => index + 2;

function spoilCell(
  { rows, index }: { readonly rows: Record<string, string>[]; readonly index: number },
  { column, write, wrong, reader }: Spoiling,
): Fault {
  const cells = rows[index] as Record<string, string>;
  const found = write(cells as unknown as SheetCells);
  cells[column] = found;
  return { row: sheetRow(index), column, found, wrong, reader };
}

function addDuplicate(rows: Record<string, string>[], index: number): Fault {
  const { write, wrong, reader } = addedRows.duplicate;
  const copy = write(rows[index] as Record<string, string>);
  rows.push(copy);
  return { row: sheetRow(rows.length - 1), column: "person", found: copy.person as string, wrong, reader };
}

function addTotals(rows: Record<string, string>[]): Fault {
  const { write, wrong, reader } = addedRows.totals;
  rows.push(write(rows.length));
  return { row: sheetRow(rows.length - 1), column: "person", found: "Total", wrong, reader };
}

/** Plain CSV: unlike the tables that the toolkit writes, a sheet from outside is not made safe for a spreadsheet. */
const sheetText = (rows: readonly Readonly<Record<string, string>>[]): string =>
  `${Papa.unparse([columns, ...rows.map((row) => columns.map((column) => row[column] ?? ""))], { newline: "\r\n" })}\r\n`;

const inOrder = (faults: readonly Fault[]): Fault[] =>
  [...faults].sort((a, b) => (a.row ?? 0) - (b.row ?? 0));
