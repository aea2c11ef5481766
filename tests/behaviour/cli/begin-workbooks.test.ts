import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { type DataValidation, Workbook, type Worksheet } from "@cj-tech-master/excelts";
import { strFromU8, unzipSync } from "fflate";
import Papa from "papaparse";
import { beforeAll, describe, expect, it } from "vitest";
import { readFileAsGrid } from "../../../src/ingest/index.js";
import { type Field, linkedTableNames, type Table, tables } from "../../../src/schema/index.js";
import { command, folderWith } from "./run-command.js";

// The program that opens a workbook is another than ours: limits of its checks and messages are those of
// ECMA-376-1:2016, 18.3.1.32 (dataValidation) and 18.3.1.33, and its own rule of 255 letters a formula or list.
const longestMessage = 255;

const linked = linkedTableNames.map((name) => ({ table: tables[name] as Table, base: name as string }));
const all = [...linked, { table: tables.single_sheet as Table, base: "sheet" }];

let folder = "";
const file = (base: string): Uint8Array =>
  new Uint8Array(readFileSync(join(folder, base === "sheet" ? "one" : "five", `${base}.xlsx`)));
const sheetIn = async (base: string): Promise<{ workbook: Workbook; sheet: Worksheet }> => {
  const workbook = new Workbook();
  await workbook.xlsx.load(Buffer.from(file(base)));
  return { workbook, sheet: workbook.getWorksheet(base)! };
};
const checkOf = (sheet: Worksheet, { fields }: Table, field: Field): DataValidation | undefined => {
  const { letter } = sheet.getColumn(fields.indexOf(field) + 1);
  return Object.entries(sheet.dataValidations.model).find(([address]) =>
    new RegExp(`(^|range:)${letter}2(:|$)`).test(address),
  )?.[1] as DataValidation | undefined;
};

beforeAll(async () => {
  folder = folderWith({});
  await command(folder, "begin", "one");
  await command(folder, "begin", "five", "--form", "linked");
});

