import { describe, expect, it } from "vitest";
import { readCohort } from "../../../../src/ingest/cohort/read-cohort.js";
import { readGrid } from "../../../../src/ingest/grid/index.js";
import { applyMapping } from "../../../../src/ingest/mapping/apply/apply-mapping.js";
import { readMapping } from "../../../../src/ingest/mapping/read-mapping.js";
import { queryText } from "../../../../src/schema/words.js";

const needed = `
  person: { from: Pat }
  injury_date: { from: Hurt }
  hand: { constant: left }
  finger: { constant: ring }
  pulleys: { constant: A2 }
  grade: { constant: 3 }
  last_contact: { from: Seen }`;

/** A file read by a mapping of these columns besides those that every row needs. */
function read({
  header,
  rows,
  columns = "",
  settings = "",
}: {
  header: string;
  rows: readonly string[];
  columns?: string;
  settings?: string;
}) {
  const names = columns.split("\n").map((line) => line.trim().split(":")[0]);
  const kept = needed.split("\n").filter((line) => !names.includes(line.trim().split(":")[0] ?? ""));
  const text = `mapping: trial\n${settings}\ncolumns:${[...kept, columns].join("\n")}\n`;
  const body = rows.map((row, place) => `p${place + 1};2023-03-04;2024-01-31;${row}`);
  const file = [`Pat;Hurt;Seen;${header}`, ...body].join("\n");
  const { grid } = readGrid({ file: "sheet.csv", bytes: new TextEncoder().encode(file) });
  return applyMapping(grid!, readMapping({ file: "mapping.yaml", text }));
}

const cellsOf = (result: ReturnType<typeof read>, field: string) =>
  result.rows.map(({ cells }) => cells[field]);
const codesOf = (result: ReturnType<typeof read>) => result.queries.map(({ code }) => code);

