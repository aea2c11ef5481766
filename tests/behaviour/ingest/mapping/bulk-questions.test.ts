import { describe, expect, it } from "vitest";
import { readGrid } from "../../../../src/ingest/grid/index.js";
import { shapeSheet } from "../../../../src/ingest/index.js";
import {
  applyMapping,
  type Mapping,
  mappingText,
  proposeMapping,
  readMapping,
} from "../../../../src/ingest/mapping/index.js";

const header =
  "Patient;Injury date;Hand;Finger;Pulley;Grade;Treatment;Start;TPD loaded (mm);Full climbing;Last contact";
const record = (n: number, year: number) =>
  `K${n};${year}-03-1${n % 10};left;ring;A2;3;tape;${year}-03-2${n % 10};2.${n % 10};${year}-07-01;${year}-12-01`;
/** Two bands of a year, a legend between records, and distances without a day, in all of which nothing else is doubtful. */
const text = [
  header,
  "2022;;;;;;;;;;",
  ...[1, 2, 3, 4, 5, 6].map((n) => record(n, 2022)),
  "2023;;;;;;;;;;",
  ...[7, 8, 9, 10, 11, 12].map((n) => record(n, 2023)),
  "rings were made at the ward;;;;;;;;;;",
  ...[13, 14].map((n) => record(n, 2023)),
].join("\n");

const gridOf = (written: string) =>
  readGrid({ file: "ward.csv", bytes: new TextEncoder().encode(written) }).grid!;
const proposed = (written = text): Mapping =>
  proposeMapping(shapeSheet(gridOf(written))!, { name: "ward", table: "single_sheet" }).mapping;
/** Answered in the file, as somebody without a terminal would. */
const answeredInFile = (mapping: Mapping, answers: readonly string[]): Mapping => {
  const undecided = mapping.undecided.map((question, i) => ({ ...question, answer: answers[i] ?? null }));
  const written = mappingText({ ...mapping, undecided }, { head: [], settings: {}, columns: {} });
  return readMapping({ file: "mapping.yaml", text: written });
};

describe("one question for many rows", () => {
  it("the day of all distances without one, and all rows that hold hardly anything", () => {
    expect(proposed().undecided.map(({ question, decides }) => [question, decides])).toEqual([
      ["The first distances have no day of scan. On which day were they taken?", [["day_of_scan", "first"]]],
      [
        "Rows 2, 9, 16 hold hardly anything. Should they be left out?",
        [
          ["leave_out_rows", "2022"],
          ["leave_out_rows", "2023"],
          ["leave_out_rows", "rings were made at the ward"],
        ],
      ],
    ]);
  });

  it("answered with a column and to leave them out: every distance has its day, and every row is told of", () => {
    const mapping = answeredInFile(proposed(), ["Start", "leave_out"]);
    expect(mapping.columns.date_first_scan).toEqual({ from: "Start" });
    const read = applyMapping(gridOf(text), mapping);
    expect(read.read).toBe(14);
    expect(read.rows.map(({ cells }) => cells.date_first_scan)).toEqual(
      read.rows.map(({ cells }) => cells.treatment_start),
    );
    expect(read.leftOut.filter(({ kind }) => kind === "by the mapping").map(({ row }) => row)).toEqual([
      2, 9, 16,
    ]);
    expect(read.queries.filter(({ code }) => code === "row-left-out")).toHaveLength(3);
  });

  it("answered with no day and to keep them: the distances are a column that is not used, and the rows are rows", () => {
    const mapping = answeredInFile(proposed(), ["not_used", "keep"]);
    expect(Object.keys(mapping.columns).filter((name) => name.includes("distance"))).toEqual([]);
    const read = applyMapping(gridOf(text), mapping);
    expect(read.read).toBe(17);
    expect(read.columnsNotUsed).toContainEqual({ column: "TPD loaded (mm)", filled: 14 });
  });

  it("a row is not left out by words with which a record begins, and not where it holds a day", () => {
    const other = text
      .replace("2022;;;;;;;;;;", "K1;;;;;;;;;;")
      .replace("2023;;;;;;;;;;", "seen;2023-04-05;;;;;;;;;");
    expect(proposed(other).undecided.at(-1)?.decides).toEqual([
      ["leave_out_rows", "rings were made at the ward"],
    ]);
  });

  it("with the first visit given, the day of the first scan is not asked: the form says that it is that day", () => {
    const withVisit = text.replace("Treatment;Start", "Treatment;First visit");
    expect(proposed(withVisit).undecided.map(({ decides }) => decides[0]?.[0])).not.toContain("day_of_scan");
  });
});
