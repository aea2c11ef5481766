import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { readCohort } from "../../../src/ingest/index.js";
import { openMapped, readMapping } from "../../../src/ingest/mapping/index.js";
import {
  csvOf,
  forms,
  type Rows,
  transposed,
  twoLinesWorkbook,
  workbookOf,
  years,
  yearsTogether,
} from "../ingest/shapes/workbooks.js";
import { command, folderWith } from "./run-command.js";

const pivoted = readFileSync(new URL("../ingest/shapes/06-a-person-a-column.csv", import.meta.url), "utf8");

/** Fits a file in a fresh folder. */
async function fitted(file: string, content: string | Uint8Array, ...options: readonly string[]) {
  const folder = folderWith({ [file]: content });
  const said = await command(folder, "fit", file, ...options);
  return { ...said, folder, isWritten: existsSync(join(folder, "mapping.yaml")) };
}

const counts = (stdout: string): readonly string[] => {
  const lines = stdout.split("\n");
  const from = lines.findIndex((line) => line.startsWith("What a study would count"));
  return lines.slice(from + 1, lines.indexOf("", from)).map((line) => line.trim());
};

describe("a person a column, a milestone a row", () => {
  it("is refused with the way to change the sheet, and nothing is written", async () => {
    const { code, stderr, isWritten } = await fitted("turned.csv", pivoted);
    expect({ code, isWritten }).toEqual({ code: 3, isWritten: false });
    expect(stderr).toContain("each person has a column");
    expect(stderr).toContain("paste it transposed");
  });

  it("transposed as told, one answer is left: 6 people, 5 of them back", async () => {
    const rows: Rows = pivoted
      .trimEnd()
      .split("\n")
      .map((line) => line.split(";"));
    const { folder, code } = await fitted("turned.csv", csvOf(transposed(rows)));
    expect(code).toBe(1);
    const path = join(folder, "mapping.yaml");
    const { undecided } = parse(readFileSync(path, "utf8"));
    expect(undecided.map(({ question }: { question: string }) => question)).toEqual([
      "Which column contains person (Pseudonym of the person)? Every row needs it.",
    ]);
    writeFileSync(path, readFileSync(path, "utf8").replace("answer:\n", "answer: Milestone\n"));
    const again = await command(
      folder,
      "fit",
      "turned.csv",
      "--mapping",
      "mapping.yaml",
      "--into",
      "two.yaml",
    );
    expect(counts(again.stdout)).toEqual([
      "6 rows read = 6 used + 0 set aside",
      "6 people, 6 injuries",
      "by grade: 1 (1), 2 (2), 3 (3)",
      "by first treatment: ring (3), tape (3)",
      "back to full climbing: 5 of 6; others: not yet (1)",
      "injured from 2024-01-05 to 2024-04-04; last contact from 2024-11-03 to 2024-12-06",
    ]);
  });
});

describe("one tab a year, with names and order of columns that change", () => {
  it("is refused with every tab and its rows: the others would be missing", async () => {
    const { code, stderr, isWritten } = await fitted("years.xlsx", workbookOf(years));
    expect({ code, isWritten }).toEqual({ code: 3, isWritten: false });
    for (const said of [
      '"2022" (3 rows)',
      '"2023" (4 rows)',
      '"2024" (3 rows)',
      "part of 10 rows",
      "--sheet",
    ])
      expect(stderr).toContain(said);
  });

  it("one of them is read where somebody names it", async () => {
    const { stdout } = await fitted("years.xlsx", workbookOf(years), "--sheet", "2023");
    expect(stdout).toContain('other sheets: "2022", "2024"');
    expect(counts(stdout)[0]).toBe("4 rows read = 4 used + 0 set aside");
  });

  it("together in one sheet as told, all ten are read", async () => {
    const { code, stdout } = await fitted("years.csv", csvOf(yearsTogether));
    expect(code).toBe(0);
    expect(counts(stdout)).toEqual([
      "10 rows read = 10 used + 0 set aside",
      "10 people, 10 injuries",
      "by grade: 1 (2), 2 (5), 3 (3)",
      "by first treatment: ring (3), tape (7)",
      "back to full climbing: 8 of 10; others: not yet (2)",
      "injured from 2022-02-03 to 2024-08-23; last contact from 2022-12-01 to 2024-12-07",
    ]);
  });
});

describe("one tab a patient, each a form", () => {
  it("is refused with how many there are and how to bring them together", async () => {
    const { code, stderr, isWritten } = await fitted("forms.xlsx", workbookOf(forms));
    expect({ code, isWritten }).toEqual({ code: 3, isWritten: false });
    expect(stderr).toContain("2 other sheets are of this form");
    expect(stderr).toContain("as one row below a common header");
  });

  it("brought together as told, every patient is read", async () => {
    const rows = Object.values(forms).map((form) => form.map(([, entry]) => entry!));
    const { code, stdout } = await fitted("forms.csv", csvOf([yearsTogether[0]!, ...rows]));
    expect(code).toBe(0);
    expect(counts(stdout)).toEqual([
      "3 rows read = 3 used + 0 set aside",
      "3 people, 3 injuries",
      "by grade: 1 (1), 2 (1), 3 (1)",
      "by first treatment: ring (1), tape (2)",
      "back to full climbing: 2 of 3; others: not yet (1)",
      "injured from 2024-01-05 to 2024-02-11; last contact from 2024-11-03 to 2024-12-02",
    ]);
  });
});

describe("a header of two lines with joined cells and units", () => {
  it("is read under the joined names, each distance in its own unit, a joined person in both rows", async () => {
    const { code, stdout, folder } = await fitted("lines.xlsx", twoLinesWorkbook());
    const path = join(folder, "mapping.yaml");
    const { columns, undecided } = parse(readFileSync(path, "utf8"));
    expect(columns.injury_date).toEqual({ from: "Injury / Date" });
    expect(columns.distance_rest_first).toEqual({ from: "Tendon-phalanx distance / at rest" });
    expect(columns.distance_loaded_first).toEqual({ from: "Tendon-phalanx distance / loaded", unit: "cm" });
    expect(code).toBe(1);
    expect(undecided.map(({ decides }: { decides: unknown }) => decides)).toEqual([
      [["day_of_scan", "first"]],
    ]);
    const text = readFileSync(path, "utf8").replace("answer:\n", "answer: Treatment / Start\n");
    const mapping = readMapping({ file: "mapping.yaml", text });
    const opened = await openMapped(
      { table: "single_sheet", file: "lines.xlsx", bytes: twoLinesWorkbook() },
      { mapping },
    );
    const { imaging } = readCohort([opened], { closedOn: null, thresholdMm: 2 }).tables;
    const loaded = imaging.filter(({ values }) => values.position === "loaded");
    expect(loaded.map(({ values }) => [values.date, values.distance_mm])).toEqual([
      ["2024-01-12", 3.4],
      ["2024-06-20", 2.1],
      ["2024-02-12", 1.2],
      ["2024-03-08", 3.8],
    ]);
    expect(stdout).toContain("rows that are not records: 3 (units)");
    expect(counts(stdout)).toEqual([
      "4 rows read = 4 used + 0 set aside",
      "3 people, 4 injuries",
      "by grade: 1 (1), 2 (1), 3 (2)",
      "by first treatment: ring (2), tape (2)",
      "back to full climbing: 3 of 4; others: not yet (1)",
      "injured from 2024-01-05 to 2024-06-19; last contact from 2024-11-03 to 2024-12-04",
    ]);
  });
});
