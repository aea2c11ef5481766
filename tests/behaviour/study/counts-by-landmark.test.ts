import { describe, expect, it } from "vitest";
import type { ExactResults, PlanAsWritten } from "../../../src/study/index.js";
import { injury, on, type Row, resultsOf, treated } from "./hand-made.js";

const back = (id: string, day: number, change: Row = {}) =>
  injury(id, { full_climbing_date: on(day), ...change });

/** Ring: back on days 30, 60 and 100. Tape: back on days 40 (known to the week: 37 to 43) and 95, one not back by day 120. */
const injuries = [
  back("1", 30),
  back("2", 60),
  back("3", 100),
  back("4", 40, { full_climbing_precision: "week" }),
  back("5", 95),
  injury("6", { full_climbing_date: "", last_contact_date: on(120) }),
];
const treatments = ["1", "2", "3"]
  .map((id) => treated(id, "ring"))
  .concat(["4", "5", "6"].map((id) => treated(id, "tape")));

const counted = ({ effects }: ExactResults) =>
  effects
    .filter(({ measure }) => measure !== "distance_change_difference")
    .map(({ measure, at_day, adjusted_for, events }) => [
      `${measure} ${at_day} ${adjusted_for.join()}`.trim(),
      events.compared,
      events.reference,
    ]);

const written: Partial<PlanAsWritten> = {
  landmarks_weeks: [6, 13],
  main_landmark_weeks: 13,
  horizon_weeks: 17,
};

describe("returns beside a landmark, counted by hand", () => {
  it("are those by that day; of a ratio, which has no day, those of all of the follow-up", () => {
    const results = resultsOf(injuries, treatments, {
      ...written,
      question: { inexact_returns: "on_one_day" },
    });
    for (const row of [
      ["landmark_difference 42", 1, 1],
      ["landmark_difference 42 sex", 1, 1],
      ["landmark_difference 91", 2, 1],
      ["landmark_difference 91 sex", 2, 1],
      ["restricted_mean_difference 119", 3, 2],
      ["restricted_mean_difference 119 sex", 3, 2],
      ["hazard_ratio null", 3, 2],
      ["hazard_ratio null sex", 3, 2],
    ])
      expect(counted(results)).toContainEqual(row);
  });

  it("where returns stay between two days, are those known to have come by that day", () => {
    const results = resultsOf(injuries, treatments, {
      ...written,
      question: { inexact_returns: "as_spans" },
    });
    expect(results.known_returns.path).toBe("spans");
    expect(counted(results)).toContainEqual(["landmark_difference 42", 1, 0]);
    expect(counted(results)).toContainEqual(["landmark_difference 91", 2, 1]);
  });
});
