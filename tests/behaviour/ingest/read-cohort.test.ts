import { describe, expect, it } from "vitest";
import { readCohort, type SourceFile, StopError } from "../../../src/ingest/index.js";
import { queryText } from "../../../src/schema/index.js";
import { codesOf, fileOf, sheetOf, study } from "./sheets.js";

const stopsOf = (sources: readonly SourceFile[]): StopError => {
  try {
    readCohort(sources, study);
  } catch (error) {
    if (error instanceof StopError) return error;
    throw error;
  }
  throw new Error("the files were read");
};

describe("rows that are set aside", () => {
  it("an id that stands for two rows sets both aside, and what names it follows", () => {
    const cohort = readCohort(
      [
        sheetOf("injuries", [{}, { finger: "middle" }, { injury_id: "P10-1", person_id: "P10" }]),
        sheetOf("treatments", [{}, { injury_id: "P10-1" }]),
      ],
      study,
    );
    expect(cohort.accounts).toMatchObject([
      {
        table: "injuries",
        read: 3,
        used: 1,
        setAside: [
          { row: 2, query: { code: "identifier-twice", facts: { rows: "2, 3" } } },
          { row: 3, query: { code: "identifier-twice" } },
        ],
      },
      { table: "treatments", read: 2, used: 1, setAside: [{ row: 2, query: { code: "injury-set-aside" } }] },
    ]);
    expect(cohort.tables.injuries.map(({ values }) => values.injury_id)).toEqual(["P10-1"]);
    expect(cohort.tables.treatments.map(({ row }) => row)).toEqual([3]);
  });

  it("an id doubled by a row that is set aside for another reason cannot be trusted either", () => {
    const { accounts } = readCohort([sheetOf("injuries", [{ grade: "IV" }, {}])], study);
    expect(accounts[0]?.setAside.map(({ row, query }) => [row, query.code])).toEqual([
      [2, "grade-without-letter"],
      [3, "identifier-twice"],
    ]);
  });

  it("a row that names no injury, and one that lies before its injury", () => {
    const { accounts, queries } = readCohort(
      [
        sheetOf("injuries"),
        sheetOf("treatments", [{ injury_id: "P9-1" }, { start_date: "2024-03-03" }, {}]),
        sheetOf("imaging", [{ date: "2024-03-03" }]),
        sheetOf("visits", [{ date: "2024-03-03" }]),
      ],
      study,
    );
    expect(
      accounts.map(({ table, setAside }) => [table, ...setAside.map(({ query }) => query.code)]),
    ).toEqual([
      ["injuries"],
      ["treatments", "row-without-injury", "event-before-injury"],
      ["imaging", "event-before-injury"],
      ["visits", "event-before-injury"],
    ]);
    expect(queryText(queries[0]!)).toBe(
      'treatments.csv, row 2, column "injury_id": "P9-1" is not the injury_id of any row of the injuries.\n' +
        "  Check the spelling in both tables, or add the injury.\n  The row is set aside until this is corrected.",
    );
  });

  it("an injury known to the week allows a treatment some days before", () => {
    const { accounts } = readCohort(
      [
        sheetOf("injuries", [{ injury_date_precision: "week" }]),
        sheetOf("treatments", [{ start_date: "2024-02-27" }]),
      ],
      study,
    );
    expect(accounts[1]).toMatchObject({ read: 1, used: 1 });
  });

  it("without a day of closing no date lies in the future", () => {
    const sources = [sheetOf("injuries", [{ last_contact_date: "2031-01-01" }])];
    expect(readCohort(sources, { ...study, closedOn: null }).queries).toEqual([]);
    expect(codesOf(readCohort(sources, study).queries)).toEqual(["date-in-future"]);
  });

  it("a header without rows is a table without rows", () => {
    const { accounts } = readCohort([sheetOf("injuries"), sheetOf("visits", [])], study);
    expect(accounts[1]).toMatchObject({ table: "visits", read: 0, used: 0 });
  });
});

describe("files that cannot be read", () => {
  it("every reason of every file at once, in words", () => {
    const { queries, message } = stopsOf([
      fileOf("injuries", ""),
      fileOf("treatments", "injury_id,start_date\nP1,2024-03-10"),
      fileOf("imaging", "%PDF-1.4"),
    ]);
    expect(queries.map(({ file, code }) => [file, code])).toEqual([
      ["injuries.csv", "file-empty"],
      ["treatments.csv", "column-missing"],
      ["imaging.csv", "file-not-text"],
    ]);
    expect(message).toContain('treatments.csv, column "treatment": this file has no column "treatment"');
  });

  it("no injuries, two files for one table, single sheet beside linked tables", () => {
    expect(codesOf(stopsOf([]).queries)).toEqual(["table-missing"]);
    expect(codesOf(stopsOf([sheetOf("visits")]).queries)).toEqual(["table-missing"]);
    expect(codesOf(stopsOf([sheetOf("injuries"), sheetOf("injuries")]).queries)).toEqual(["table-twice"]);
    expect(codesOf(stopsOf([sheetOf("injuries"), sheetOf("single_sheet")]).queries)).toEqual([
      "tables-mixed",
    ]);
  });
});

