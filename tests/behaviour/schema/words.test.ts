import { describe, expect, it } from "vitest";
import { cellCodes, fileCodes } from "../../../src/schema/data-query.js";
import {
  type DataQuery,
  groupQueries,
  groupText,
  type QueryCode,
  queryCodes,
  queryList,
  queryText,
  sayQuery,
} from "../../../src/schema/index.js";

const ask = (code: QueryCode, change: Partial<DataQuery> = {}): DataQuery => ({
  code,
  severity: "set-aside",
  file: "injuries.csv",
  row: 14,
  column: "grade",
  found: "IV",
  facts: {},
  injury: "P09-1",
  ...change,
});

describe("every query in words", () => {
  it.each(queryCodes)(
    "%s says where, what was found and expected, how to correct it, and what happens",
    (code) => {
      const { where, found, expected, correction, consequence } = sayQuery(ask(code));
      expect(where).toBe('injuries.csv, row 14, column "grade"');
      expect(found).not.toBe("");
      expect(expected, "continues the sentence: small letter, no full stop").toMatch(/^[a-z].*[^.]$/s);
      expect(correction, "full sentences").toMatch(/^[A-Z].*[.?]$/s);
      expect(consequence).toMatch(/^[A-Z].*\.$/s);
    },
  );

  it.each(queryCodes)("%s lays no blame and shows no JSON", (code) => {
    const text = queryText(ask(code));
    expect(text).not.toMatch(/\b(you (did|forgot|failed)|wrong|error|invalid|illegal|bad|fault|mistake)\b/i);
    expect(text).not.toMatch(/[{}]|undefined|null|NaN|\[object/);
  });

  it.each(queryCodes)("%s repeats values of the file in what was found only", (code) => {
    const one = sayQuery(ask(code, { found: "4711", injury: "P4711" }));
    expect(
      `${one.expected}${one.correction}${one.consequence}`,
      "reports that leave the site repeat these",
    ).not.toContain("4711");
  });

  it("a grade without its letter reads as a person would say it", () => {
    expect(queryText(ask("grade-without-letter"))).toBe(
      'injuries.csv, row 14, column "grade": "IV" does not say whether 4a or 4b is meant.\n' +
        "  Write 4a (several pulleys, no visible bowstringing) or 4b (visible bowstringing, or complications). " +
        "Write 4_undivided if it was never recorded.\n" +
        "  The row is set aside until this is corrected.",
    );
  });

  it("a query about a whole file names no row and no column", () => {
    const query = ask("file-empty", { severity: "stop", row: null, column: null, found: null });
    expect(queryText(query)).toBe(
      "injuries.csv: this file is empty.\n  Export the table again, including its header line.\n  No data are read until this is corrected.",
    );
  });

  it("an optional cell counts as blank, a row that is only odd is used as it is", () => {
    expect(sayQuery(ask("number-range", { severity: "look-at" })).consequence).toContain("counts as blank");
    expect(sayQuery(ask("age-under-17", { severity: "look-at" })).consequence).toContain("used as it is");
  });

  it("long cells are cut and control characters do not reach the screen", () => {
    const { found } = sayQuery(ask("term-unknown", { found: `\u001b[31m${"x".repeat(500)}` }));
    expect(found.length).toBeLessThan(70);
    expect(found).not.toContain("\u001b");
  });

  it("the codes are each listed once", () => {
    expect(new Set(queryCodes).size).toBe(queryCodes.length);
    expect(queryCodes).toEqual(expect.arrayContaining([...fileCodes, ...cellCodes]));
  });
});

describe("alike queries together", () => {
  it("twelve more like it, with the rows they stand in", () => {
    const queries = Array.from({ length: 13 }, (_, place) => ask("grade-without-letter", { row: place + 2 }));
    const [group, ...others] = groupQueries(queries);
    expect(others).toEqual([]);
    expect(group).toMatchObject({ count: 13, rows: [2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14] });
    expect(groupText(group!)).toMatch(/\n {2}And 12 more rows like it\.$/);
  });

  it("different advice is a different group; what stops the run comes first", () => {
    const groups = groupQueries([
      ask("term-unknown", { facts: { near: "ring", terms: "ring" } }),
      ask("term-unknown", { facts: { near: "middle", terms: "ring" } }),
      ask("file-empty", { severity: "stop", row: null }),
    ]);
    expect(groups.map(({ first }) => first.code)).toEqual(["file-empty", "term-unknown", "term-unknown"]);
  });

  it("beyond 200 of a kind queries are counted, not kept, and none is lost from the count", () => {
    const list = queryList();
    for (let row = 2; row < 1_002; row++) list.add(ask("number-range", { row }));
    const moved = queryList();
    for (const query of list.all()) moved.add(query);
    for (const queries of [list.all(), moved.all()]) {
      expect(queries).toHaveLength(200);
      expect(groupQueries(queries)[0]!.count).toBe(1_000);
    }
  });
});
