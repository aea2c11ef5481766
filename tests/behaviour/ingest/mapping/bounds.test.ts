import { describe, expect, it } from "vitest";
import { readCohort } from "../../../../src/ingest/index.js";
import { applyMapping, mappingSchema, openMapped } from "../../../../src/ingest/mapping/index.js";
import { csvText } from "../../../../src/schema/index.js";
import { answer, planSchema } from "../../../../src/study/index.js";

const header = ["id", "injured", "hand", "finger", "pulley", "grade", "therapy", "from", "full", "seen"];
const columns = {
  person: { from: "id" },
  injury_date: { from: "injured" },
  hand: { from: "hand" },
  finger: { from: "finger" },
  pulleys: { from: "pulley" },
  grade: { from: "grade" },
  treatment: { from: "therapy" },
  treatment_start: { from: "from" },
  full: { from: "full", counted: "weeks" },
  last_contact: { from: "seen" },
};
const mapping = mappingSchema.parse({
  mapping: "bounds",
  date_order: "day-first",
  header_rows: [1],
  columns,
});
const row = (full: string, id = "P1", therapy = "tape") => [
  id,
  "04.03.2024",
  "left",
  "ring",
  "A2",
  "2",
  therapy,
  "10.03.2024",
  full,
  "18.11.2024",
];
const gridOf = (rows: readonly (readonly string[])[]) => ({
  file: "bounds.csv",
  sheet: null,
  merged: [],
  rows: rows.map((cells, i) => ({ row: i + 1, cells })),
});
const fullOf = (cell: string) =>
  applyMapping(gridOf([header, row(cell)]) as unknown as Parameters<typeof applyMapping>[0], mapping).rows[0]!
    .cells.full;

const opened = (rows: readonly (readonly string[])[]) =>
  openMapped(
    {
      table: "single_sheet",
      file: "bounds.csv",
      bytes: new TextEncoder().encode(csvText(header, rows)),
    },
    { mapping },
  );

describe("a return of which only a bound is known", () => {
  // counted by hand from Monday 4 March 2024: day 84 is 27 May
  it.each([
    [">12", ">2024-05-27"],
    ["> 12 wks", ">2024-05-27"],
    ["12+", ">2024-05-26"],
    ["≥12", ">2024-05-26"],
    ["more than 12 weeks", ">2024-05-27"],
    ["mehr als 12 Wochen", ">2024-05-27"],
    ["plus de 12 semaines", ">2024-05-27"],
    ["più di 12 settimane", ">2024-05-27"],
    ["más de 12 semanas", ">2024-05-27"],
    ["langer dan 12 weken", ">2024-05-27"],
    ["ponad 12 tyg", ">2024-05-27"],
    [">27.05.2024", ">2024-05-27"],
    ["<12", "2024-03-04/2024-05-26"],
    ["within 12 wks", "2024-03-04/2024-05-26"],
  ])("%s is read as %s", (cell, text) => {
    expect(fullOf(cell)).toBe(text);
  });

  it.each([">8-10", ">12 parsecs", "> "])("%s stays as it is written", (cell) => {
    expect(fullOf(cell)).toBe(cell.trim());
  });

  it("is censored at the bound: never placed there, and not followed to the last contact", async () => {
    const cells = [">12", "", "30", "gave up"];
    const read = readCohort([await opened(cells.map((cell, i) => row(cell, `P${i}`)))], {
      closedOn: "2025-06-30",
      thresholdMm: 2,
    });
    expect(read.tables.injuries[0]!.values).toMatchObject({
      full_climbing_date: null,
      full_climbing_precision: "later",
      full_climbing_not_before: "2024-05-27",
      full_climbing_not_after: null,
    });
    const plan = planSchema.parse({
      study: "bounds",
      title: "Bounds",
      data: { single_sheet: "bounds.csv", closed_on: "2025-06-30" },
      question: { inexact_returns: "on_one_day" },
    });
    const points = answer(read, plan).curves[0]!.curves[0]!.points;
    // of four, one is last seen not back on day 84 and one on day 259; one is back in week 30, one gave up
    expect(points.filter(({ censored }) => censored > 0).map(({ day, censored }) => [day, censored])).toEqual(
      [
        [84, 1],
        [259, 1],
      ],
    );
  });

  it("is not read beside a date that contradicts it", () => {
    const injuries = [
      ["injury_id", "person_id", "injury_date", "hand", "finger", "pulleys", "grade", "last_contact_date"],
      ["1", "a", "2024-03-04", "left", "ring", "A2", "2", "2024-11-18"],
    ];
    const withReturn = (named: Readonly<Record<string, string>>) =>
      readCohort(
        [
          {
            table: "injuries",
            file: "injuries.csv",
            bytes: new TextEncoder().encode(
              csvText([...injuries[0]!, ...Object.keys(named)], [[...injuries[1]!, ...Object.values(named)]]),
            ),
          },
        ],
        { closedOn: null, thresholdMm: 2 },
      ).accounts[0]!.setAside.map(({ query }) => query.code);
    const later = { full_climbing_precision: "later" };
    expect(withReturn({ ...later, full_climbing_not_before: "2024-05-27" })).toEqual([]);
    expect(withReturn(later)).toEqual(["later-without-bound"]);
    expect(withReturn({ ...later, full_climbing_date: "2024-05-27" })).toEqual(["later-without-bound"]);
  });
});

