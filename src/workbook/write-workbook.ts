import type { Workbook, Worksheet } from "@cj-tech-master/excelts";
import { strFromU8, unzipSync } from "fflate";
import { dayProblem } from "../schema/cells/day.js";
import type { Field, Table } from "../schema/index.js";
import { archiveOf } from "./archive.js";
import { cellCheck } from "./cell-check.js";
import { columnWords } from "./column-words.js";

/** A table with its rows as text, by column name. */
export interface SheetToWrite {
  /** Name of the sheet. */
  readonly name: string;
  readonly table: Table;
  readonly rows: readonly Readonly<Record<string, string>>[];
  /** Columns that the table does not know and that are to be kept, behind its own. */
  readonly others?: readonly string[];
}

/** Rows of a sheet: the last one to which a check reaches. */
const lastRow = 1_048_576;
/** A list that stands in the check of a cell itself holds so many letters; a longer one stands on a sheet of its own. */
const longestList = 255;
const wordsSheet = "words";

/** The moment that stands in the workbook as the one in which it was made: no clock enters. */
const noMoment = new Date(Date.UTC(1980, 0, 1));
const maker = "pulley-outcomes";

/**
 * Tables as a workbook (.xlsx), a sheet each: a header with a note on each column, and cells that offer the words of a
 * list and refuse what the field cannot hold. The same tables give the same bytes. Read again, each cell is the text
 * that it was.
 */
export async function writeWorkbook(sheets: readonly SheetToWrite[]): Promise<Uint8Array> {
  const { Workbook } = await import("@cj-tech-master/excelts");
  const workbook = new Workbook();
  Object.assign(workbook, { created: noMoment, modified: noMoment, creator: maker, lastModifiedBy: maker });
  const views = [{ state: "frozen", xSplit: 1, ySplit: 1 } as const];
  const written = sheets.map((sheet) => ({ sheet, to: workbook.addWorksheet(sheet.name, { views }) }));
  const lists = longListsIn(workbook, sheets);
  for (const { sheet, to } of written) {
    writeColumns(to, { sheet, lists });
    writeRows(to, sheet);
  }
  return settled(new Uint8Array(await workbook.xlsx.writeBuffer()));
}

type Lists = ReadonlyMap<Field, string>;

/** Writes lists that are too long for a check onto a sheet of their own, and says where each stands. */
function longListsIn(workbook: Workbook, sheets: readonly SheetToWrite[]): Lists {
  const long = sheets
    .flatMap(({ table }) => table.fields)
    .filter(({ terms = [] }) => terms.join(",").length > longestList);
  if (long.length === 0) return new Map();
  const sheet = workbook.addWorksheet(wordsSheet, { state: "hidden" });
  return new Map(
    long.map((field, i) => {
      const column = sheet.getColumn(i + 1);
      column.values = [field.name, ...field.terms!];
      return [field, `${wordsSheet}!$${column.letter}$2:$${column.letter}$${field.terms!.length + 1}`];
    }),
  );
}

const numeric: ReadonlySet<Field["kind"]> = new Set(["number", "integer", "bounded"]);

/** Text stays as it was typed: a name 007, a grade 3 and a month 2024-03 are no numbers and no days to a spreadsheet. */
const formatOf = ({ kind }: Field): string =>
  kind === "date" ? "yyyy-mm-dd" : numeric.has(kind) ? "General" : "@";

function writeColumns(
  to: Worksheet,
  { sheet: { table, others = [] }, lists }: { readonly sheet: SheetToWrite; readonly lists: Lists },
): void {
  for (const [i, field] of table.fields.entries()) {
    const column = to.getColumn(i + 1);
    column.width = Math.max(12, field.name.length + 3);
    column.numFmt = formatOf(field);
    const { letter } = column;
    writeHead(to, { letter, field });
    const check = cellCheck(field, {
      cell: `${letter}2`,
      column: `$${letter}:$${letter}`,
      words: lists.get(field) ?? `"${field.terms?.join(",")}"`,
      isUnique: table.key.length === 1 && table.key[0] === field.name,
    });
    if (check !== null) to.dataValidations.add(`${letter}2:${letter}${lastRow}`, check);
  }
  for (const [i, name] of others.entries()) {
    const column = to.getColumn(table.fields.length + i + 1);
    column.numFmt = "@";
    to.getCell(`${column.letter}1`).value = name;
  }
  to.getRow(1).height = 30;
}

function writeHead(
  to: Worksheet,
  { letter, field }: { readonly letter: string; readonly field: Field },
): void {
  const cell = to.getCell(`${letter}1`);
  const colour = field.required
    ? { text: "FFFFFFFF", ground: "FF14505C" }
    : { text: "FF1D3A42", ground: "FFDCE9EB" };
  cell.value = field.name;
  cell.numFmt = "@";
  cell.font = { bold: true, color: { argb: colour.text } };
  cell.fill = { type: "pattern", pattern: "solid", fgColor: { argb: colour.ground } };
  cell.alignment = { vertical: "middle" };
  cell.note = { texts: [{ text: columnWords(field).join("\n") }] };
}

function writeRows(to: Worksheet, { table, rows, others = [] }: SheetToWrite): void {
  for (const cells of rows)
    to.addRow([
      ...table.fields.map((field) => cellValue(field, cells[field.name] ?? "")),
      ...others.map((name) => cells[name] || null),
    ]);
}

/** A cell as the spreadsheet holds it: a day as a day and a number as a number where that gives the same text again. */
function cellValue({ kind }: Field, text: string): Date | number | string | null {
  if (text === "") return null;
  if (kind === "date" && isDay(text)) return new Date(`${text}T00:00:00Z`);
  return numeric.has(kind) && String(Number(text)) === text ? Number(text) : text;
}

function isDay(text: string): boolean {
  const [, year, month, day] = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text) ?? [];
  return year !== undefined && dayProblem(Number(year), Number(month), Number(day)) === null;
}

/** The archive made once more, without the day and the compression of the computer that made it. */
function settled(workbook: Uint8Array): Uint8Array {
  const parts = Object.entries(unzipSync(workbook)).map(([path, bytes]) => ({ path, content: bytes }));
  return archiveOf(parts.map((part) => (part.path === "docProps/app.xml" ? withMaker(part) : part)));
}

/** The library gives the name of a program that had no part in it. */
const withMaker = ({ path, content }: { readonly path: string; readonly content: Uint8Array }) => ({
  path,
  content: strFromU8(content).replace(
    /<Application>[^<]*<\/Application>/,
    `<Application>${maker}</Application>`,
  ),
});
