import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { readCohortForSite } from "../../../../src/ingest/index.js";
import { sheetOf, study } from "../sheets.js";

const sources = [
  sheetOf("injuries", [
    { injury_id: "b-1", person_id: "b", grade: "IV" },
    { injury_id: "a-1", person_id: "a", finger: "thumb", age_at_injury: "=1+1" },
  ]),
  sheetOf("visits", [{ injury_id: "a-1", date: "2024-11-19" }]),
];
const rowsOf = (csv: string) => Papa.parse<Record<string, string>>(csv.trim(), { header: true }).data;
const encode = (text: string) => new TextEncoder().encode(text);

describe("the list of queries for the site", () => {
  const { csv, open } = readCohortForSite(sources, study);
  const rows = rowsOf(csv);

  it("has one row per query, by person and then by rule, with blank columns for the answer", () => {
    expect(csv.split("\n")[0]).toBe(
      "id,person,injury,rule,file,row,column,found,query,how_to_correct,state,answer,new_value,answered_by,answered_on",
    );
    expect(rows.map(({ person, rule }) => [person, rule])).toEqual([
      ["a", "event-after-last-contact"],
      ["a", "number-unreadable"],
      ["a", "thumb-with-grade"],
      ["b", "grade-without-letter"],
    ]);
    expect(rows).toHaveLength(open.length);
    expect(
      rows.every(
        ({ answer, new_value, answered_by }) => answer === "" && new_value === "" && answered_by === "",
      ),
    ).toBe(true);
  });

  it("asks in words, and no cell of it starts a formula", () => {
    expect(rows[3]!.query).toBe(
      '"IV" does not say whether 4a or 4b is meant. The row is set aside until this is corrected.',
    );
    expect(rows[1]!.found).toBe("'=1+1");
  });

  it("filled in and saved, it is the file of answers; a later list keeps the answers and the lines without a query", () => {
    const filled = rows.map((row) =>
      row.rule === "grade-without-letter"
        ? { ...row, answer: "change", new_value: "4b", answered_by: "x", answered_on: "2025-01-02" }
        : row.rule === "thumb-with-grade"
          ? { ...row, id: "q-0000-0000-0000", answer: "stands" }
          : row,
    );
    const answers = { file: "answers.csv", bytes: encode(Papa.unparse(filled, { delimiter: ";" })) };
    const again = readCohortForSite(sources, { ...study, answers });
    expect(again.answers).toMatchObject({ read: 4, blank: 2, used: { change: 1 }, notUsed: { stale: 1 } });
    const later = rowsOf(again.csv);
    expect(later.find(({ rule }) => rule === "grade-without-letter")).toMatchObject({
      answer: "change",
      new_value: "4b",
      answered_by: "x",
      answered_on: "2025-01-02",
    });
    expect(later.at(-1)).toMatchObject({ id: "q-0000-0000-0000", answer: "stands" });
    const third = readCohortForSite(sources, {
      ...study,
      answers: { file: "answers.csv", bytes: encode(again.csv) },
    });
    expect(third.csv).toBe(again.csv);
  });
});
