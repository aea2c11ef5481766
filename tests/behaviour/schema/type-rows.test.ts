import { describe, expect, it } from "vitest";
import {
  type QueryCode,
  sayQuery,
  type Table,
  type TableName,
  tables,
  typeRows,
} from "../../../src/schema/index.js";
import { plainRows } from "../ingest/sheets.js";

/** Types one plain row with some cells changed. */
function typeOne(table: TableName, change: Readonly<Record<string, string>>) {
  const cells = { ...plainRows[table], ...change };
  const sorted = typeRows(
    [{ file: `${table}.csv`, row: 7, cells }],
    tables[table] as Table<Record<string, unknown>>,
  );
  return { ...sorted, values: sorted.typed[0]?.values };
}

type Case = readonly [cell: string, code: QueryCode];

describe("grades", () => {
  it.each([
    ["3", "3"],
    ["III", "3"],
    ["iii", "3"],
    ["Gr. 3", "3"],
    ["Gr.III", "3"],
    ["grade 3", "3"],
    ["Grade-2", "2"],
    ["I", "1"],
    ["IVb", "4b"],
    ["4 b", "4b"],
    ["4B", "4b"],
    ["\u00a04a ", "4a"],
    ["grade IV a", "4a"],
    ["4 undivided", "4_undivided"],
    ["Unknown", "unknown"],
  ])("%s is grade %s", (cell, grade) => {
    const { values, queries } = typeOne("injuries", { grade: cell });
    expect(values?.grade).toBe(grade);
    expect(queries).toEqual([]);
  });

  it.each<Case>([
    ["IV", "grade-without-letter"],
    ["4", "grade-without-letter"],
    ["Grade 4", "grade-without-letter"],
    ["2-3", "grade-range"],
    ["II/III", "grade-range"],
    ["2 to 3", "grade-range"],
    ["3?", "term-unknown"],
    ["3a", "term-unknown"],
    ["5", "term-unknown"],
    ["?", "missing-in-words"],
    ["", "value-missing"],
  ])("%s is asked about (%s) and sets the row aside, never guessed", (cell, code) => {
    const { typed, queries, setAside } = typeOne("injuries", { grade: cell });
    expect(typed).toEqual([]);
    expect(queries).toMatchObject([
      { code, severity: "set-aside", row: 7, column: "grade", found: cell, injury: "P09-1" },
    ]);
    expect(setAside).toEqual([{ row: 7, query: queries[0] }]);
  });
});

describe("dates", () => {
  it.each<Case>([
    ["03/04/2024", "date-day-or-month-first"],
    ["13.4.2024", "date-day-or-month-first"],
    ["3-4-2024", "date-day-or-month-first"],
    ["04.03.24", "date-two-digit-year"],
    ["4/3/'24", "date-two-digit-year"],
    ["45385", "date-serial"],
    ["45385.5", "date-serial"],
    ["2024-03", "date-month-only"],
    ["03/2024", "date-month-only"],
    ["March 24", "date-month-only"],
    ["Mar-2024", "date-month-only"],
    ["2024", "date-month-only"],
    ["2024-03-04T10:00:00", "date-with-time"],
    ["2024-03-04 00:00", "date-with-time"],
    ["2023-02-29", "date-impossible"],
    ["2024-13-01", "date-impossible"],
    ["2024-04-31", "date-impossible"],
    ["1900-02-29", "date-impossible"],
    ["0204-03-04", "date-year-doubtful"],
    ["1924-03-04", "date-year-doubtful"],
    ["2024-3-4", "date-unreadable"],
    ["20240304", "date-unreadable"],
    ["KW 12", "date-unreadable"],
    ["~8 wks", "date-unreadable"],
    ["n/a", "missing-in-words"],
    ["#REF!", "missing-in-words"],
  ])("%s is asked about (%s), and an optional date is then blank", (cell, code) => {
    const { values, queries } = typeOne("injuries", { first_visit_date: cell });
    expect(values?.first_visit_date).toBeNull();
    expect(queries).toMatchObject([{ code, severity: "look-at", found: cell }]);
  });

  it.each(["2024-02-29", "2000-02-29", " 2024-06-03 "])("%s is a day of the calendar", (cell) => {
    const { values, queries } = typeOne("injuries", { full_climbing_date: cell });
    expect(values?.full_climbing_date).toBe(cell.trim());
    expect(queries).toEqual([]);
  });
});

