import { describe, expect, it } from "vitest";
import { answered, proposalFor, readBy } from "./open-sheet.js";

const file = "08-mixed-cells.csv";
const answers = ["grade", "taken", "between", "ask", "ring"];

describe("cells that hold several things", () => {
  it("are asked about once for each kind of part, not cell by cell", async () => {
    const { mapping } = await proposalFor(file);
    expect(mapping.undecided.map(({ decides }) => decides.map((path) => path.slice(1).join(".")))).toEqual([
      ["hand.mixed.number", "finger.mixed.number", "pulleys.mixed.number", "grade.mixed.number"],
      ["hand.mixed.suspected", "finger.mixed.suspected", "pulleys.mixed.suspected", "grade.mixed.suspected"],
      ["hand.ranges", "finger.ranges", "pulleys.ranges", "grade.ranges"],
      ["hand.values.intakt", "finger.values.intakt", "pulleys.values.intakt", "grade.values.intakt"],
      ["treatment.values.schiene"],
    ]);
  });

  it("are read part by part, treatments in turn, bounds and ends as well", async () => {
    const { mapping } = await proposalFor(file);
    const { tables, accounts } = await readBy(file, answered(mapping, answers));
    expect(
      tables.injuries.map(({ values }) => [
        values.person_id,
        values.hand,
        values.finger,
        values.pulleys.join("|"),
        values.grade,
      ]),
    ).toEqual([
      ["M01", "right", "ring", "A2", "3"],
      ["M02", "left", "middle", "A4", "2"],
      ["M03", "right", "middle", "A2|A3|A4", "4b"],
      ["M04", "left", "ring", "A2|A3|A4", "4a"],
      ["M05", "right", "ring", "A2", "2"],
      ["M06", "left", "middle", "A3", "1"],
      ["M08", "right", "ring", "A3|A4|A5", "4a"],
    ]);
    // by hand: 6 weeks from 22 January, 4 weeks from 20 February; 12 weeks after 20 January is 13 April
    expect(
      tables.treatments.map(({ values: v }) => [v.injury_id, v.treatment, v.start_date, v.end_date]),
    ).toEqual([
      ["M01-1", "ring", "2024-01-17", "2024-03-13"],
      ["M02-1", "tape", "2024-01-22", "2024-03-04"],
      ["M02-1", "ring", "2024-03-04", null],
      ["M03-1", "surgery", "2024-02-10", null],
      ["M04-1", "ring", "2024-02-20", "2024-03-19"],
      ["M04-1", "tape", "2024-03-19", null],
      ["M05-1", "tape", "2024-03-04", null],
      ["M06-1", "tape", "2024-03-11", "2024-04-08"],
      ["M08-1", "ring", "2024-03-21", "2024-05-16"],
    ]);
    const returns = tables.injuries.map(({ values: v }) => [
      v.full_climbing_not_before,
      v.full_climbing_precision,
      v.end_status,
    ]);
    expect(returns[1]).toEqual(["2024-04-13", "later", null]);
    expect(returns[3]).toEqual([null, null, "gave_up"]);
    expect(returns[6]).toEqual([null, null, null]);
    expect(accounts).toMatchObject([{ read: 8, used: 7 }]);
    expect(accounts[0]!.setAside.map(({ row, query }) => [row, query.column])).toEqual([[8, "Diagnose"]]);
  });

  it("of a suspicion the grade may count as unknown, or each row be asked about", async () => {
    const { mapping } = await proposalFor(file);
    const unknown = await readBy(file, answered(mapping, answers.with(1, "grade_unknown")));
    expect(unknown.tables.injuries.map(({ values }) => values.grade)).toEqual([
      "unknown",
      "2",
      "4b",
      "4a",
      "2",
      "unknown",
      "4a",
    ]);
    const asked = await readBy(file, answered(mapping, answers.with(1, "asked")));
    expect(asked.accounts[0]!.setAside.map(({ row }) => row)).toEqual([2, 7, 8]);
  });

  it("a range may mean its ends alone", async () => {
    const { mapping } = await proposalFor(file);
    const { tables } = await readBy(file, answered(mapping, answers.with(2, "ends")));
    expect(tables.injuries[3]!.values.pulleys).toEqual(["A2", "A4"]);
  });
});
