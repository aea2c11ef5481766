import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import {
  type Measured,
  type MeasuredCohort,
  type MeasuredFigure,
  measuredShort,
} from "../../../src/words/measured-coverage.js";
import { isOff, type Row } from "../../honesty/rows.js";

const { rows } = JSON.parse(readFileSync(new URL("../../honesty/results.json", import.meta.url), "utf8")) as {
  readonly rows: readonly Row[];
};

/** What the rows of the simulation are called in a report; a row that a report does not print is in none. */
const figures: readonly (readonly [RegExp, MeasuredFigure])[] = [
  [/^share back, week \d+ /, "share back"],
  [/^share back if nobody came to another end, week \d+ /, "share back if nobody came to another end"],
  [/^day by which half (were|would be) back/, "day by which half are back"],
  [/^mean days (until back|if nobody came to another end)$/, "mean time"],
  [/^difference of shares(, week \d+| at week \d+), crude$/, "difference of shares, crude"],
  [/^difference of shares(, week \d+| at week \d+), over grades$/, "difference of shares, adjusted"],
  [/^difference of mean days, crude$/, "difference of mean times, crude"],
  [/^difference of mean days, over grades$/, "difference of mean times, adjusted"],
  [/^(log )?hazard ratio, crude$/, "hazard ratio, crude"],
  [/^(log )?hazard ratio, grade as strata$/, "hazard ratio, adjusted"],
  [/^difference of distance change, two means$/, "difference of distance changes, crude"],
  [/^difference of distance change, adjusted for baseline$/, "difference of distance changes, adjusted"],
  [/^log-rank, groups$/, "log-rank test"],
  [/^log-rank, groups within grades$/, "log-rank test within strata"],
  [/^log-rank, grades$/, "log-rank test of the grades"],
  [/^log-rank trend over grades$/, "log-rank test for trend over grades"],
  [/^proportional hazards$/, "test of proportional hazards"],
];

const cohortOf = (setting: string): MeasuredCohort =>
  setting.includes("several fingers")
    ? "several"
    : setting === "one group, dates as written"
      ? "rounded dates"
      : "single";

/** Percent of intervals that hold the truth, the test of a figure that has an interval taken as the interval that holds no difference. */
function measuredOf(row: Row): Measured | null {
  const figure = figures.find(([name]) => name.test(row.figure))?.[1];
  if (figure === undefined || row.share === null || !isOff(row)) return null;
  const asTest = figure.includes("test");
  const share = row.kind === "test" && !asTest ? 1 - row.share : row.share;
  const tooFew = asTest ? share < 0.05 : share > 0.95;
  if (tooFew) return null;
  const cohort = cohortOf(row.setting);
  return { figure, cohort, n: row.n as Measured["n"], percent: Math.round(100 * share) };
}

function shortOnes(): Measured[] {
  const worst = new Map<string, Measured>();
  for (const row of rows) {
    const one = measuredOf(row);
    if (one === null) continue;
    const key = `${one.figure}|${one.cohort}|${one.n}`;
    const before = worst.get(key);
    const worse = one.figure.includes("test")
      ? one.percent > (before?.percent ?? 0)
      : one.percent < (before?.percent ?? 100);
    if (before === undefined || worse) worst.set(key, one);
  }
  const order = [...new Set(figures.map(([, figure]) => figure))];
  const cohorts: MeasuredCohort[] = ["single", "several", "rounded dates"];
  return [...worst.values()].sort(
    (a, b) =>
      order.indexOf(a.figure) - order.indexOf(b.figure) ||
      cohorts.indexOf(a.cohort) - cohorts.indexOf(b.cohort) ||
      a.n - b.n,
  );
}

describe("what a report says of its intervals, against the coverage simulation of this project, tests/honesty/results.json", () => {
  it("lists every figure that was found short, and nothing else", () => {
    expect(measuredShort).toEqual(shortOnes());
  });

  it("every kind of figure was counted", () => {
    const counted = figures.filter(([name]) => rows.some((row) => name.test(row.figure)));
    expect(counted.length).toBe(figures.length);
  });
});