describe("numbers", () => {
  it.each([
    ["3.4", 3.4],
    ["0", 0],
    ["15", 15],
    ["+2.0", 2],
    ["3.40", 3.4],
  ])("%s is %d", (cell, distance) => {
    expect(typeOne("imaging", { distance_mm: cell }).values?.distance_mm).toBe(distance);
  });

  it.each<Case>([
    ["2,4", "number-unreadable"],
    [".24", "number-unreadable"],
    ["1.234,5", "number-unreadable"],
    ["two", "number-unreadable"],
    ["1e1", "number-with-unit"],
    ["2.4mm", "number-with-unit"],
    ["2.4 mm", "number-with-unit"],
    ["2,4mm", "number-with-unit"],
    [".24 cm", "number-with-unit"],
    [">2", "number-with-bound"],
    ["≥ 2", "number-with-bound"],
    ["ca. 2", "number-with-bound"],
    ["2-3", "number-range"],
    ["2–3 mm", "number-range"],
    ["2/3", "number-range"],
    ["2±0.5", "number-range"],
    ["15.1", "number-out-of-range"],
    ["-1", "number-out-of-range"],
    ["999", "number-out-of-range"],
    ["Infinity", "number-unreadable"],
    ["NaN", "missing-in-words"],
    ["-", "missing-in-words"],
  ])("a distance of %s is asked about (%s) and sets the reading aside", (cell, code) => {
    const { typed, queries } = typeOne("imaging", { distance_mm: cell });
    expect(typed).toEqual([]);
    expect(queries).toMatchObject([{ code, severity: "set-aside", found: cell }]);
  });

  it("the advice names decimal point, unit and range", () => {
    const advice = (cell: string) => sayQuery(typeOne("imaging", { distance_mm: cell }).queries[0]!);
    expect(advice("2,4").correction).toBe("Write it with a decimal point: 2.4 rather than 2,4.");
    expect(advice("2.4mm").correction).toBe("Write the number alone, in millimetres.");
    expect(advice(">2").correction).toContain('"bound"');
    expect(advice("99").expected).toBe("is outside the range 0 to 15 millimetres");
  });

  it("an age of 29.5 is not whole; an age of 9 is out of range", () => {
    expect(typeOne("injuries", { age_at_injury: "29.5" }).queries).toMatchObject([
      { code: "number-not-whole" },
    ]);
    expect(typeOne("injuries", { age_at_injury: "9" }).queries).toMatchObject([
      { code: "number-out-of-range" },
    ]);
  });
});

describe("words and lists", () => {
  it.each([
    ["hand", "L", "left"],
    ["hand", "RIGHT", "right"],
    ["sex", "f", "female"],
    ["sex", "M", "male"],
    ["sex", "not stated", "not_stated"],
    ["finger", "pinky", "little"],
    ["finger", "Ring finger", "ring"],
    ["grip", "Half crimp", "half_crimp"],
    ["grip", "half-crimp", "half_crimp"],
    ["bowstringing", "imaging\u00a0only", "imaging_only"],
    ["prior_injury_same_finger", "Y", "yes"],
    ["onset", "unknown", "unknown"],
  ])("%s: %s is %s", (column, cell, term) => {
    const { values, queries } = typeOne("injuries", { [column]: cell });
    expect(values?.[column]).toBe(term);
    expect(queries).toEqual([]);
  });

  it.each(["D4", "4th", "4", "IV", "digit IV", "4th finger"])(
    "finger %s needs the site's way of counting",
    (cell) => {
      expect(typeOne("injuries", { finger: cell }).queries).toMatchObject([{ code: "finger-by-number" }]);
    },
  );

  it("an unknown word lists the words and the nearest one", () => {
    const [query] = typeOne("injuries", { grip: "half_cripm" }).queries;
    expect(query).toMatchObject({ code: "term-unknown", severity: "look-at", facts: { near: "half_crimp" } });
    expect(sayQuery(query!).correction).toBe(
      "Did you mean half_crimp? Write one of: full_crimp, half_crimp, open_hand, pocket_one, pocket_two, pinch, sloper, other, unknown.",
    );
  });

  it("a look-alike letter is no A2, but A2 is offered", () => {
    expect(typeOne("injuries", { pulleys: "\u04102" }).queries).toMatchObject([
      { code: "term-unknown", facts: { near: "A2" } },
    ]);
  });

  it.each([
    ["A2|A3", ["A2", "A3"]],
    ["a2 / a3", ["A2", "A3"]],
    ["A2+A3", ["A2", "A3"]],
    ["A2, A4", ["A2", "A4"]],
    ["A2", ["A2"]],
  ])("pulleys %s", (cell, pulleys) => {
    expect(typeOne("injuries", { pulleys: cell, pulley_extents: "" }).values?.pulleys).toEqual(pulleys);
  });

  it.each<Case>([
    ["A2-A4", "list-range"],
    ["A2 (part.)", "term-unknown"],
    ["A2|", "term-unknown"],
    ["?", "missing-in-words"],
  ])("pulleys %s are asked about (%s)", (cell, code) => {
    expect(typeOne("injuries", { pulleys: cell }).queries).toMatchObject([{ code, severity: "set-aside" }]);
  });

  it("an id that says there is none is not an id, and neither is a whole paragraph", () => {
    expect(typeOne("injuries", { person_id: "unknown" }).queries).toMatchObject([
      { code: "missing-in-words" },
    ]);
    expect(typeOne("injuries", { person_id: "x".repeat(121) }).queries).toMatchObject([
      { code: "text-too-long", severity: "set-aside" },
    ]);
  });

  it("free words are kept as they are, the apostrophe before a formula aside", () => {
    expect(typeOne("injuries", { notes: " '=1+1 " }).values?.notes).toBe("=1+1");
    expect(typeOne("injuries", { notes: "n/a" }).values?.notes).toBe("n/a");
    expect(typeOne("injuries", { notes: "'tis sore" }).values?.notes).toBe("'tis sore");
  });

  it("all queries of a row at once, in the order of the columns; the first that sets it aside names the reason", () => {
    const { queries, setAside } = typeOne("injuries", { hand: "", finger: "D4", age_at_injury: "200" });
    expect(queries.map(({ code }) => code)).toEqual([
      "number-out-of-range",
      "value-missing",
      "finger-by-number",
    ]);
    expect(setAside).toMatchObject([{ query: { code: "value-missing" } }]);
  });
});
