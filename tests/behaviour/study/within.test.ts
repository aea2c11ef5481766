import { describe, expect, it } from "vitest";
import type { PlanAsWritten } from "../../../src/study/index.js";
import { injury, on, resultsOf, treated } from "./hand-made.js";

/** One injury a day of return, of a grade and under a treatment. */
const returns = (grade: string, treatment: string, days: readonly number[]) =>
  days.map((day) => injury(`${grade}-${treatment}-${day}`, { grade, full_climbing_date: on(day) }));

const injuries = [
  ...returns("2", "ring", [40, 45, 50, 100]),
  ...returns("2", "tape", [42, 93, 120, 130]),
  ...returns("3", "ring", [80, 95, 100, 140]),
  ...returns("4a", "ring", [150]),
  ...returns("unknown", "tape", [60, 61, 62]),
];
const treatments = injuries.map(({ injury_id }) => treated(injury_id!, injury_id!.split("-")[1]!));

const within = (compare: PlanAsWritten["compare"] = {}) =>
  resultsOf(injuries, treatments, {
    question: { clock: "treatment_start" },
    compare: { adjust_for: [], smallest_group: 3, ...compare },
  }).within;

/* Nobody is lost, so every figure is one of counting, by hand. */
describe("the groups side by side, grade by grade", () => {
  it("tells how many there are, how many are back by the main landmark, and when half are", () => {
    const grade2 = within()!.rows[0]!;
    expect(grade2.value).toBe("2");
    expect(grade2.cells.map(({ label, n, returned }) => [label, n, returned.value])).toEqual([
      ["ring", 4, 0.75],
      ["tape", 4, 0.25],
    ]);
    // days from the start of the treatment, a day after the injury
    expect(grade2.cells.map(({ half_back }) => half_back.value)).toEqual([44, 92]);
    expect(grade2.differences[0]).toMatchObject({ compared: "ring", reference: "tape" });
    expect(grade2.differences[0]!.returned.value).toBeCloseTo(0.5, 12);
  });

  it("tells the share back by each landmark of the study", () => {
    const [grade2] = within()!.rows;
    // 4 with a ring, back 39, 44, 49 and 99 days after its start: 1 by day 42, 3 by day 56
    const ring = grade2!.cells[0]!.landmarks.map(({ week, returned }) => [week, returned.value]);
    expect(ring).toEqual([
      [6, 0.25],
      [8, 0.75],
      [10, 0.75],
      [13, 0.75],
      [17, 1],
      [26, 1],
    ]);
    const small = within({ smallest_group: 5 })!.rows[0]!.cells[0]!;
    expect(small.landmarks.every(({ returned }) => returned.reason === "too-few-rows")).toBe(true);
  });

  it("counts groups that are too small and describes neither them nor a difference from them", () => {
    const rows = within()!.rows;
    const [, grade3, grade4a] = rows;
    expect(rows.map(({ value }) => value)).toEqual(["2", "3", "4a"]);
    expect(grade3!.cells.map(({ n, returned }) => [n, returned.reason])).toEqual([
      [4, null],
      [0, "too-few-rows"],
    ]);
    expect(grade4a!.cells[0]).toMatchObject({ n: 1, returned: { value: null, reason: "too-few-rows" } });
    for (const { differences } of [grade3!, grade4a!])
      expect(differences[0]).toMatchObject({ returned: { value: null, reason: "too-few-rows" }, p: null });
  });

  it("takes no grade that was not recorded for one", () => {
    const { rows, not_recorded } = within()!;
    expect(not_recorded).toBe(3);
    const counted = rows.flatMap(({ cells }) => cells).reduce((sum, { n }) => sum + n, 0);
    expect(counted + not_recorded).toBe(injuries.length);
  });

  it("is by another field where the study says so, and left out where it compares by that field", () => {
    expect(within({ within: "finger" })!.rows.map(({ value }) => value)).toEqual(["ring"]);
    expect(within({ within: null })).toBeNull();
    expect(within({ by: "grade", groups: ["2", "3"], reference: "2" })).toBeNull();
  });
});
