import { describe, expect, it } from "vitest";
import { readCohort } from "../../../src/ingest/index.js";
import { queryText } from "../../../src/schema/index.js";
import { codesOf, sheetOf, study } from "./sheets.js";

const read = (change: Readonly<Record<string, string>>) =>
  readCohort([sheetOf("single_sheet", [{ first_visit: "2024-04-02", ...change }])], study);
const injuryOf = (change: Readonly<Record<string, string>>) => read(change).tables.injuries[0]?.values;

describe("milestones of the single sheet known to the week, month or span", () => {
  it.each([
    ["2024-06-03", { date: "2024-06-03", precision: null, not_before: null, not_after: null }],
    ["2024-W23", { date: "2024-06-06", precision: "week", not_before: null, not_after: null }],
    ["2024-06", { date: "2024-06-15", precision: "month", not_before: null, not_after: null }],
    [
      "2024-06-01/2024-06-30",
      { date: null, precision: null, not_before: "2024-05-31", not_after: "2024-06-30" },
    ],
    ["2024-06-03/2024-06-03", { date: "2024-06-03", precision: null, not_before: null, not_after: null }],
  ])("%s", (cell, expected) => {
    const named = (milestone: string) =>
      Object.fromEntries(Object.entries(expected).map(([part, value]) => [`${milestone}_${part}`, value]));
    expect(injuryOf({ full: cell })).toMatchObject(named("full_climbing"));
    expect(injuryOf({ easy: cell })).toMatchObject(named("easy_climbing"));
    expect(injuryOf({ previous: cell })).toMatchObject(named("previous_level"));
    expect(read({ full: cell }).queries).toEqual([]);
  });

  it.each([
    ["2024-13", "date-impossible"],
    ["2024-W53", "date-impossible"],
    ["2024-06-31/2024-07-02", "date-impossible"],
    ["2024-07-02/2024-06-30", "span-inside-out"],
    ["June 2024", "date-month-only"],
    ["06/2024", "date-month-only"],
    ["KW 23", "date-unreadable"],
  ])("%s is asked about (%s) and sets the row aside: a blank would say 'not reached yet'", (cell, code) => {
    const { queries, accounts } = read({ full: cell });
    expect(queries).toMatchObject([{ code, severity: "set-aside", column: "full", found: cell }]);
    expect(accounts).toMatchObject([{ read: 1, used: 0 }]);
  });

  it("a month in words is corrected to a month in figures", () => {
    expect(queryText(read({ full: "June 2024" }).queries[0]!)).toContain("write 2024-03 or");
  });

  it("a query about the span names the column of the sheet", () => {
    const { queries } = read({ full: "2024-01-01/2024-12-31" });
    expect(queries.map(({ column }) => column)).toEqual(queries.map(() => "full"));
    expect(codesOf(queries)).toContain("interval-over-26-weeks");
  });
});

describe("the day of the injury of the single sheet", () => {
  it.each([
    ["2024-03-04", "2024-03-04", null],
    ["2024-W10", "2024-03-07", "week"],
    ["2024-03", "2024-03-15", "month"],
    ["2024-03-01/2024-03-07", "2024-03-04", "week"],
    ["2024-02-28/2024-03-02", "2024-02-29", "week"],
    ["2024-03-01/2024-03-10", "2024-03-05", "month"],
  ])("%s is %s, known to the %s", (injury_date, date, precision) => {
    expect(injuryOf({ injury_date })).toMatchObject({
      injury_date: date,
      injury_date_precision: precision,
    });
  });

  it("a span over more than a week in two months sets the row aside", () => {
    const { queries, accounts } = read({ injury_date: "2024-02-20/2024-03-10" });
    expect(queries).toMatchObject([
      { code: "injury-date-too-wide", severity: "set-aside", column: "injury_date" },
    ]);
    expect(accounts).toMatchObject([{ read: 1, used: 0 }]);
  });
});

describe("distances of the single sheet that are bounds", () => {
  it.each([
    ["2.8", 2.8, null],
    [">2", 2, "above"],
    ["< 1.5", 1.5, "below"],
  ])("%s is %d, %s", (cell, distance_mm, bound) => {
    const { tables, queries } = read({ distance_loaded_first: cell });
    expect(tables.imaging).toMatchObject([
      { values: { distance_mm, bound }, columnNames: { distance_mm: "distance_loaded_first" } },
    ]);
    // under the threshold of a complete rupture is asked about for its grade, not for its form
    expect(codesOf(queries).filter((code) => code !== "distance-against-grade")).toEqual([]);
  });

  it.each([
    ["2-3", "number-range"],
    [">=2", "number-with-bound"],
    ["≥2", "number-with-bound"],
    ["about 2", "number-with-bound"],
    [">2,5", "number-unreadable"],
    [">2 mm", "number-with-unit"],
    [">20", "number-out-of-range"],
    ["20", "number-out-of-range"],
    ["<-1", "number-out-of-range"],
  ])("%s is asked about (%s)", (cell, code) => {
    const { tables, queries } = read({ distance_loaded_first: cell });
    expect(tables.imaging).toEqual([]);
    expect(queries).toMatchObject([{ code, severity: "look-at", found: cell }]);
  });

  it("how a bound is written is said", () => {
    expect(queryText(read({ distance_loaded_first: "≥2" }).queries[0]!)).toContain("for example >2.");
  });
});
