import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { wholeDays } from "../../../src/cohort/index.js";
import { readCohort } from "../../../src/ingest/index.js";
import { questionMethods } from "../../../src/report/methods/question.js";
import { answer, fewestRows, PlanError, readPlan, withoutSmallCells } from "../../../src/study/index.js";
import { trueEffects } from "../../../src/synthetic/index.js";
import { readScenario } from "../../../src/synthetic/read-scenario.js";

/* Times are whole days: 26.1 weeks are 182.7 days, and the nearest whole day is 183 (by hand). */

const folder = new URL("../../../synthetic-data/one-clinic/", import.meta.url);
const textOf = (file: string) => readFileSync(new URL(file, folder), "utf8");
const planText = (times: string) => textOf("study.yaml").replace("horizon_weeks: 26\n", `${times}\n`);
const tables = ["injuries", "treatments", "imaging", "visits", "sites"] as const;

function studied(times: string) {
  const plan = readPlan("study.yaml", planText(times));
  const cohort = readCohort(
    tables.map((table) => ({
      table,
      file: plan.data[table]!,
      bytes: readFileSync(new URL(plan.data[table]!, folder)),
    })),
    { closedOn: plan.data.closed_on!, thresholdMm: plan.distance.threshold_mm },
  );
  return { plan, cohort, results: answer(cohort, plan) };
}

/** Every number under a key that names a day, wherever it stands. */
function daysIn(value: unknown, key = ""): number[] {
  if (typeof value === "number") return /(^|_)days?$/.test(key) && key !== "median_days" ? [value] : [];
  if (Array.isArray(value)) return value.flatMap((one) => daysIn(one, key));
  if (value === null || typeof value !== "object") return [];
  return Object.entries(value).flatMap(([name, one]) => daysIn(one, name));
}

describe("weeks of a study file", () => {
  it.each([
    [26, 182],
    [26.1, 183],
    [6.5, 46],
    [6.49, 45],
    [0.1, 1],
    [520, 3640],
  ])("%d weeks are day %d", (weeks, days) => {
    expect(wholeDays(weeks)).toBe(days);
  });

  describe("a horizon of 26.1 weeks and a landmark of 6.5", () => {
    const { plan, cohort, results } = studied("horizon_weeks: 26.1\nlandmarks_weeks: [6.5, 13]");

    it("is one whole day in every part of the results", () => {
      const means = results.effects.filter(({ measure }) => measure === "restricted_mean_difference");
      expect(means.length).toBeGreaterThan(1);
      expect(new Set(means.map(({ at_day }) => at_day))).toEqual(new Set([183]));
      const curves = results.curves.flatMap((family) => family.curves);
      expect(new Set(curves.map(({ restricted_mean }) => restricted_mean.horizon_days))).toEqual(
        new Set([183]),
      );
      expect(results.lost.horizon_days).toBe(183);
      expect(curves.map(({ landmarks }) => landmarks.map(({ week, day }) => [week, day]))).toEqual(
        curves.map(() => [
          [6.5, 46],
          [13, 91],
        ]),
      );
    });

    it("leaves no part of a day in any day or time of the results", () => {
      const days = [...daysIn(results.curves), ...daysIn(results.effects), ...daysIn(results.lost)];
      expect(days.length).toBeGreaterThan(100);
      expect(days.filter((day) => !Number.isInteger(day))).toEqual([]);
    });

    it("finds the main landmark where small cells are left out", () => {
      const told = withoutSmallCells(results, fewestRows(cohort.tables, 5));
      const main = told.curves.find(({ family }) => family === "all")!.curves[0]!.landmarks[1]!;
      expect(main).toMatchObject({ week: 13, day: 91 });
      expect(main.returned.value).not.toBeNull();
    });

    it("is said in the methods", () => {
      const told = withoutSmallCells(results, fewestRows(cohort.tables, 5));
      expect(questionMethods(told)).toContain(
        "Times of the study file are counted in whole days, each as the nearest: 26.1 weeks as day 183 and 6.5 weeks as day 46.",
      );
      expect(plan.horizon_weeks).toBe(26.1);
    });

    it("gives the numbers of the weeks that are those days", () => {
      const sameDays = studied(`horizon_weeks: ${183 / 7}\nlandmarks_weeks: [${46 / 7}, 13]`).results;
      expect(sameDays.effects).toEqual(results.effects);
      expect(sameDays.lost).toEqual(results.lost);
      expect(sameDays.tests).toEqual(results.tests);
    });
  });

  it("are not spoken of in the methods where they are whole days", () => {
    const { results, cohort } = studied("horizon_weeks: 26");
    const told = withoutSmallCells(results, fewestRows(cohort.tables, 5));
    expect(questionMethods(told).join(" ")).not.toContain("each as the nearest");
  });

  it.each([
    ["two landmarks on one day", "horizon_weeks: 26\nlandmarks_weeks: [13, 13.01]", "13.01 is day 91"],
    [
      "a landmark past the horizon",
      "horizon_weeks: 26\nlandmarks_weeks: [13, 26.1]",
      "is beyond the horizon",
    ],
    ["a time of less than a day", "horizon_weeks: 0.05\nlandmarks_weeks: [13]", "horizon_weeks"],
  ])("are asked about: %s", (_, times, says) => {
    expect(() => readPlan("study.yaml", planText(times))).toThrow(PlanError);
    expect(() => readPlan("study.yaml", planText(times))).toThrow(says);
  });

  it("may end on the same day as the horizon", () => {
    const plan = readPlan("study.yaml", planText("horizon_weeks: 26\nlandmarks_weeks: [13, 26.02]"));
    expect(plan.landmarks_weeks).toEqual([13, 26.02]);
  });

  it("are the same days in the truth of an invented cohort", () => {
    const scenario = readScenario("scenario.yaml", textOf("scenario.yaml"));
    const truth = trueEffects(scenario, { draws: 20, horizonWeeks: 26.1, landmarksWeeks: [6.5] });
    expect(truth.horizon_days).toBe(183);
    expect(truth.cells.map(({ landmarks }) => landmarks[0]!.day)).toEqual(truth.cells.map(() => 46));
  });
});
