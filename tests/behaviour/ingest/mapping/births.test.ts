import { describe, expect, it } from "vitest";
import { readCohort } from "../../../../src/ingest/cohort/read-cohort.js";
import { readGrid } from "../../../../src/ingest/grid/index.js";
import { shapeSheet } from "../../../../src/ingest/grid/shape/shape-sheet.js";
import { applyMapping } from "../../../../src/ingest/mapping/apply/apply-mapping.js";
import { proposeMapping } from "../../../../src/ingest/mapping/propose/propose.js";
import { MappingError, readMapping } from "../../../../src/ingest/mapping/read-mapping.js";
import { mappingText } from "../../../../src/ingest/mapping/write-mapping.js";

/** A sheet with a column of births and what every row needs. */
function sheetWith(name: string, births: readonly string[], more: Readonly<Record<string, string>> = {}) {
  const names = ["Patient", name, "Injury date", "Hand", "Finger", "Pulley", "Grade", "Last contact"];
  const injuries = ["2024-03-04", "2023-02-28", "2023-07-01", "2023-06-30"];
  const rows = births.map((birth, row) =>
    [
      `p${row + 1}`,
      birth,
      injuries[row],
      "left",
      "ring",
      "A2",
      "3",
      "2024-12-01",
      ...Object.values(more),
    ].join(";"),
  );
  const text = [[...names, ...Object.keys(more)].join(";"), ...rows].join("\n");
  return readGrid({ file: "sheet.csv", bytes: new TextEncoder().encode(text) }).grid!;
}

const propose = (grid: ReturnType<typeof sheetWith>) =>
  proposeMapping(shapeSheet(grid)!, { name: "trial", table: "single_sheet" });
const agesIn = (grid: ReturnType<typeof sheetWith>) =>
  applyMapping(grid, propose(grid).mapping).rows.map(({ cells }) => cells.age);

describe("the age from a column of births", () => {
  it("dates of birth: completed years on the day of the injury", () => {
    // a birthday on the day, the day before 29 February counts, the day after and long before; counted by hand
    const grid = sheetWith("Date of birth", ["1995-03-04", "1996-02-29", "1999-07-02", "1961-12-31"]);
    const { mapping, guesses } = propose(grid);
    expect(mapping.columns.age).toEqual({ born_on: "Date of birth" });
    expect(guesses.find(({ field }) => field.name === "age")).toMatchObject({ confidence: "sure" });
    expect(agesIn(grid)).toEqual(["29", "26", "23", "61"]);
  });

  it.each(["Geburtsdatum", "DOB", "Né(e) le", "Fecha de nacimiento", "Data di nascita"])(
    "%s is known for one, and years of two digits are the last before the injury",
    (name) => {
      const births = ["31.12.95", "14.02.62", "03.01.11", "17.05.99"];
      expect(agesIn(sheetWith(name, births))).toEqual(["28", "61", "12", "24"]);
    },
  );

  it("somebody born before 1950", () => {
    const births = ["1948-02-29", "28.02.1949", "05.07.48", "19451130"];
    expect(agesIn(sheetWith("DOB", births))).toEqual(["76", "74", "74", "77"]);
  });

  it("years of birth are counted from 1 July, and that is said", () => {
    const grid = sheetWith("Jahrgang", ["1995", "1996", "1990", "1990"]);
    const { mapping, guesses } = propose(grid);
    expect(mapping.columns.age).toEqual({ born_in: "Jahrgang" });
    const age = guesses.find(({ field }) => field.name === "age");
    expect(age).toMatchObject({ confidence: "likely" });
    expect(age?.evidence.join("; ")).toContain("the age may be wrong by one year");
    expect(agesIn(grid)).toEqual(["28", "26", "33", "32"]);
  });

  it("an age that is there goes before a birth", () => {
    const { mapping, leftOut } = propose(
      sheetWith("Date of birth", ["1995-03-04", "1996-02-29", "1999-07-02", "1961-12-31"], { Age: "31" }),
    );
    expect(mapping.columns.age).toEqual({ from: "Age" });
    expect(leftOut).toEqual([{ name: "Date of birth", holds: "dates", filled: 4 }]);
  });

  it("no birth goes further than the age: not into the mapping, the rows or what is asked", () => {
    const births = ["1995-03-04", "1913-04-17", "17.55.1999", "1961-12"];
    for (const name of ["Date of birth", "Zeta"]) {
      const grid = sheetWith(name, births);
      const { mapping } = propose(grid);
      const settled = { ...mapping, undecided: [], columns: { ...mapping.columns, age: { born_on: name } } };
      const read = applyMapping(grid, settled);
      const { queries } = readCohort([{ table: "single_sheet", file: "sheet.csv", read }], {
        closedOn: null,
        thresholdMm: 2,
      });
      expect(read.rows.map(({ cells }) => cells.age)).toEqual(["29", "109", "? date of birth", "61"]);
      const said = JSON.stringify([
        mappingText(mapping, { head: [], settings: {}, columns: {} }),
        read.rows,
        read.queries,
        queries,
      ]);
      for (const birth of births) expect(said).not.toContain(birth);
    }
  });

  it("asked about a column of births under another name, the answer reads it as births", () => {
    const births = ["1995-03-04", "1996-02-29", "1999-07-02", "1961-12-31"];
    const grid = sheetWith("Zeta", births);
    const { mapping } = propose(grid);
    expect(mapping.undecided[0]).toMatchObject({ choices: { age: expect.any(String) } });
    const text = mappingText(mapping, { head: [], settings: {}, columns: {} });
    const answered = readMapping({ file: "m.yaml", text: text.replace("answer:\n", "answer: age\n") });
    expect(answered.columns.age).toEqual({ born_on: "Zeta" });
    const settled = proposeMapping(shapeSheet(grid)!, {
      name: "trial",
      table: "single_sheet",
      settled: new Map([["age", "Zeta"]]),
    });
    expect(settled.mapping.columns.age).toEqual({ born_on: "Zeta" });
  });

  it("can only be used for the age", () => {
    const text = "mapping: trial\ncolumns:\n  sex: { born_on: DOB }\n";
    expect(() => readMapping({ file: "m.yaml", text })).toThrow(MappingError);
    expect(() => readMapping({ file: "m.yaml", text })).toThrow("can only be used for the age");
  });
});
