import { describe, expect, it } from "vitest";
import { readCohort } from "../../../src/ingest/index.js";
import { csvText } from "../../../src/schema/index.js";
import { injury, on, type Row, resultsOf, treated } from "./hand-made.js";

const injuries = Array.from({ length: 6 }, (_, i) => injury(String(i + 1)));
const others = [treated("2", "ring"), treated("3", "ring"), treated("4", "tape"), treated("5", "tape")];

/** What becomes of injury 1, which a tape from day 20 on follows whatever is written before it. */
const accountsWith = (rows: readonly Row[], written: Parameters<typeof resultsOf>[2] = {}) => {
  const later = { ...treated("1", "tape"), start_date: on(20) };
  return resultsOf(injuries, [...others, ...rows, later], written).accounting;
};
const leftOutOf = (rows: readonly Row[]) =>
  accountsWith(rows).comparison.left_out.filter(({ code }) => code !== "not-recorded");

describe("a treatment whose row is set aside, counted by hand", () => {
  it("does not let a later one be the first: its word cannot be read", () => {
    const rows = [{ ...treated("1", "magnets"), start_date: on(2) }];
    expect(accountsWith(rows).tables[1]).toMatchObject({ read: 6, used: 5, set_aside: 1 });
    expect(leftOutOf(rows)).toEqual([{ code: "first-treatment-not-read", n: 1 }]);
    expect(leftOutOf([{ ...treated("1", "magnets"), start_date: "" }])).toEqual([
      { code: "first-treatment-not-known", n: 1 },
    ]);
  });

  it.each<[string, Row]>([
    ["it ends before it begins", { ...treated("1", "ring"), end_date: on(-30) }],
    ["it begins before the injury", { ...treated("1", "ring"), start_date: on(-3) }],
    ["it begins after the close of the data", { ...treated("1", "ring"), start_date: "2026-03-05" }],
    ["its start cannot be read", { ...treated("1", "ring"), start_date: "in March" }],
    [
      "it begins on the day of the other, and is not read",
      { ...treated("1", "magnets"), start_date: on(20) },
    ],
  ])("nor where %s", (_, row) => {
    const [left, ...rest] = leftOutOf([row]);
    expect(left?.code).toMatch(/^first-treatment-not-(known|read)$/);
    expect(rest).toEqual([]);
  });

  it.each<[string, Row]>([
    ["began later", { ...treated("1", "magnets"), start_date: on(30) }],
    ["is of no interest to the question", { ...treated("1", "rest"), end_date: on(-30) }],
  ])("is not in the way where it %s", (_, row) => {
    expect(leftOutOf([row])).toEqual([]);
  });

  it("stands by its place where the starts are not known", () => {
    const inOrder = (tape: string, magnets: string) =>
      resultsOf(injuries, [
        ...others,
        { injury_id: "1", treatment: "tape", order: tape },
        { injury_id: "1", treatment: "magnets", order: magnets },
      ]).accounting.comparison.left_out.map(({ code }) => code);
    expect(inOrder("1", "2")).toEqual(["not-recorded", "treatment-without-start"]);
    expect(inOrder("2", "1")).toEqual(["first-treatment-not-read", "not-recorded"]);
  });

  it("counts as one even where its cells do not fit the header, and not where the row is a copy or left out", () => {
    const header = "injury_id,treatment,start_date\n";
    const text = (line: string) => `${header}1,ring,2024-03-05,x\n1,tape,2024-03-24\n${line}`;
    const read = (line: string) =>
      readCohort(
        [
          {
            table: "injuries",
            file: "injuries.csv",
            bytes: new TextEncoder().encode(
              csvText(Object.keys(injuries[0]!), [Object.values(injuries[0]!)]),
            ),
          },
          { table: "treatments", file: "treatments.csv", bytes: new TextEncoder().encode(text(line)) },
        ],
        { closedOn: "2025-06-30", thresholdMm: 2 },
      );
    const { tables, accounts } = read("1,tape,2024-03-24\n");
    expect(tables.treatments.map(({ values }) => [values.treatment, values.start_date])).toEqual([
      ["tape", "2024-03-24"],
      ["not_stated", null],
    ]);
    expect(accounts[1]).toMatchObject({ read: 3, used: 1 });
  });

  it("may have been the operation that is a competing end", () => {
    const question = { competing_ends: ["surgery"] } as const;
    const rows = [{ ...treated("1", "magnets"), start_date: on(2) }];
    const { analysis } = accountsWith(rows, { question: { competing_ends: [...question.competing_ends] } });
    expect(analysis.excluded).toEqual([{ code: "surgery-without-day", n: 1 }]);
  });
});