describe("the workbooks of begin", () => {
  it.each(all)("$base has the columns of its table, and nothing below them", async ({ table, base }) => {
    const { grid, queries } = await readFileAsGrid({ file: "x.xlsx", bytes: file(base) }, { sheet: base });
    expect(grid?.rows.map(({ cells }) => cells)).toEqual([table.fields.map(({ name }) => name)]);
    expect(queries).toEqual([]);
  });

  it.each(all)("$base says of each column what its field says", async ({ table, base }) => {
    const { sheet } = await sheetIn(base);
    for (const [i, field] of table.fields.entries()) {
      const { note } = sheet.getCell(1, i + 1);
      const text = typeof note === "string" ? note : (note?.texts ?? []).map((part) => part.text).join("");
      expect(text).toContain(field.description);
      for (const term of field.terms ?? []) expect(text).toContain(term);
      if (field.minimum !== undefined) expect(text).toContain(`From ${field.minimum} to ${field.maximum}`);
      expect(text.includes("must be filled in"), field.name).toBe(field.required);
    }
  });

  it.each(all)(
    "$base offers the words of a list, from the cells themselves or a sheet",
    async ({ table, base }) => {
      const { workbook, sheet } = await sheetIn(base);
      for (const field of table.fields.filter(({ terms }) => terms !== undefined)) {
        const check = checkOf(sheet, table, field) as Exclude<DataValidation, { type: "any" }>;
        expect([field.name, check.type]).toEqual([field.name, "list"]);
        const [list] = check.formulae as [string];
        expect(list.length).toBeLessThanOrEqual(longestMessage + 2);
        const elsewhere = /^(\w+)!\$(\w+)\$(\d+):\$\w+\$(\d+)$/.exec(list);
        const offered =
          elsewhere === null
            ? list.slice(1, -1).split(",")
            : Array.from({ length: Number(elsewhere[4]) - Number(elsewhere[3]) + 1 }, (_, i) =>
                String(
                  workbook.getWorksheet(elsewhere[1]!)!.getCell(`${elsewhere[2]}${Number(elsewhere[3]) + i}`)
                    .value,
                ),
              );
        expect(offered).toEqual(field.terms);
        // several words in one cell, as A2|A3, are no word of the list and must not be refused
        expect(check.showErrorMessage === true, field.name).toBe(field.kind === "choice");
      }
    },
  );

  it.each(all)("$base refuses days and numbers outside what the field holds", async ({ table, base }) => {
    const { sheet } = await sheetIn(base);
    for (const field of table.fields) {
      const check = checkOf(sheet, table, field);
      if (field.kind === "text") expect(check).toBeUndefined();
      if (check === undefined || check.type === "any") continue;
      expect(check.allowBlank, field.name).toBe(true);
      for (const message of [check.error ?? "", check.prompt ?? "", String(check.formulae[0])])
        expect(message.length, field.name).toBeLessThanOrEqual(longestMessage);
      if (field.kind === "date") expect(check).toMatchObject({ type: "date", operator: "between" });
      if (field.kind === "number" || field.kind === "integer") {
        expect(check.type).toBe(field.kind === "number" ? "decimal" : "whole");
        expect(check.formulae.map(Number)).toEqual([field.minimum, field.maximum]);
      }
      if (field.kind === "bounded") expect(String(check.formulae[0])).toContain(`<=${field.maximum}`);
    }
  });

  it("are the same bytes at another time and in another time zone, and name no other program", async () => {
    const before = process.env.TZ;
    try {
      process.env.TZ = "Asia/Tokyo";
      await command(folder, "begin", "again", "--form", "linked");
    } finally {
      if (before === undefined) delete process.env.TZ;
      else process.env.TZ = before;
    }
    for (const { base } of linked) {
      const again = new Uint8Array(readFileSync(join(folder, "again", `${base}.xlsx`)));
      expect(again, base).toEqual(file(base));
      const made = ["docProps/app.xml", "docProps/core.xml"].map((part) =>
        strFromU8(unzipSync(again)[part]!),
      );
      expect(made.join(""), base).not.toMatch(/excel/i);
    }
  });

  it("filled in, are read as the CSV with the same rows", async () => {
    const csv = readFileSync(
      fileURLToPath(
        new URL("../../../synthetic-data/one-clinic/synthetic-single-sheet.csv", import.meta.url),
      ),
      "utf8",
    );
    const { data } = Papa.parse<Record<string, string>>(csv.trim(), { header: true });
    const { workbook, sheet } = await sheetIn("sheet");
    const { fields } = tables.single_sheet as Table;
    for (const row of data) sheet.addRow(fields.map((field) => asTyped(field, row[field.name] ?? "")));
    writeFileSync(join(folder, "one/sheet.xlsx"), Buffer.from(await workbook.xlsx.writeBuffer()));
    writeFileSync(join(folder, "one/sheet.csv"), csv);
    const study = readFileSync(join(folder, "one/study.yaml"), "utf8");
    writeFileSync(join(folder, "one/other.yaml"), study.replace("sheet.csv", "sheet.xlsx"));
    const [ofSheet, ofWorkbook] = [
      await command(folder, "check", "one/study.yaml"),
      await command(folder, "check", "one/other.yaml"),
    ];
    expect(ofWorkbook.code).toBe(ofSheet.code);
    expect(ofWorkbook.stdout.replaceAll("sheet.xlsx", "sheet.csv")).toBe(ofSheet.stdout);
    expect(ofSheet.stdout).toMatch(/60 rows/);
    expect((await command(folder, "report", "one/other.yaml", "--into", "one/report")).code).toBe(0);
  });
});

/** A cell as somebody would type it: a day into a cell for days becomes a day, a number a number, all else is text. */
function asTyped({ kind }: Field, text: string): Date | number | string | null {
  if (text === "") return null;
  if (kind === "date") return new Date(`${text}T00:00:00Z`);
  return kind === "number" || kind === "integer" || (kind === "bounded" && /^\d/.test(text))
    ? Number(text)
    : text;
}
