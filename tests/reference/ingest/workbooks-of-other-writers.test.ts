import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readWorkbook, shapeSheet } from "../../../src/ingest/grid/index.js";

const folder = new URL("../data/workbooks/", import.meta.url);
const read = (file: string) => readWorkbook({ file, bytes: readFileSync(new URL(file, folder)) });

/** What the scripts beside the workbooks write, as text. */
const records = [
  ["P01", "2024-03-04", "2.4", "2024-06-03T14:30", "TRUE", "Größe & <Wert>"],
  ["P02", "1999-12-31", "0.3", "", "FALSE", "two\nlines"],
  ["007", "2024-02-29", "3", "2024-06-03", "", "  spaces  "],
];

describe("workbooks of other writers give what their scripts put in", () => {
  it.each([
    ["openpyxl 3.1.5, days from 1900", "openpyxl-1900.xlsx", 1900],
    ["openpyxl 3.1.5, days from 1904", "openpyxl-1904.xlsx", 1904],
    ["XlsxWriter 3.2.9, days from 1900", "xlsxwriter-1900.xlsx", 1900],
    ["XlsxWriter 3.2.9, days from 1904", "xlsxwriter-1904.xlsx", 1904],
    ["R package openxlsx 4.2.5.2", "openxlsx.xlsx", 1900],
  ])("%s", async (_, file, dateEpoch) => {
    const { grid, sheets } = await read(file);
    expect(sheets).toEqual(["Patients", "Empty", "Legend"]);
    expect(grid?.format).toEqual({ kind: "workbook", dateEpoch });
    const shaped = shapeSheet(grid!);
    expect(shaped?.headerRows).toEqual([3]);
    expect(shaped?.columns.map(({ name }) => name)).toEqual([
      "Who",
      "Injured",
      "TPD rest (mm)",
      "Back",
      "Taped",
      "Note",
    ]);
    expect(shaped?.records.slice(0, 3).map(({ cells }) => cells)).toEqual(records);
    expect(grid?.hiddenColumns).toEqual([5]);
    expect(grid?.merged).toEqual([{ firstRow: 1, lastRow: 1, firstColumn: 0, lastColumn: 5 }]);
  });

  it.each(["openpyxl-1900.xlsx", "xlsxwriter-1900.xlsx"])("%s: the hidden row is mentioned", async (file) => {
    const { grid, queries } = await read(file);
    expect(grid?.rows.filter(({ isHidden }) => isHidden).map(({ row }) => row)).toEqual([5]);
    expect(queries.map(({ code }) => code)).toEqual(["sheets-not-read", "rows-hidden", "columns-hidden"]);
  });

  it("a formula: XlsxWriter 3.2.9 stores its result, openpyxl 3.1.5 an empty one", async () => {
    const lastOf = async (file: string) => (await read(file)).grid?.rows.at(-1)?.cells.slice(2, 4);
    expect(await lastOf("xlsxwriter-1900.xlsx")).toEqual(["5.7", "#DIV/0!"]);
    expect(await lastOf("openpyxl-1900.xlsx")).toEqual(["=SUM(C4:C6)", "#REF!"]);
  });
});
