import { describe, expect, it } from "vitest";
import { readCohort } from "../../../src/ingest/index.js";

const sheet = (...rows: readonly string[]) =>
  new TextEncoder().encode(
    `${["person,injury_date,hand,finger,pulleys,grade,full,last_contact", ...rows].join("\n")}\n`,
  );
const read = (dateOrder: "year-first" | "day-first" | "month-first", ...rows: readonly string[]) =>
  readCohort([{ table: "single_sheet", file: "sheet.csv", bytes: sheet(...rows) }], {
    closedOn: null,
    thresholdMm: 2,
    dateOrder,
  });

describe("dates that do not put the year first are read as the study says, or asked about", () => {
  it.each([
    ["day-first", "P1,04/03/2024,left,ring,A3,2,3.6.2024,2024-11-18", "2024-03-04", "2024-06-03"],
    ["month-first", "P1,03/04/2024,left,ring,A3,2,6-3-2024,2024-11-18", "2024-03-04", "2024-06-03"],
    ["year-first", "P1,2024-03-04,left,ring,A3,2,2024-06-03,2024-11-18", "2024-03-04", "2024-06-03"],
  ] as const)("%s", (order, row, injury, full) => {
    const [used] = read(order, row).tables.injuries;
    expect(used!.values).toMatchObject({ injury_date: injury, full_climbing_date: full });
  });

  it("a day that cannot be under the stated order is asked about, not turned round", () => {
    const { tables, queries } = read("month-first", "P1,13/04/2024,left,ring,A3,2,,2024-11-18");
    expect(tables.injuries).toEqual([]);
    expect(queries[0]).toMatchObject({
      code: "date-impossible",
      severity: "set-aside",
      column: "injury_date",
    });
  });
});

describe("a cell that cannot be read is never taken for a blank that would say something", () => {
  it.each([
    ["about 8 weeks", "date-unreadable"],
    ["?", "missing-in-words"],
  ])("a return written as %s sets the row aside: it is not a finger still waiting", (full, code) => {
    const { tables, queries, accounts } = read(
      "year-first",
      `P1,2024-03-04,left,ring,A3,2,${full},2024-11-18`,
    );
    expect(tables.injuries).toEqual([]);
    expect(accounts[0]).toMatchObject({ read: 1, used: 0 });
    expect(queries[0]).toMatchObject({ code, severity: "set-aside", column: "full" });
  });
});
