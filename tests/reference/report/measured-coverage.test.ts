import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import {
  type Measured,
  type MeasuredCohort,
  type MeasuredFigure,
  measuredHalfBackAdjusted,
  measuredShort,
  measuredSizes,
} from "../../../src/words/measured-coverage.js";
import { programs } from "../../honesty/cohorts/program.js";
import { isOff, isShort, pooled, type Row } from "../../honesty/rows.js";

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

/** Sentences of a report, and how large a part of a cohort the figure is about. */
const sentences: readonly (readonly [RegExp, MeasuredFigure, part: "group" | "both groups"])[] = [
  [/^share back by week 13, /, "share back", "group"],
  [/^half back, (ring|tape) /, "day by which half are back", "group"],
  [/^difference of shares back, crude /, "difference of shares, crude", "both groups"],
  [/^difference of shares back, grade for grade /, "difference of shares, adjusted", "both groups"],
  [/^difference of mean days, crude /, "difference of mean times, crude", "both groups"],
  [/^difference of mean days, grade for grade /, "difference of mean times, adjusted", "both groups"],
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
  if (row.part !== "intervals" || figure === undefined || row.share === null || !isOff(row)) return null;
  const asTest = figure.includes("test");
  const share = row.kind === "test" && !asTest ? 1 - row.share : row.share;
  const tooFew = asTest ? share < 0.05 : share > 0.95;
  if (tooFew) return null;
  const cohort = cohortOf(row.setting);
  return { figure, cohort, n: row.n as Measured["n"], percent: Math.round(100 * share) };
}

/** The same of the sentences, over all programs together whose data have the days and allow an answer. */
function measuredSentences(): readonly Measured[] {
  return (["single", "several"] as const).flatMap((cohort) => {
    const names = programs
      .filter(({ answerable, visits }) => answerable && visits === null)
      .filter(({ twoFingers }) => twoFingers > 0 === (cohort === "several"))
      .map(({ name }) => name);
    return sentences.flatMap(([sentence, figure, part]) =>
      [40, 80, 200].flatMap((n): Measured[] => {
        const own = rows.filter(
          (row) =>
            row.part === "sentences" &&
            row.n === n &&
            sentence.test(row.figure) &&
            names.includes(row.setting),
        );
        const all = pooled(own);
        if (all === null || all.share === null || !isShort(all)) return [];
        // half of the injuries of a program are in each group, the nearest size below that counts
        const size = part === "both groups" ? n : measuredSizes.findLast((one) => one <= n / 2)!;
        return [{ figure, cohort, n: size as Measured["n"], percent: Math.round(100 * all.share) }];
      }),
    );
  });
}

function shortOnes(): Measured[] {
  const worst = new Map<string, Measured>();
  for (const one of [...rows.flatMap((row) => measuredOf(row) ?? []), ...measuredSentences()]) {
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

  it("how often adjusted days by which half are back were held", () => {
    const names = programs
      .filter(({ answerable, visits }) => answerable && visits === null)
      .map(({ name }) => name);
    const held = [40, 80, 200].map((n) => {
      const own = rows.filter(
        (row) =>
          row.n === n && /^half back, grade for grade, /.test(row.figure) && names.includes(row.setting),
      );
      return { n, percent: Math.round(100 * pooled(own)!.share!) };
    });
    expect(measuredHalfBackAdjusted).toEqual(held);
  });

  it("every kind of figure was counted", () => {
    const isCounted = (part: Row["part"], name: RegExp) =>
      rows.some((row) => row.part === part && name.test(row.figure));
    expect(figures.filter(([name]) => !isCounted("intervals", name))).toEqual([]);
    expect(sentences.filter(([name]) => !isCounted("sentences", name))).toEqual([]);
  });
});