describe("a file read by its mapping", () => {
  it.each([
    {
      unit: "cm",
      cells: ["0.24", "0.3", "1", ">0.2", "0.24 cm", "2.4 mm"],
      ours: ["2.4", "3", "10", ">2", "2.4", "2.4"],
    },
    { unit: "mm", cells: ["2.40", ".9", "3 mm", "0.3cm"], ours: ["2.4", "0.9", "3", "3"] },
  ])("lengths in $unit become millimetres by exact arithmetic on their digits", ({ unit, cells, ours }) => {
    const result = read({
      header: "TPD",
      rows: cells,
      columns: `  distance_rest_first: { from: TPD, unit: ${unit} }`,
    });
    expect(cellsOf(result, "distance_rest_first")).toEqual(ours);
  });

  it("a decimal comma is read where the mapping says so, and a range stays as it is, to be asked about", () => {
    const columns = "  distance_rest_first: { from: TPD }";
    const rows = ["2,4", "2-3", "1,1 mm", "ca. 2"];
    const commas = read({ header: "TPD", rows, columns, settings: "decimal_sign: comma" });
    expect(cellsOf(commas, "distance_rest_first")).toEqual(["2.4", "2-3", "1.1", "ca. 2"]);
    expect(cellsOf(read({ header: "TPD", rows, columns }), "distance_rest_first")[0]).toBe("2,4");
  });

  it("one column gives hand and finger, another pulleys and extents", () => {
    const result = read({
      header: "Finger;Pulley",
      rows: ["R ring;A2/A3", "left D4;a2 (partial)", "li. Kleinfinger;A2 complete, A3 partial"],
      columns: `  hand: { from: Finger }
  finger: { from: Finger, numbered: with_thumb }
  pulleys: { from: Pulley }
  pulley_extents: { from: Pulley }`,
    });
    expect(cellsOf(result, "hand")).toEqual(["right", "left", "left"]);
    expect(cellsOf(result, "finger")).toEqual(["ring", "ring", "little"]);
    expect(cellsOf(result, "pulleys")).toEqual(["A2|A3", "A2", "A2|A3"]);
    expect(cellsOf(result, "pulley_extents")).toEqual(["", "partial", "complete|partial"]);
  });

  it("pulleys ticked in columns of their own", () => {
    const result = read({
      header: "A2;A3;A4",
      rows: ["x;;", "x;x;", "ja;nein;oui", "partial;complete;"],
      columns:
        "  pulleys: { ticked: { A2: A2, A3: A3, A4: A4 } }\n  pulley_extents: { ticked: { A2: A2, A3: A3, A4: A4 } }",
    });
    expect(cellsOf(result, "pulleys")).toEqual(["A2", "A2|A3", "A2|A4", "A2|A3"]);
    expect(cellsOf(result, "pulley_extents")).toEqual(["", "", "", "partial|complete"]);
  });

  it("of several columns the first that is filled, with a query where another says something else", () => {
    const result = read({
      header: "Full;Full checked",
      rows: ["2023-06-01;2023-06-01", ";2023-06-02", "2023-06-03;2023-06-04"],
      columns: "  full: { from: [Full, Full checked] }",
    });
    expect(cellsOf(result, "full")).toEqual(["2023-06-01", "2023-06-02", "2023-06-03"]);
    expect(result.queries.map(({ code, row }) => [code, row])).toEqual([["mapping-sources-differ", 4]]);
  });

  it("the latest day of several columns, and times since the injury as spans", () => {
    const result = read({
      header: "Visit;Phone;Weeks",
      rows: ["2023-06-01;2023-07-01;8", "2023-09-01;not reached;2", ";;"],
      columns: "  last_contact: { latest_of: [Visit, Phone, Seen] }\n  full: { from: Weeks, counted: weeks }",
    });
    expect(cellsOf(result, "last_contact")).toEqual(["2024-01-31", "2024-01-31", "2024-01-31"]);
    expect(cellsOf(result, "full")).toEqual(["2023-04-26/2023-05-02", "2023-03-15/2023-03-21", ""]);
  });

  it("a value that is to be asked cannot be read, and one that means nothing is blank", () => {
    const result = read({
      header: "Gr;Tx",
      rows: ["2;none", "3;tape"],
      columns:
        '  grade: { from: Gr, values: { "2": ask, "3": "3" } }\n  treatment: { from: Tx, values: { none: blank, tape: tape } }',
    });
    expect(cellsOf(result, "grade")).toEqual(["? 2", "3"]);
    expect(cellsOf(result, "treatment")).toEqual(["", "tape"]);
  });

  it("look-alike letters, no-break spaces and characters of no width are read through and mentioned", () => {
    const result = read({
      header: "Pulley;Finger",
      rows: ["\u0410\u0032;ring", "A2;ring\u00a0finger", "A\u200b2;ring", "A2;ring"],
      columns: "  pulleys: { from: Pulley }\n  finger: { from: Finger }",
    });
    expect(cellsOf(result, "pulleys")).toEqual(["A2", "A2", "A2", "A2"]);
    expect(cellsOf(result, "finger")).toEqual(["ring", "ring", "ring", "ring"]);
    expect(result.queries.map(({ row, facts }) => [row, facts.what])).toEqual([
      [2, "look-alike letter"],
      [3, "odd space"],
      [4, "invisible character"],
    ]);
  });

  it("every filled row of the file is a record or is listed as left out", () => {
    const text = `SYNTHETIC list\n\nPat;Hurt;Seen;TPD\n;;;mm\np1;2023-03-04;2024-01-31;2.1\nPat;Hurt;Seen;TPD\np2;2023-03-04;2024-01-31;2.3\nSumme;;;4.4\nPrüfzeile;2023-01-01;2023-01-01;1\n`;
    const { grid } = readGrid({ file: "sheet.csv", bytes: new TextEncoder().encode(text) });
    const mapping = readMapping({
      file: "mapping.yaml",
      text: `mapping: trial\nleave_out_rows: [Prüf]\ncolumns:${needed}\n  distance_rest_first: { from: TPD }\n`,
    });
    const result = applyMapping(grid!, mapping);
    expect(result.rows.map(({ row }) => row)).toEqual([5, 7]);
    expect(result.leftOut).toEqual([
      { row: 1, kind: "preamble" },
      { row: 3, kind: "header" },
      { row: 4, kind: "units" },
      { row: 6, kind: "header" },
      { row: 8, kind: "totals" },
      { row: 9, kind: "by the mapping" },
    ]);
    expect(result.read + result.leftOut.length).toBe(grid!.rows.length);
    expect(codesOf(result).filter((code) => code === "row-left-out")).toHaveLength(5);
  });

  it("queries name the file's own column and the cell as it stands there", () => {
    const result = read({
      header: "Volle Belastung;Grad",
      rows: ["31.02.2023;III", "01.02.2023;IV", "05.05.2023;III"],
      columns: "  full: { from: Volle Belastung }\n  grade: { from: Grad }",
      settings: "date_order: day-first",
    });
    const cohort = readCohort([{ table: "single_sheet", file: "sheet.csv", read: result }], {
      closedOn: null,
      thresholdMm: 2,
    });
    const texts = cohort.queries.map((query) => queryText(query).split("\n")[0]);
    expect(texts).toContain(
      'sheet.csv, row 2, column "Volle Belastung": "31.02.2023" is a date that does not exist.',
    );
    expect(texts).toContain('sheet.csv, row 3, column "Grad": "IV" does not say whether 4a or 4b is meant.');
    expect(cohort.accounts[0]).toMatchObject({ read: 3, used: 1 });
  });

  it("a study's own order of dates does not reach into a mapped file", () => {
    const result = read({ header: "Full", rows: ["03/04/2023"], columns: "  full: { from: Full }" });
    const options = { closedOn: null, thresholdMm: 2, dateOrder: "day-first" } as const;
    const cohort = readCohort([{ table: "single_sheet", file: "sheet.csv", read: result }], options);
    expect(cohort.queries.map(({ code }) => code)).toContain("date-day-or-month-first");
  });
});