describe("treatments with their times", () => {
  const cellsOf = (therapy: string, values: Readonly<Record<string, string>> = {}) => {
    const told = { ...mapping, columns: { ...mapping.columns, treatment: { from: "therapy", values } } };
    return applyMapping(
      gridOf([header, row("", "P1", therapy)]) as unknown as Parameters<typeof applyMapping>[0],
      told,
    ).rows[0]!.cells;
  };

  it("one treatment with its time ends after it", () => {
    expect(cellsOf("Tape 6 Wo")).toMatchObject({ treatment: "tape", treatment_end: "2024-04-21" });
    expect(cellsOf("ring 8/52")).toMatchObject({ treatment: "ring", treatment_end: "2024-05-05" });
  });

  it("a bare splint is a question, and its answer holds for every cell it stands in", () => {
    expect(cellsOf("splint 4/52 → tape")).toMatchObject({ treatment: "splint 4/52 → tape" });
    expect(cellsOf("splint 4/52 → tape", { splint: "ring" })).toMatchObject({
      treatment: "ring",
      treatment_end: "2024-04-07",
      second_treatment: "tape",
      second_start: "2024-04-07",
    });
  });
});

describe("linked tables in a site's own columns", () => {
  const applied = (table: "injuries" | "treatments" | "visits", told: object, rows: readonly string[][]) =>
    applyMapping(
      gridOf(rows) as unknown as Parameters<typeof applyMapping>[0],
      mappingSchema.parse({
        mapping: "linked",
        table,
        date_order: "day-first",
        header_rows: [1],
        columns: told,
      }),
    );

  it("a row of two treatments becomes two rows, in their order", () => {
    const { rows, read, unfoldedFrom } = applied(
      "treatments",
      { injury_id: { from: "id" }, treatment: { from: "therapy" }, start_date: { from: "from" } },
      [
        ["id", "therapy", "from"],
        ["P1", "tape 6 wks then ring", "10.03.2024"],
        ["P2", "ring", "11.03.2024"],
      ],
    );
    expect([read, unfoldedFrom]).toEqual([3, 2]);
    expect(
      rows.map(({ row: at, cells }) => [at, cells.treatment, cells.start_date, cells.end_date ?? ""]),
    ).toEqual([
      [2.1, "tape", "2024-03-10", "2024-04-21"],
      [2.2, "ring", "2024-04-21", ""],
      [3, "ring", "2024-03-11", ""],
    ]);
  });

  it("returns known to the week, to a span or by a bound go to the columns that say so, and ends are kept", () => {
    const told = {
      injury_id: { from: "id" },
      injury_date: { from: "injured" },
      full_climbing_date: { from: "full" },
      last_contact_date: { from: "seen" },
    };
    const { rows } = applied("injuries", told, [
      ["id", "injured", "full", "seen"],
      ...["KW 23 2024", "8 weeks", "> 12 wks", "aufgehört"].map((full) => [
        "1",
        "04.03.2024",
        full,
        "18.11.2024",
      ]),
    ]);
    const { full_climbing_date: _, ...none } = { full_climbing_date: "" };
    expect(rows.map(({ cells }) => cells)).toMatchObject([
      { full_climbing_date: "2024-06-06", full_climbing_precision: "week" },
      { full_climbing_not_before: "2024-04-25", full_climbing_not_after: "2024-05-02", ...none },
      { full_climbing_not_before: "2024-05-27", full_climbing_precision: "later" },
      { full_climbing_date: "", end_status: "gave_up" },
    ]);
  });

  it("a visit that says not yet says no", () => {
    const { rows } = applied(
      "visits",
      { injury_id: { from: "id" }, date: { from: "on" }, full_climbing: { from: "full" } },
      [
        ["id", "on", "full"],
        ["1", "04.04.2024", "noch nicht"],
        ["1", "04.05.2024", "ja"],
      ],
    );
    expect(rows.map(({ cells }) => cells.full_climbing)).toEqual(["no", "yes"]);
  });
});
