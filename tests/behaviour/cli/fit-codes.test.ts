import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { workbookBytes } from "../ingest/workbooks.js";
import { command, folderWith } from "./run-command.js";

const rows = [
  [
    "subject",
    "inj_date",
    "side",
    "finger",
    "pulley",
    "grade",
    "tx",
    "tx start",
    "full climbing",
    "last contact",
  ],
  ["S1", "2024-03-04", "1", "3", "A2", "3", "2", "2024-03-10", "2024-09-02", "2024-12-02"],
  ["S2", "2024-03-11", "2", "2", "A4", "2", "1", "2024-03-12", "2024-05-20", "2024-12-10"],
  ["S3", "2024-03-18", "1", "3", "A2", "3", "3", "2024-03-26", "", "2024-12-15"],
  ["S4", "2024-03-25", "2", "3", "A2", "1", "1", "2024-03-25", "2024-05-06", "2024-11-20"],
];
const text = (cells: readonly (readonly string[])[]) => cells.map((row) => row.join(";")).join("\n");
const study = `study: trial
title: SYNTHETIC trial
synthetic: true
data:
  single_sheet: FILE
  mappings:
    single_sheet: mapping.yaml
`;

const book = [
  ["Codes of our ward", "", ""],
  ["column", "code", "meaning"],
  ["side", "1", "left"],
  ["", "2", "right"],
  ["finger", "1", "index"],
  ["", "2", "middle"],
  ["", "3", "ring"],
  ["tx", "1", "tape"],
  ["", "2", "ring splint"],
  ["", "3", "operation"],
  ["", "4", "rest"],
];
const reordered = [
  ["meaning", "since", "code", "column"],
  ["left", "2019", "1", "side"],
  ["right", "2019", "2", "side"],
  ["index", "2019", "1", "finger"],
  ["middle", "2019", "2", "finger"],
  ["ring", "2019", "3", "finger"],
  ["tape", "2019", "1", "tx"],
  ["ring splint", "2021", "2", "tx"],
  ["operation", "2019", "3", "tx"],
  ["rest", "2019", "4", "tx"],
];
const inOneCell = [
  ["name", "codes"],
  ["side", "1 = left, 2 = right"],
  ["finger", "1 = index, 2 = middle, 3 = ring"],
  ["tx", "1 = tape, 2 = ring splint, 3 = operation, 4 = rest"],
];

/** The columns of codes as the mapping has them, the codes of no row in this file among them. */
const asItReads = {
  hand: { from: "side", values: { "1": "left", "2": "right" } },
  finger: { from: "finger", values: { "1": "index", "2": "middle", "3": "ring" } },
  treatment: { from: "tx", values: { "1": "tape", "2": "ring", "3": "surgery", "4": "rest" } },
};

describe("fit with a code book", () => {
  it.each([
    ["one code a row, a name only once, below a title", text(book)],
    ["its columns in another order, with one between them", text(reordered)],
    ["all codes of a column in one cell", text(inOneCell)],
    [
      "codes and labels parted by bars and commas",
      text(inOneCell).replaceAll(", ", " | ").replaceAll(" = ", ", "),
    ],
  ])("as a file: %s", async (_, codes) => {
    const folder = folderWith({
      "ward.csv": text(rows),
      "codes.csv": codes,
      "study.yaml": study.replace("FILE", "ward.csv"),
    });
    const { code, stdout } = await command(folder, "fit", "ward.csv", "--codes", "codes.csv");
    expect(stdout).toContain("Codes are read by codes.csv: side (2 codes), finger (3 codes), tx (4 codes)");
    expect(stdout).toContain("by first treatment: ring (1), surgery (1), tape (2)");
    expect(code).toBe(0);
    expect(parse(readFileSync(join(folder, "mapping.yaml"), "utf8")).columns).toMatchObject(asItReads);
    const checked = await command(folder, "check", "study.yaml");
    expect(checked.stdout).toContain("4 rows read = 4 used + 0 set aside");
  });

  it("as a sheet of the workbook, without being named", async () => {
    const bytes = workbookBytes({
      sheets: [
        { name: "Ward", rows },
        { name: "Legend", rows: book },
      ],
    });
    const folder = folderWith({ "ward.xlsx": bytes });
    const { code, stdout } = await command(folder, "fit", "ward.xlsx");
    expect(stdout).toContain('Codes are read by sheet "Legend"');
    expect(code).toBe(0);
    expect(parse(readFileSync(join(folder, "mapping.yaml"), "utf8")).columns).toMatchObject(asItReads);
  });

  it("a file that tells of no code in the sheet is refused, and nothing is written", async () => {
    const folder = folderWith({ "ward.csv": text(rows), "codes.csv": "a;b;c\nside;left;1\n" });
    const { code, stderr } = await command(folder, "fit", "ward.csv", "--codes", "codes.csv");
    expect(code).toBe(3);
    expect(stderr).toContain("codes.csv: it says nothing about the codes of the file.");
  });
});
