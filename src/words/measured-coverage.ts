/** Figures whose intervals, and tests whose p-values, were counted in simulated cohorts. */
export type MeasuredFigure =
  | "share back"
  | "share back if nobody came to another end"
  | "day by which half are back"
  | "mean time"
  | "difference of shares, crude"
  | "difference of shares, adjusted"
  | "difference of mean times, crude"
  | "difference of mean times, adjusted"
  | "hazard ratio, crude"
  | "hazard ratio, adjusted"
  | "difference of distance changes, crude"
  | "difference of distance changes, adjusted"
  | "log-rank test"
  | "log-rank test within strata"
  | "log-rank test of the grades"
  | "log-rank test for trend over grades"
  | "test of proportional hazards";

/** What the cohorts were like: one injury a person, two in 4 of 10 persons, or dates known to the week, the month or between visits. */
export type MeasuredCohort = "single" | "several" | "rounded dates";

/** Sizes of the cohorts, injuries in all. */
export const measuredSizes = [20, 40, 80, 200] as const;

export interface Measured {
  readonly figure: MeasuredFigure;
  readonly cohort: MeasuredCohort;
  readonly n: (typeof measuredSizes)[number];
  /** Of intervals called 95 %, the percentage that held the truth; of tests where nothing differs, the percentage with p below 0.05. */
  readonly percent: number;
}

/**
 * Where an interval was found to be too narrow, or a test to reject too often, by more than two points and more than chance explains, in the
 * worst of the settings that have the figure, or in the printed sentences over all programs together whose data have the days of the returns;
 * whole percent. What is not listed was found to hold, or was too rare to be counted.
 *
 * @source coverage simulation of this project: tests/honesty/results.json, with which a test compares this list
 */
export const measuredShort: readonly Measured[] = [
  { figure: "share back", cohort: "several", n: 20, percent: 92 },
  { figure: "difference of shares, crude", cohort: "single", n: 20, percent: 91 },
  { figure: "difference of shares, crude", cohort: "several", n: 20, percent: 91 },
  { figure: "difference of shares, adjusted", cohort: "single", n: 20, percent: 91 },
  { figure: "difference of shares, adjusted", cohort: "several", n: 40, percent: 93 },
  { figure: "difference of mean times, crude", cohort: "single", n: 20, percent: 90 },
  { figure: "difference of mean times, crude", cohort: "single", n: 200, percent: 91 },
  { figure: "difference of mean times, adjusted", cohort: "single", n: 200, percent: 91 },
  { figure: "difference of mean times, adjusted", cohort: "several", n: 40, percent: 93 },
  { figure: "log-rank test", cohort: "single", n: 20, percent: 7 },
  { figure: "log-rank test", cohort: "several", n: 40, percent: 8 },
  { figure: "log-rank test within strata", cohort: "single", n: 20, percent: 7 },
  { figure: "log-rank test of the grades", cohort: "several", n: 200, percent: 8 },
  { figure: "test of proportional hazards", cohort: "several", n: 20, percent: 8 },
  { figure: "test of proportional hazards", cohort: "several", n: 40, percent: 8 },
  { figure: "test of proportional hazards", cohort: "several", n: 80, percent: 7 },
];

/**
 * Of intervals called 95 %, the whole percentage that held the day by which half were back grade for grade, both groups and all programs together
 * whose data have the days of the returns.
 *
 * @source coverage simulation of this project: tests/honesty/results.json, with which a test compares this list
 */
export const measuredHalfBackAdjusted: readonly Pick<Measured, "n" | "percent">[] = [
  { n: 40, percent: 95 },
  { n: 80, percent: 95 },
  { n: 200, percent: 95 },
];
