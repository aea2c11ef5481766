import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";
import { openStudy } from "../../../src/cli/study-input.js";
import { openSource, readCohort, type SourceFile, StopError } from "../../../src/ingest/index.js";
import { csvText, type TableName, tables } from "../../../src/schema/index.js";
import { codesOf, fileOf, plainRows, study } from "./sheets.js";
import { type SheetCell, styled, workbookBytes } from "./workbooks.js";

const formats = ["dd.mm.yyyy"];
const header = Object.keys(plainRows.single_sheet);
const day = (serial: number) => styled(serial, 1);
const plainRow: readonly SheetCell[] = ["P09", day(45_355), "left", "ring", "A2", 3, day(45_614)];

const workbook = (
  rows: readonly (readonly SheetCell[])[],
  table: TableName = "single_sheet",
): SourceFile => ({
  table,
  file: "clinic.xlsx",
  bytes: workbookBytes({ sheets: [{ name: "Patients", rows }], formats }),
});

describe("a workbook in our columns", () => {
  it("gives the same cohort as the same table in CSV", async () => {
    const csv = csvText(header, [header.map((name) => plainRows.single_sheet[name as "person"])]);
    const fromText = readCohort([fileOf("single_sheet", csv)], study);
    const fromWorkbook = readCohort([await openSource(workbook([header, plainRow]))], study);
    const named = JSON.parse(JSON.stringify(fromText).replaceAll("single_sheet.csv", "clinic.xlsx"));
    expect(fromWorkbook).toEqual(named);
    expect(fromWorkbook.tables.injuries).toMatchObject([
      { row: 2, values: { injury_date: "2024-03-04", grade: "3", last_contact_date: "2024-11-18" } },
    ]);
  });

  it("rows keep the numbers that the spreadsheet shows, and are all accounted for", async () => {
    const rows = [[], header, [], plainRow, ["P10", { attributes: 't="e"', inner: "<v>#REF!</v>" }, "left"]];
    const { accounts, queries } = readCohort([await openSource(workbook(rows))], study);
    expect(accounts).toMatchObject([{ file: "clinic.xlsx", read: 2, used: 1, setAside: [{ row: 5 }] }]);
    expect(queries).toContainEqual(
      expect.objectContaining({ code: "missing-in-words", row: 5, column: "injury_date", found: "#REF!" }),
    );
  });

  it("a cell joined over two rows, as of a person with two fingers, gives its value to both, and is mentioned", async () => {
    const second: readonly SheetCell[] = [null, null, "left", "middle", "A2", 2, day(45_614)];
    const behind = '<mergeCells><mergeCell ref="A2:A3"/><mergeCell ref="B2:B3"/></mergeCells>';
    const sheets = [{ name: "P", rows: [header, plainRow, second], behind }];
    const source: SourceFile = { ...workbook([]), bytes: workbookBytes({ sheets, formats }) };
    const { tables: read, queries } = readCohort([await openSource(source)], study);
    expect(read.injuries.map(({ values }) => [values.person_id, values.injury_date, values.finger])).toEqual([
      ["P09", "2024-03-04", "ring"],
      ["P09", "2024-03-04", "middle"],
    ]);
    expect(queries).toMatchObject([
      { code: "cells-joined", row: 2, column: "A", facts: { rows: "2 to 3" } },
      { code: "cells-joined", row: 2, column: "B" },
    ]);
  });

  it("a formula without a result is asked about; it is no blank", async () => {
    const row = [...plainRow.slice(0, 6), { inner: "<f>B2+7</f>" }];
    const { accounts, queries } = readCohort([await openSource(workbook([header, row]))], study);
    expect(accounts).toMatchObject([{ read: 1, used: 0 }]);
    expect(queries).toMatchObject([{ column: "last_contact", found: "=B2+7", severity: "set-aside" }]);
  });

  it("what is the matter with a header is said as for CSV", async () => {
    const stops = async (rows: readonly (readonly SheetCell[])[]) => {
      const source = await openSource(workbook(rows));
      try {
        readCohort([source], study);
        return [];
      } catch (error) {
        return error instanceof StopError ? codesOf(error.queries) : [String(error)];
      }
    };
    expect(await stops([["List of 2024"], [], header, plainRow])).toEqual(["header-not-first"]);
    expect(await stops([header])).toEqual(["file-header-only"]);
    expect(await stops([[...header.slice(1)], plainRow.slice(1)])).toEqual(["column-missing"]);
  });

  it("what cannot be read stops with the reason", async () => {
    const source = await openSource({ ...workbook([header]), bytes: Uint8Array.from([0x50, 0x4b, 3, 4, 0]) });
    expect(() => readCohort([source], study)).toThrow(/clinic\.xlsx: this file is a workbook whose parts/);
  });

  it("other files are handed on as they are", async () => {
    const source = fileOf("single_sheet", "person\nP1");
    expect(await openSource(source)).toBe(source);
  });
});

describe("a study whose tables are sheets of one workbook", () => {
  it("reads each sheet by its name, and has one fingerprint of the file", async () => {
    const folder = await mkdtemp(join(tmpdir(), "sheets-"));
    onTestFinished(() => rm(folder, { recursive: true }));
    const sheetOf = (name: string, table: "injuries" | "treatments") => ({
      name,
      rows: [Object.keys(plainRows[table]), Object.values(plainRows[table])],
    });
    const sheets = [
      { name: "Notes", rows: [["x"]] },
      sheetOf("Inj", "injuries"),
      sheetOf("Tx", "treatments"),
    ];
    await writeFile(join(folder, "clinic.xlsx"), workbookBytes({ sheets }));
    const lines = [
      "study: two-sheets",
      "title: Two sheets",
      "synthetic: true",
      "data:",
      "  injuries: clinic.xlsx",
      "  treatments: clinic.xlsx",
      "  sheets: { injuries: Inj, treatments: Tx }",
    ];
    await writeFile(join(folder, "study.yaml"), `${lines.join("\n")}\n`);
    const silent = { say: () => {}, notice: () => {}, progress: () => {} };
    const { read, inputs } = await openStudy(join(folder, "study.yaml"), silent);
    expect(read.accounts).toMatchObject([
      { table: "injuries", file: "clinic.xlsx [Inj]", read: 1, used: 1 },
      { table: "treatments", file: "clinic.xlsx [Tx]", read: 1, used: 1 },
    ]);
    expect(inputs).toHaveLength(1);
    expect(Object.keys(tables)).toContain(read.accounts[0]!.table);
  });
});
