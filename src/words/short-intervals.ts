import type { Count, EffectResult, Results, TestResult } from "../study/results.js";
import { sumOf } from "./counts.js";
import {
  type Measured,
  type MeasuredCohort,
  type MeasuredFigure,
  measuredHalfBackAdjusted,
  measuredShort,
  measuredSizes,
} from "./measured-coverage.js";
import { listed } from "./phrases.js";

/** A figure that a table shows, and how many injuries it rests on. */
export interface Shown {
  readonly figure: MeasuredFigure;
  readonly n: Count;
}

/** From twice the largest simulated cohort on nothing is said: the effect of small samples on an interval has gone by then. */
const largest = 2 * (measuredSizes.at(-1) as number);

const sizeFor = (n: number): Measured["n"] => measuredSizes.findLast((size) => size <= n) ?? measuredSizes[0];

/** Whether the study is like the cohorts in which some persons had several injuries, or dates were rounded. */
function cohortsLike({ accounting, warnings }: Results): readonly MeasuredCohort[] {
  const { persons, analysed } = accounting.analysis;
  const rounded = warnings.some(({ code }) => code === "inexact-dates" || code === "heaped-dates");
  return [persons !== analysed ? "several" : "single", ...(rounded ? (["rounded dates"] as const) : [])];
}

/** What was measured for a figure in cohorts like this study; the worst, null where nothing was found wanting. */
export function measuredFor({ figure, n }: Shown, results: Results): Measured | null {
  if (n === 0 || typeof n !== "number" || n >= largest) return null;
  // what was measured are methods on days; those on spans have a table of their own
  if (results.known_returns.path === "spans" && !figure.startsWith("difference of distance")) return null;
  const like = cohortsLike(results);
  const found = measuredShort.filter(
    (one) => one.figure === figure && one.n === sizeFor(n) && like.includes(one.cohort),
  );
  return found.reduce<Measured | null>(
    (worst, one) => (worst === null || off(one) > off(worst) ? one : worst),
    null,
  );
}

const isTest = (figure: MeasuredFigure): boolean => figure.includes("test");
const off = ({ figure, percent }: Measured): number => Math.abs(percent - (isTest(figure) ? 5 : 95));

const effectFigures: Readonly<Record<EffectResult["measure"], string>> = {
  landmark_difference: "difference of shares",
  restricted_mean_difference: "difference of mean times",
  hazard_ratio: "hazard ratio",
  distance_change_difference: "difference of distance changes",
};

/** An effect as a figure that was measured. */
export const shownEffect = ({ measure, adjusted_for, n }: EffectResult): Shown => ({
  figure: `${effectFigures[measure]}, ${adjusted_for.length > 0 ? "adjusted" : "crude"}` as MeasuredFigure,
  n: sumOf([n.compared, n.reference]),
});

/** The share back as it was measured, by what it is a share of. */
export const shareMeasured = ({ share_back }: Results["plan"]["question"]): MeasuredFigure =>
  share_back === "of_everyone" ? "share back" : "share back if nobody came to another end";

const testFigures: Readonly<Record<TestResult["method"], MeasuredFigure>> = {
  log_rank: "log-rank test",
  log_rank_stratified: "log-rank test within strata",
  log_rank_permuted: "log-rank test of the grades",
  log_rank_trend: "log-rank test for trend over grades",
  proportionality: "test of proportional hazards",
};

/** A test as a figure that was measured. */
export const shownTest = ({ method, family, groups }: TestResult): Shown => ({
  figure: method === "log_rank" && family === "grade" ? "log-rank test of the grades" : testFigures[method],
  n: sumOf(groups.map(({ n }) => n)),
});

/** Inside a sentence, beside an interval that was found too narrow; the note beneath the table of differences says by how much. */
export const mayBeTooNarrow = "the interval may be too narrow with so few injuries";

/**
 * Beneath a table: which of its intervals were found too narrow at this number of injuries, which of its tests reject too often. Empty
 * where none is.
 */
export function shortIntervalWords(shown: readonly Shown[], results: Results): string {
  const found = shown.flatMap((one) => measuredFor(one, results) ?? []);
  const listOf = (some: readonly Measured[]): string =>
    [...new Set(some.map(({ figure, n, percent }) => `${figure} ${percent}\u00a0% with ${n} injuries`))].join(
      "; ",
    );
  const intervals = listOf(found.filter(({ figure }) => !isTest(figure)));
  const tests = listOf(found.filter(({ figure }) => isTest(figure)));
  return [
    ...(intervals === ""
      ? []
      : [
          `Intervals that may be too narrow: in simulated cohorts like this one, nominal 95\u00a0% confidence intervals held the true value less often: ${intervals}.`,
        ]),
    ...(tests === ""
      ? []
      : [
          `Tests that may find too much: in simulated cohorts without any difference, p was below 0.05 in more than 5\u00a0%: ${tests}.`,
        ]),
    ...(intervals + tests === "" ? [] : ["Source: coverage simulation of this project."]),
  ].join(" ");
}

/** Beneath a table of adjusted curves: what was counted of its intervals, and what was not. Nothing where they come from a model of spans. */
export function adjustedMeasured(figures: readonly MeasuredFigure[], { known_returns }: Results): string {
  if (known_returns.path === "spans") return "";
  const source = "Source: coverage simulation of this project.";
  if (!figures.includes("day by which half are back"))
    return `In simulated cohorts the intervals of adjusted shares were not counted by themselves; those of their differences were, and stand with the differences. ${source}`;
  const sizes = listed(measuredHalfBackAdjusted.map(({ n }) => String(n)));
  const percents = listed(measuredHalfBackAdjusted.map(({ percent }) => `${percent}\u00a0%`));
  return `In simulated cohorts of ${sizes} injuries, 95\u00a0% confidence intervals of the day by which half were back, adjusted, held the true day in ${percents}; those of adjusted mean times were not counted by themselves, but those of their differences were. ${source}`;
}
