import { describe, expect, it } from "vitest";
import { timeToFullClimbing } from "../../../src/synthetic/course.js";
import { completeScenario, trueEffects } from "../../../src/synthetic/index.js";
import { drawnGrades } from "../../../src/synthetic/scenario-grade.js";

const scenario = completeScenario({
  name: "weibull",
  title: "SYNTHETIC",
  seed: 1,
  injuries: 10,
  sites: [{ id: "site-a" }],
});
const { shape, median_weeks, hazard_ratio } = scenario.return;

/** Share not yet back after t days by the definition of the Weibull distribution with median m and shape k: 2^-(t/m)^k. */
const notYet = (grade: (typeof drawnGrades)[number], day: number): number =>
  2 ** -((day / (median_weeks[grade] * 7)) ** shape[grade]);

describe("time to full climbing, definition of the Weibull distribution", () => {
  it.each(drawnGrades)("grade %s under tape: H(t) = ln 2 gives the median", (grade) => {
    const time = timeToFullClimbing(scenario, {
      grade,
      treatment: "tape",
      start: 3,
      unitExponential: Math.LN2,
    });
    expect(time).toBeCloseTo(median_weeks[grade] * 7, 9);
  });

  it.each(drawnGrades)("grade %s: a ring from day 0 divides the median by ratio^(1/shape)", (grade) => {
    const time = timeToFullClimbing(scenario, {
      grade,
      treatment: "ring",
      start: 0,
      unitExponential: Math.LN2,
    });
    expect(time).toBeCloseTo((median_weeks[grade] * 7) / hazard_ratio.ring ** (1 / shape[grade]), 9);
  });

  it("grade 3: after a ring from day 20 the cumulative hazard is that of tape to day 20 and 1.35 times its growth then", () => {
    const hazard = (day: number) => -Math.log(notYet("3", day));
    const unitExponential = hazard(20) + 1.35 * (hazard(70) - hazard(20));
    const time = timeToFullClimbing(scenario, { grade: "3", treatment: "ring", start: 20, unitExponential });
    expect(time).toBeCloseTo(70, 9);
  });

  it("grade 3: a return before the ring is that under tape", () => {
    const unitExponential = -Math.log(notYet("3", 15));
    const time = timeToFullClimbing(scenario, { grade: "3", treatment: "ring", start: 20, unitExponential });
    expect(time).toBeCloseTo(15, 9);
  });
});

describe("simulated truth against the closed form of the Weibull distribution", () => {
  const { cells } = trueEffects(scenario, { draws: 40_000 });
  const taped = cells.filter(({ treatment }) => treatment === "tape");

  it.each(taped)(
    "grade $grade under tape: shares by the landmarks are 1 - 2^-(t/m)^k",
    ({ grade, landmarks }) => {
      for (const { day, returned_if_no_competing_end: returned } of landmarks) {
        // Counted are injuries whose tape began in time; in grade 1 that leaves out the quickest, at most 0.4 %.
        const slack = 4 * returned.standard_error + (grade === "1" ? 0.004 : 0.0005);
        expect(Math.abs(returned.value - (1 - notYet(grade, day)))).toBeLessThan(slack);
      }
    },
  );

  it.each(taped)(
    "grade $grade under tape: E min(T, h) in whole days is the sum of the shares not yet back on days 0 to h - 1",
    (cell) => {
      const closed = Array.from({ length: 182 }, (_, day) => notYet(cell.grade, day)).reduce(
        (a, b) => a + b,
        0,
      );
      const { value, standard_error } = cell.if_no_competing_end.restricted_mean_days;
      expect(Math.abs(value - closed)).toBeLessThan(4 * standard_error);
    },
  );

  it.each(taped)(
    "grade $grade under tape: the median is that of the scenario, to the day",
    ({ grade, if_no_competing_end: { median_days } }) => {
      expect(Math.abs(median_days - median_weeks[grade] * 7)).toBeLessThanOrEqual(1.5);
    },
  );
});
