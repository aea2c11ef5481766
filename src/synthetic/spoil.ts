import Papa from "papaparse";
import type { SingleSheetRow } from "../schema/single-sheet.js";
import { tables } from "../schema/tables.js";
import { type Generator, seededGenerator } from "../statistics/shared/random.js";
import type { SyntheticCohort } from "./draw.js";
import { singleSheetRows } from "./single-sheet.js";
import { dateSpoilings, noteSpoilings, numberSpoilings, termSpoilings } from "./spoil-cells.js";
import { addedRows, contradictionSpoilings } from "./spoil-rows.js";
import type { Fault, SheetCells, Spoiling } from "./spoiling.js";

/** A sheet as it arrives from a busy clinic, and the list of everything that is wrong with it. */
export interface SpoiltSheet {
  /** CSV with commas; every character exists in windows-1252, in which the file is meant to be written. */
  readonly text: string;
  readonly encoding: "windows-1252";
  readonly faults: readonly Fault[];
}

const columns = tables.single_sheet.fields.map(({ name }) => name);

/** Every way in which a cell is spoilt. Rarest first: what needs a certain row takes it before what can happen to any. */
export const spoilings = [
  ...contradictionSpoilings,
  ...termSpoilings,
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
  const left = {
    indices: shuffled(
      rows.map((_, i) => i),
      generator,
    ),
    clean,
  };
  const faults: Fault[] = [notUtf8];
  for (const spoiling of spoilings) {
    const index = takeRow(left, spoiling.where ?? (() => true));
    if (index !== null) faults.push(spoilCell({ rows, index }, spoiling));
  }
  for (const added of addedRows) {
    const index = takeRow(left, ({ previous }) => previous !== "");
    if (index === null) continue;
    const cells = added.write(clean[index]!);
    rows.push(cells);
    const { wrong, reader } = added;
    faults.push({
      row: sheetRow(rows.length - 1),
      column: "person",
      found: cells.person!,
      wrong,
      reader,
    });
  }
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
  return cells as SheetCells;
}

function shuffled(indices: number[], generator: Generator): number[] {
  for (let end = indices.length - 1; end > 0; end--) {
    const other = generator.integer(end + 1);
    [indices[end], indices[other]] = [indices[other]!, indices[end]!];
  }
  return indices;
}

/** Takes the first row that will do out of those left. */
function takeRow(
  { indices, clean }: { readonly indices: number[]; readonly clean: readonly SheetCells[] },
  willDo: (cells: SheetCells) => boolean,
): number | null {
  const place = indices.findIndex((index) => willDo(clean[index]!));
  return place < 0 ? null : indices.splice(place, 1)[0]!;
}

/** Row of the spreadsheet of an index: the header is row 1. */
const sheetRow = (index: number): number => index + 2;

function spoilCell(
  { rows, index }: { readonly rows: Record<string, string>[]; readonly index: number },
  { column, write, wrong, reader }: Spoiling,
): Fault {
  const cells = rows[index]!;
  const found = write(cells as unknown as SheetCells);
  cells[column] = found;
  return { row: sheetRow(index), column, found, wrong, reader };
}

const notUtf8: Fault = {
  row: null,
  column: null,
  found: "windows-1252",
  wrong: "the file is not UTF-8",
  reader: "file-not-utf8",
};

/** Plain CSV: unlike the tables that the toolkit writes, a sheet from outside is not made safe for a spreadsheet. */
const sheetText = (rows: readonly Readonly<Record<string, string>>[]): string =>
  `${Papa.unparse([columns, ...rows.map((row) => columns.map((column) => row[column] ?? ""))], { newline: "\r\n" })}\r\n`;

const inOrder = (faults: readonly Fault[]): Fault[] =>
  [...faults].sort((a, b) => (a.row ?? 0) - (b.row ?? 0));