describe("the single sheet", () => {
  const rows = [
    {
      injury_date: "2024-05-01",
      finger: "middle",
      site: "site-a",
      treatment: "tape",
      treatment_start: "2024-05-03",
      treatment_end: "2024-05-10",
      second_treatment: "ring",
      second_start: "2024-05-10",
      first_visit: "2024-05-02",
      distance_rest_first: "1.1",
      distance_loaded_first: "3.2",
      distance_loaded_last: "2.4",
      date_last_scan: "2024-08-01",
      full: "2024-09-01",
    },
    { site: "site-a" },
  ];

  it("unfolds into injuries, episodes and readings; names follow the dates, not the rows", () => {
    const { tables, accounts, queries } = readCohort([sheetOf("single_sheet", rows)], study);
    expect(queries).toEqual([]);
    expect(accounts).toMatchObject([{ table: "single_sheet", read: 2, used: 2 }]);
    expect(tables.injuries.map(({ row, values }) => [row, values.injury_id])).toEqual([
      [2, "P09-2"],
      [3, "P09-1"],
    ]);
    expect(tables.injuries[0]?.values).toMatchObject({
      person_id: "P09",
      full_climbing_date: "2024-09-01",
      site_id: "site-a",
    });
    expect(
      tables.treatments.map(({ row, values }) => [row, values.treatment, values.start_date, values.end_date]),
    ).toEqual([
      [2, "tape", "2024-05-03", "2024-05-10"],
      [2, "ring", "2024-05-10", null],
    ]);
    expect(
      tables.imaging.map(({ values }) => [values.date, values.pulley, values.position, values.distance_mm]),
    ).toEqual([
      ["2024-05-02", "A2", "rest", 1.1],
      ["2024-05-02", "A2", "loaded", 3.2],
      ["2024-08-01", "A2", "loaded", 2.4],
    ]);
  });

  it.each([
    ["event-before-injury", { full: "2024-03-01" }, "full"],
    ["event-before-injury", { second_treatment: "ring", second_start: "2024-03-01" }, "second_start"],
    [
      "episode-inside-out",
      { treatment: "ring", treatment_start: "2024-03-10", treatment_end: "2024-03-09" },
      "treatment_end",
    ],
    [
      "event-before-injury",
      { distance_loaded_first: "3.1", date_first_scan: "2024-03-01" },
      "date_first_scan",
    ],
    ["date-in-future", { last_contact: "2025-07-01" }, "last_contact"],
  ])("%s sets the whole row aside, under the name of the sheet's own column", (code, change, column) => {
    const { tables, accounts } = readCohort([sheetOf("single_sheet", [change])], study);
    expect(accounts).toMatchObject([{ read: 1, used: 0, setAside: [{ row: 2, query: { code, column } }] }]);
    expect([...tables.injuries, ...tables.treatments, ...tables.imaging]).toEqual([]);
  });

  it.each([
    ["treatment-without-start", { treatment: "ring" }, "treatment", [["ring", null, 1]]],
    ["start-without-treatment", { second_start: "2024-03-10" }, "second_start", []],
    [
      "second-treatment-alone",
      { second_treatment: "ring", second_start: "2024-03-10" },
      "second_treatment",
      [["ring", "2024-03-10", 2]],
    ],
  ])("%s is asked, and the row is used", (code, change, column, episodes) => {
    const { tables, accounts, queries } = readCohort([sheetOf("single_sheet", [change])], study);
    expect(queries).toMatchObject([{ code, column, severity: "look-at" }]);
    expect(accounts).toMatchObject([{ read: 1, used: 1, setAside: [] }]);
    expect(
      tables.treatments.map(({ values }) => [values.treatment, values.start_date, values.order]),
    ).toEqual(episodes);
  });

  it("a distance without a day is left out with a query, and the row is used", () => {
    const { tables, queries } = readCohort(
      [sheetOf("single_sheet", [{ distance_loaded_last: "2.4" }])],
      study,
    );
    expect(queries).toMatchObject([
      { code: "distance-without-date", column: "distance_loaded_last", severity: "look-at" },
    ]);
    expect([tables.injuries.length, tables.imaging.length]).toEqual([1, 0]);
  });
});
