import type { Column, Workbook, Worksheet } from "@cj-tech-master/excelts";
import { strFromU8, unzipSync } from "fflate";
import { archiveOf } from "../../run/archive.js";
import type { Field, Table } from "../../schema/index.js";
import { cellCheck } from "./cell-check.js";
import { columnWords } from "./column-words.js";

/** Rows of a sheet: the last one to which a check reaches. */
const lastRow = 1_048_576;
/** A list that stands in the check of a cell itself holds so many letters; a longer one stands on a sheet of its own. */
const longestList = 255;
const wordsSheet = "words";

/** The moment that stands in the workbook as the one in which it was made: no clock enters. */
const noMoment = new Date(Date.UTC(1980, 0, 1));

/**
 * An empty table as a workbook (.xlsx): a header with a note on each column, and cells that offer the words of a list and
 * refuse what the field cannot hold. The same table gives the same bytes.
 *
 * @param name of the sheet
 */
export async function templateWorkbook(table: Table, name: string): Promise<Uint8Array> {
  const { Workbook } = await import("@cj-tech-master/excelts");
  const workbook = new Workbook();
  Object.assign(workbook, { created: noMoment, modified: noMoment, creator: maker, lastModifiedBy: maker });
  const sheet = workbook.addWorksheet(name, { views: [{ state: "frozen", xSplit: 1, ySplit: 1 }] });
  const words = longListsIn(workbook, table);
  for (const [i, field] of table.fields.entries()) {
    const column = sheet.getColumn(i + 1);
    layOut(column, field);
    head(sheet, { column, field });
    const check = cellCheck(field, {
      cell: `${column.letter}2`,
      column: `$${column.letter}:$${column.letter}`,
      words: words.get(field) ?? `"${field.terms?.join(",")}"`,
      isUnique: table.key.length === 1 && table.key[0] === field.name,
    });
    if (check !== null) sheet.dataValidations.add(`${column.letter}2:${column.letter}${lastRow}`, check);
  }
  sheet.getRow(1).height = 30;
  return settled(new Uint8Array(await workbook.xlsx.writeBuffer()));
}

const maker = "pulley-outcomes";

/** Writes lists that are too long for a check onto a sheet of their own, and says where each stands. */
function longListsIn(workbook: Workbook, { fields }: Table): ReadonlyMap<Field, string> {
  const long = fields.filter(({ terms = [] }) => terms.join(",").length > longestList);
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

function layOut(column: Column, field: Field): void {
  column.width = Math.max(12, field.name.length + 3);
  column.numFmt = formatOf(field);
}

function head(sheet: Worksheet, { column, field }: { readonly column: Column; readonly field: Field }): void {
  const cell = sheet.getCell(`${column.letter}1`);
  cell.value = field.name;
  cell.numFmt = "@";
  cell.font = { bold: true, color: { argb: field.required ? "FFFFFFFF" : "FF1D3A42" } };
  cell.fill = {
    type: "pattern",
    pattern: "solid",
    fgColor: { argb: field.required ? "FF14505C" : "FFDCE9EB" },
  };
  cell.alignment = { vertical: "middle" };
  cell.note = { texts: [{ text: columnWords(field).join("\n") }] };
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
