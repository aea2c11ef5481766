import { readFileSync } from "node:fs";
import Papa from "papaparse";
import { beforeAll, describe, expect, it } from "vitest";
import {
  type ReadSource,
  readCohortForSite,
  readFileAsGrid,
  shapeSheet,
} from "../../../../src/ingest/index.js";
import { openMapped, proposeMapping } from "../../../../src/ingest/mapping/index.js";
import { study } from "../sheets.js";
import { answersOf, type Line } from "./answers.js";

const file = "05-twice-and-tenfold.csv";

describe("answers about a file that was translated", () => {
  let source: ReadSource;
  const read = (lines: readonly Line[]) =>
    readCohortForSite([source], { ...study, answers: answersOf(lines) });
  const aboutRow5 = (lines: readonly Line[]) =>
    read(lines)
      .queries.filter(({ row, file: of }) => row === 5 && of === file)
      .map(({ code, found }) => [code, found]);

  beforeAll(async () => {
    const bytes = readFileSync(new URL(`../awful/${file}`, import.meta.url));
    const { grid } = await readFileAsGrid({ file, bytes });
    const { mapping } = proposeMapping(shapeSheet(grid!)!, { name: "site", table: "single_sheet" });
    source = await openMapped({ table: "single_sheet", file, bytes }, { mapping });
  });

  const idOfSlip = () => read([]).open.find(({ query }) => query.code === "number-out-of-range")!.id;

  it("a query about the new text of a cell repeats that, and the one that was answered keeps what the file says", () => {
    expect(aboutRow5([])).toEqual([["number-out-of-range", "31"]]);
    const change = [{ id: idOfSlip(), answer: "change", new_value: "3.1" }];
    expect(aboutRow5(change)).toEqual([
      ["first-distance-after-treatment", "2024-04-19"],
      ["distance-against-grade", "3.1"],
    ]);
    const { data } = Papa.parse<Record<string, string>>(read(change).csv, { header: true });
    expect(data.filter(({ row }) => row === "5").map(({ rule, found }) => [rule, found])).toEqual([
      ["distance-against-grade", "3.1"],
      ["first-distance-after-treatment", "2024-04-19"],
      ["number-out-of-range", "31"],
    ]);
  });

  it("new text that cannot be read is asked about as such", () => {
    const change = [{ id: idOfSlip(), answer: "change", new_value: "three" }];
    expect(aboutRow5(change)).toEqual([["number-unreadable", "three"]]);
  });
});
