import { describe, expect, it } from "vitest";
import { readGrid } from "../../../../src/ingest/grid/index.js";
import { readCohort, shapeSheet } from "../../../../src/ingest/index.js";
import {
  applyMapping,
  type Mapping,
  openMapped,
  proposeMapping,
} from "../../../../src/ingest/mapping/index.js";
import { settleQuestion } from "../../../../src/ingest/mapping/settle.js";

const header = (name: string) => `Patient,Injured on,Hand,Finger,Pulley,Grade,Treatment,${name},Last seen`;
const record = (cell: string, i: number) =>
  `K${i},2023-02-0${i + 1},left,ring,A2,2,${i % 2 === 0 ? "tape" : "ring"},${cell},2023-11-01`;
const sheet = (name: string, cells: readonly string[]) => [header(name), ...cells.map(record)].join("\n");
const gridOf = (written: string) =>
  readGrid({ file: "ward.csv", bytes: new TextEncoder().encode(written) }).grid!;
const proposed = (written: string, settled: ReadonlyMap<string, string> = new Map()): Mapping =>
  proposeMapping(shapeSheet(gridOf(written))!, { name: "ward", table: "single_sheet", settled }).mapping;
const answered = (mapping: Mapping, answers: readonly string[]): Mapping =>
  answers.reduce(
    (before, answer) => settleQuestion(before, { question: before.undecided[0]!, answer }),
    mapping,
  );
const fullIn = (written: string, mapping: Mapping) =>
  applyMapping(gridOf(written), mapping).rows.map(({ cells }) => cells.full);
const asked = ({ undecided }: Mapping) => undecided.map(({ decides }) => decides[0]!.join("."));

// counted by hand: day 42 after Wednesday 1 February 2023 is 15 March; a time in weeks is known to three days either
// side, in months (of 30.4375 days) to fifteen; "later than 12 weeks" after 6 February is later than 1 May
const mixed = ["6/52", "3/12", "5/7", "not yet", "gave up", ">12", "2023-06-01"];

describe("returns told in times, days and ends, one cell so and the next so", () => {
  it("are taken for the return that the header names, and only the unit of a bare number is asked", () => {
    const mapping = proposed(sheet("Back to full climbing", mixed));
    expect(mapping.not_used).toEqual([]);
    expect(mapping.columns.full).toMatchObject({ from: "Back to full climbing", fractions: "times" });
    expect(asked(mapping)).toEqual(["columns.full.counted"]);
  });

  it("are read with the answer, each as exactly as it is told", () => {
    const written = sheet("Back to full climbing", mixed);
    const mapping = answered(proposed(written), ["weeks"]);
    expect(fullIn(written, mapping)).toEqual([
      "2023-03-12/2023-03-18",
      "2023-04-19/2023-05-20",
      "2023-02-08",
      "",
      "",
      ">2023-05-01",
      "2023-06-01",
    ]);
    expect(applyMapping(gridOf(written), mapping).rows[4]!.cells.end_status).toBe("gave_up");
  });

  it("3/12 without weeks over 52 beside it, or beside dates with the year last, may be a date: one question", () => {
    const alone = proposed(sheet("Back to full climbing", ["3/12", "5/7", "not yet", "2023-06-01"]));
    expect(asked(alone)).toEqual(["columns.full.fractions"]);
    const yearLast = sheet("Back to full climbing", mixed).replaceAll(/2023-(\d\d)-(\d\d)/g, "$2.$1.2023");
    expect(asked(proposed(yearLast))).toContain("columns.full.fractions");
  });

  it.each([
    ["times", ["2023-04-18/2023-05-19", "2023-02-07"]],
    ["asked", ["3/12", "5/7"]],
  ])("answered %s, they are read so", (answer, expected) => {
    const written = sheet("Back to full climbing", ["3/12", "5/7"]);
    expect(fullIn(written, answered(proposed(written), [answer]))).toEqual(expected);
  });
});

describe("a column whose name speaks of a field", () => {
  it.each([
    ["words that say nothing of a day", "Return", ["ok", "some pain", "fine"]],
    ["plain numbers without a unit", "Back", ["8", "12", "-"]],
    ["prose", "Back to full climbing", ["after the summer", "see letter", "he says soon"]],
  ])("is asked about, whatever its cells hold: %s", (_, name, cells) => {
    const mapping = proposed(sheet(name, cells));
    expect(asked(mapping)).toEqual([`meaning.${name}`]);
    expect(Object.keys(mapping.undecided[0]!.choices)).toEqual(expect.arrayContaining(["full", "not_used"]));
    expect(mapping.not_used).toEqual([]);
  });

  it("answered with a field, is read as it would have been with the surer name", () => {
    // "Back" names three returns alike, so that the column is asked about
    const written = sheet("Back", ["6/52", "3/12", "5/7", "2023-06-01"]);
    const mapping = proposed(written);
    expect(asked(mapping)).toEqual(["meaning.Back"]);
    expect(fullIn(written, answered(mapping, ["full"]))).toEqual([
      "2023-03-12/2023-03-18",
      "2023-04-19/2023-05-20",
      "2023-02-08",
      "2023-06-01",
    ]);
  });

  it("settled, asks what its plain numbers count", () => {
    const written = sheet("Back", ["8", "12"]);
    const mapping = proposed(written, new Map([["full", "Back"]]));
    expect(asked(mapping)).toEqual(["columns.full.counted"]);
    expect(fullIn(written, answered(mapping, ["weeks"]))).toEqual([
      "2023-03-26/2023-04-01",
      "2023-04-24/2023-04-30",
    ]);
  });

  it("settled without that answer, raises a query that says where to write it", async () => {
    const written = sheet("Back", ["8", "3/12", ">12"]);
    const mapping = { ...proposed(written), undecided: [], not_used: [] };
    const opened = await openMapped(
      { table: "single_sheet", file: "ward.csv", bytes: new TextEncoder().encode(written) },
      { mapping: { ...mapping, columns: { ...mapping.columns, full: { from: "Back" } } } },
    );
    const { queries } = readCohort([opened], { closedOn: null, thresholdMm: 2 });
    expect(queries.filter(({ code }) => code === "time-without-unit").map(({ found }) => found)).toEqual([
      "8",
      "3/12",
      ">12",
    ]);
  });
});
