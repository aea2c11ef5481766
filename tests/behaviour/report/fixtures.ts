import { createHash } from "node:crypto";
import type { PageInput } from "../../../src/report/index.js";
import { estimandsOf } from "../../../src/study/estimands.js";
import type { ExactResults } from "../../../src/study/exact-results.js";
import { type Plan, type PlanAsWritten, planSchema } from "../../../src/study/plan.js";
import {
  type CurveResult,
  type EffectResult,
  type Estimate,
  type ReasonCode,
  type Results,
  resultsSchema,
} from "../../../src/study/results.js";
import { specificationOf } from "../../../src/study/specification.js";

/** Invented results: nobody's data, made up for these tests and for looking at the page. */

export const sha256 = (text: string): string => createHash("sha256").update(text, "utf8").digest("hex");

export const found = (value: number, lower: number | null = null, upper: number | null = null): Estimate => ({
  value,
  lower,
  upper,
  reason: null,
});
export const missing = (reason: ReasonCode): Estimate => ({ value: null, lower: null, upper: null, reason });

export const planOf = (written: Partial<PlanAsWritten> = {}): Plan =>
  planSchema.parse({
    study: "invented-clinic",
    title: "Ring or tape after a pulley rupture",
    synthetic: true,
    data: { injuries: "injuries.csv", treatments: "treatments.csv", imaging: "imaging.csv" },
    ...written,
  });

const weeks = [6, 8, 10, 13, 17, 26];

export interface CurveSketch {
  readonly family?: CurveResult["family"];
  readonly label: string;
  readonly n: number;
  readonly main: Estimate;
  readonly half?: Estimate;
}

/** A curve with plausible company for the figures that a test is about. */
export function curveOf({
  family = "compared",
  label,
  n,
  main,
  half = found(80, 63, 101),
}: CurveSketch): CurveResult {
  const events = Math.round(n * 0.8);
  const shares = [0.06, 0.2, 0.4, main.value ?? 0.6, 0.8, 0.92];
  return {
    id: `${family}:${label}`,
    family,
    label,
    n,
    events,
    competing: n > 10 ? 2 : 0,
    persons: Math.max(0, n - 1),
    last_day: 210,
    points: [0, 42, 63, 91, 120, 182].map((day, index) => ({
      day,
      at_risk: Math.max(0, n - index * 3),
      events: index === 0 ? 0 : 2,
      censored: index === 0 ? 0 : 1,
      competing: 0,
      not_yet: 1 - index * 0.15,
      returned: index * 0.15,
      standard_error: 0.05,
      returned_lower: index === 0 ? null : index * 0.1,
      returned_upper: index === 0 ? null : index * 0.19,
    })),
    quantiles: [
      { share: 0.25, days: found(61, 49, 72) },
      { share: 0.5, days: half },
      { share: 0.75, days: { value: 118, lower: 96, upper: null, reason: "not-reached" } },
    ],
    landmarks: weeks.map((week, index) => ({
      week,
      day: week * 7,
      at_risk: Math.max(0, n - index * 3),
      returned:
        week === 13
          ? main
          : found(shares[index]!, Math.max(0, shares[index]! - 0.15), Math.min(1, shares[index]! + 0.05)),
    })),
    restricted_mean: { horizon_days: 182, days: found(94.31, 81.2, 107.4), standard_error: 6.7 },
    other_ends:
      n > 10
        ? [
            {
              end: "gave_up",
              n: 2,
              points: [
                { day: 50, share: 0.03, lower: 0.002, upper: 0.13 },
                { day: 100, share: 0.06, lower: 0.01, upper: 0.17 },
              ],
              landmarks: weeks.map((week) => ({ week, day: week * 7, share: found(0.06, 0.01, 0.17) })),
            },
          ]
        : [],
    number_at_risk: [0, 42, 91, 182].map((day, index) => ({
      day,
      at_risk: Math.max(0, n - index * 5),
      events: index * 4,
    })),
    alone: null,
    falls_early: false,
  };
}

export type EffectSketch = Pick<EffectResult, "measure" | "estimate"> & Partial<EffectResult>;

const unitOf = {
  landmark_difference: "share",
  restricted_mean_difference: "d",
  hazard_ratio: "ratio",
  distance_change_difference: "mm",
} as const;

export function effectOf(sketch: EffectSketch): EffectResult {
  const { measure, compared = "ring", reference = "tape", adjusted_for = ["grade"] } = sketch;
  const day = {
    landmark_difference: 91,
    restricted_mean_difference: 182,
    hazard_ratio: null,
    distance_change_difference: null,
  };
  return {
    id: `${measure}:${compared}-${reference}:${adjusted_for.join("-") || "crude"}`,
    compared,
    reference,
    adjusted_for,
    at_day: day[measure],
    main: true,
    unit: unitOf[measure],
    level: 0.95,
    standard_error: 0.09,
    p: 0.13,
    n: { compared: 24, reference: 31 },
    events: { compared: 19, reference: 25 },
    method: adjusted_for.length > 0 ? "curves_standardised" : "curves",
    clustered: true,
    left_out: [],
    strata_used:
      adjusted_for.length > 0 && unitOf[measure] !== "ratio" && unitOf[measure] !== "mm"
        ? ["grade 2", "grade 3"]
        : [],
    ...sketch,
  };
}

const noNumbers = {
  mean: null,
  standard_deviation: null,
  median: null,
  lower_quartile: null,
  upper_quartile: null,
};
const termCell = (n: number, count: number, missingRows = 0) => ({
  ...noNumbers,
  n,
  missing: missingRows,
  count,
  share: n === 0 ? null : count / n,
});
const numberCell = (n: number, median: number) => ({
  n,
  missing: 1,
  count: null,
  share: null,
  mean: median + 0.62,
  standard_deviation: 6.4321,
  median,
  lower_quartile: median - 4.5,
  upper_quartile: median + 5,
});

function cohort(): Results["cohort"] {
  const grades = [
    ["1", 5, 2, 3],
    ["2", 14, 5, 9],
    ["3", 27, 14, 13],
    ["4a", 6, 2, 4],
    ["4b", 3, 1, 2],
  ] as const;
  return {
    by: "first_treatment",
    reference: "tape",
    groups: [
      { label: "ring", n: 24 },
      { label: "tape", n: 31 },
    ],
    overall: 55,
    rows: [
      ...grades.map(([term, all, ring, tape], index) => ({
        variable: "grade",
        term,
        unit: null,
        overall: termCell(55, all),
        groups: [termCell(24, ring), termCell(31, tape)],
        standardised_differences: index === 0 ? [0.312, null] : [null, null],
      })),
      ...(["female", "male"] as const).map((term, index) => ({
        variable: "sex",
        term,
        unit: null,
        overall: termCell(53, 20 + index, 2),
        groups: [termCell(23, 9, 1), termCell(30, 11, 1)],
        standardised_differences: index === 0 ? [0.047, null] : [null, null],
      })),
      {
        variable: "age_at_injury",
        term: null,
        unit: "a",
        overall: numberCell(54, 29),
        groups: [numberCell(23, 28), numberCell(30, 30.5)],
        standardised_differences: [-0.214, null],
      },
    ],
  };
}

function effects(): EffectResult[] {
  const left_out = [{ stratum: "grade 4b", n: 3, reason: "too-few-rows" as const }];
  const landmarks = [42, 56, 70, 119, 182].map((at_day, index) =>
    effectOf({
      measure: "landmark_difference",
      estimate: found(0.03 * index, -0.12, 0.21),
      at_day,
      main: false,
      left_out,
    }),
  );
  return [
    effectOf({
      measure: "landmark_difference",
      estimate: found(0.05, -0.16, 0.26),
      adjusted_for: [],
      p: 0.64,
    }),
    effectOf({ measure: "landmark_difference", estimate: found(0.14, -0.04, 0.32), left_out }),
    ...landmarks,
    effectOf({
      measure: "restricted_mean_difference",
      estimate: found(-4.02, -18.3, 10.2),
      adjusted_for: [],
      p: 0.58,
    }),
    effectOf({ measure: "restricted_mean_difference", estimate: found(-9.04, -22.1, 4.02), left_out }),
    effectOf({
      measure: "hazard_ratio",
      estimate: found(1.12, 0.71, 1.78),
      adjusted_for: [],
      method: "proportional_hazards",
      p: 0.62,
    }),
    effectOf({
      measure: "hazard_ratio",
      estimate: found(1.412, 0.881, 2.263),
      method: "proportional_hazards",
    }),
    effectOf({
      measure: "distance_change_difference",
      estimate: found(-0.31, -0.72, 0.1),
      adjusted_for: [],
      method: "welch",
      n: { compared: 18, reference: 20 },
    }),
    effectOf({
      measure: "distance_change_difference",
      estimate: found(-0.42, -0.78, -0.06),
      adjusted_for: ["distance at baseline"],
      method: "baseline_adjusted_regression",
      n: { compared: 18, reference: 20 },
      p: 0.0004,
    }),
  ];
}

function afterReturn(): Results["after_return"] {
  const group = (family: "all" | "compared", label: string, n: number, ruptured: number) => ({
    family,
    label,
    n,
    returned: n - 8,
    ruptured_again: ruptured,
    operated: 1,
    person_months: n * 3.5,
    rate: found((100 * ruptured) / (n * 3.5), 0.12, 4.3),
    landmarks: weeks.map((week) => ({
      week,
      day: week * 7,
      back_and_well: found(0.5, 0.3, 0.7),
      ruptured_again: week > 20 ? missing("beyond-follow-up") : found(0.02, 0.01, 0.1),
    })),
    over_time: {
      last_day: 230,
      points: [0, 42, 63, 91, 120, 182].map((day, i) => ({
        day,
        not_yet: 1 - i * 0.15,
        back_and_well: Math.max(0, i * 0.15 - (i > 3 ? ruptured / n : 0)),
        ruptured_again: i > 3 ? ruptured / n : 0,
        ended_before: 0,
        ended_after: 0,
      })),
      number_followed: [0, 56, 112, 168].map((day, i) => ({ day, not_yet: n - i * 4, back_and_well: i * 3 })),
    },
    level: { below: 3, same: 5, above: 2, not_recorded: n - 18 },
    complications: { asked: n - 2, found: 1, share: found(1 / (n - 2), 0.001, 0.2) },
  });
  return {
    groups: [
      group("all", "all injuries", 61, 2),
      group("compared", "ring", 24, 2),
      group("compared", "tape", 31, 0),
    ],
    order_not_recorded: 1,
  };
}

function differencesOverTime(): Results["differences_over_time"] {
  const difference = (adjusted_for: string[]) => ({
    compared: "ring",
    reference: "tape",
    adjusted_for,
    strata_used: adjusted_for.length > 0 ? ["grade 2", "grade 3"] : [],
    n: { compared: 24, reference: 31 },
    last_day: 182,
    points: [42, 63, 91, 120].map((day, i) => ({
      day,
      difference: i * 0.05,
      lower: i * 0.05 - 0.2,
      upper: i * 0.05 + 0.2,
      band_lower: i * 0.05 - 0.31,
      band_upper: i * 0.05 + 0.31,
    })),
    critical_value: 2.91,
    p: 0.41,
    draws: 1000,
    clustered: true,
    reason: null,
  });
  return [difference([]), difference(["grade"])];
}

function withinGrades(): Results["within"] {
  const cell = (label: string, n: number, returned: Estimate) => ({
    label,
    n,
    persons: n,
    events: Math.round(n * 0.8),
    returned: n < 5 ? missing("too-few-rows") : returned,
    half_back: n < 5 ? missing("too-few-rows") : found(72, 61, 90),
    landmarks: weeks.map((week) => ({
      week,
      day: week * 7,
      returned: n < 5 ? missing("too-few-rows") : returned,
    })),
    falls_early: false,
  });
  const row = (value: string, ring: number, tape: number) => ({
    value,
    cells: [cell("ring", ring, found(0.7, 0.5, 0.9)), cell("tape", tape, found(0.6, 0.4, 0.8))],
    differences: [
      {
        compared: "ring",
        reference: "tape",
        returned: Math.min(ring, tape) < 5 ? missing("too-few-rows") : found(0.1, -0.2, 0.4),
        p: Math.min(ring, tape) < 5 ? null : 0.4,
      },
    ],
  });
  return {
    field: "grade",
    day: 91,
    rows: [row("2", 5, 9), row("3", 14, 13), row("4b", 1, 2)],
    not_recorded: 1,
  };
}

function distances(): Results["distances"] {
  return {
    pulley: "A2",
    position: "loaded",
    threshold_mm: 2,
    injuries_with_baseline: 44,
    injuries_read_late: 0,
    injuries_with_both: 38,
    groups: [
      {
        label: "ring",
        n: 18,
        before_mean: 3.412,
        before_standard_deviation: 0.81,
        after_mean: 2.123,
        after_standard_deviation: 0.6,
        change: found(-1.289, -1.61, -0.97),
        median_days_between: 91,
      },
      {
        label: "tape",
        n: 20,
        before_mean: 3.05,
        before_standard_deviation: 0.77,
        after_mean: 2.21,
        after_standard_deviation: 0.71,
        change: found(-0.84, -1.12, -0.56),
        median_days_between: 88,
      },
    ],
    pairs: [
      { group: "ring", before_mm: 3.1, after_mm: 2 },
      { group: "tape", before_mm: 2.9, after_mm: 2.2 },
    ],
    thresholds: [2, 2.5, 3].map((threshold_mm, index) => ({
      threshold_mm,
      n: 44,
      above: 40 - index * 9,
      share_above: found((40 - index * 9) / 44, 0.4, 0.96),
    })),
  };
}

function missingValues(): Results["missing"] {
  return {
    n: 61,
    fields: [
      { field: "grade", in_the_study: true, blank: 0, unknown: 2, missing: 2, share: 2 / 61 },
      { field: "sex", in_the_study: false, blank: 0, unknown: 0, missing: 0, share: 0 },
      { field: "grip", in_the_study: false, blank: 9, unknown: 4, missing: 13, share: 13 / 61 },
    ],
    never_filled: ["height_cm"],
    complete: 47,
    groupings: [
      {
        by: "first_treatment",
        groups: [
          {
            label: "ring",
            n: 24,
            missing: [
              { n: 0, share: 0 },
              { n: 0, share: 0 },
              { n: 3, share: 3 / 24 },
            ],
          },
          {
            label: "tape",
            n: 37,
            missing: [
              { n: 2, share: 2 / 37 },
              { n: 0, share: 0 },
              { n: 10, share: 10 / 37 },
            ],
          },
        ],
      },
    ],
    patterns: [
      { fields: [], n: 47 },
      { fields: ["grip"], n: 12 },
      { fields: ["grade"], n: 1 },
      { fields: ["grade", "grip"], n: 1 },
    ],
    other_patterns: { patterns: 0, n: 0 },
  };
}

function lost(): Results["lost"] {
  const all = { n: 61, lost: 7, share: 7 / 61, completeness: 0.871 };
  return {
    horizon_days: 182,
    closing_day_known: true,
    ...all,
    groupings: [
      {
        by: "first_treatment",
        groups: [
          { label: "ring", n: 24, lost: 2, share: 2 / 24, completeness: 0.91 },
          { label: "tape", n: 37, lost: 5, share: 5 / 37, completeness: 0.84 },
        ],
      },
    ],
    compared: [
      { by: null, group: "all", lost: 7, stayed: 54, rows: cohort().rows, reason: null },
      { by: "first_treatment", group: "ring", lost: 2, stayed: 22, rows: [], reason: "too-few-rows" },
      { by: "first_treatment", group: "tape", lost: 5, stayed: 32, rows: cohort().rows, reason: null },
    ],
  };
}

function targetTrial(): Results["target_trial"] {
  const group = (label: string, n: number, before: number) => ({
    label,
    n,
    began_by_day_0: 1,
    began_later: n - 1,
    median_days: 6,
    longest_days: 20,
    had_another_before: before,
    before: before === 0 ? [] : [{ code: "rest", n: before }],
    before_not_known: 0,
    went_on: 1,
    later: [{ code: "surgery", n: 1 }],
    lost: 2,
  });
  return {
    groups: [group("ring", 24, 5), group("tape", 31, 0)],
    other_readings: [
      {
        first_treatment: "of_all",
        groups: [
          { label: "ring", n: 19 },
          { label: "tape", n: 31 },
        ],
        differences: [
          {
            compared: "ring",
            reference: "tape",
            adjusted_for: ["grade"],
            n: { compared: 18, reference: 29 },
            returned: found(0.11, -0.08, 0.3),
          },
        ],
      },
    ],
    falls_short: [
      {
        part: "treatments",
        code: "had-another-before",
        facts: { n: 5, of: 24, group: "ring", what: "rest=5" },
      },
      { part: "assignment", code: "adjusted-only-for", facts: { fields: "grade" } },
    ],
  };
}

function lossBounds(): Results["loss_bounds"] {
  const along = (value: number, low: number, high: number) => ({
    as_followed: found(value, low, high),
    points: [1 / 8, 1 / 2, 1, 2, 8].map((factor) => ({
      factor,
      figure: found(value + 0.04 * Math.log2(factor), low, high),
    })),
  });
  const share = (family: "all" | "compared", label: string, n: number, lost: number, value: number) => ({
    family,
    label,
    n,
    lost,
    none_back: found(value - 0.08, 0.3, 0.7),
    all_back: found(value + 0.06, 0.4, 0.8),
    ...along(value, 0.4, 0.7),
    line: { from: "above" as const, to: "below" as const, factor: 0.3, holds_at_bounds: false },
  });
  const difference = (adjusted_for: string[], value: number) => ({
    compared: "ring",
    reference: "tape",
    adjusted_for,
    lost: { compared: 2, reference: 5 },
    lowest: found(value - 0.2, -0.3, 0.2),
    highest: found(value + 0.15, 0.02, 0.4),
    ...along(value, -0.04, 0.32),
    tipping: { from: "across" as const, to: "above" as const, factor: 2.42, holds_at_bounds: false },
  });
  return {
    week: 13,
    day: 91,
    line: 0.5,
    widest_factor: 100,
    shares: [
      share("all", "all injuries", 61, 7, 0.55),
      share("compared", "ring", 24, 2, 0.62),
      share("compared", "tape", 31, 5, 0.48),
    ],
    differences: [difference([], 0.05), difference(["grade"], 0.14)],
  };
}

/** Results of an invented study of ring against tape; a test changes what it is about. */
export function resultsOf(changes: Partial<Results> = {}): Results {
  const compared = [
    curveOf({ label: "ring", n: 24, main: found(0.62, 0.48, 0.76) }),
    curveOf({ label: "tape", n: 31, main: found(0.48, 0.33, 0.66), half: found(94, 80, 112) }),
  ];
  const made = {
    format: "pulley-outcomes results 1",
    small_cells: { choice: "written", smallest: 5, found: 12, left_out: [] },
    plan: planOf(),
    accounting: {
      tables: [
        {
          table: "injuries",
          file: "injuries.csv",
          read: 64,
          used: 63,
          set_aside: 1,
          reasons: [{ code: "grade-without-letter", n: 1, rows: [14] }],
        },
        {
          table: "treatments",
          file: "treatments.csv",
          read: 81,
          used: 80,
          set_aside: 1,
          reasons: [{ code: "row-without-injury", n: 1, rows: [40] }],
        },
        { table: "imaging", file: "imaging.csv", read: 90, used: 90, set_aside: 0, reasons: [] },
      ],
      analysis: { injuries: 63, analysed: 61, persons: 57, excluded: [{ code: "no-follow-up", n: 2 }] },
      comparison: {
        analysed: 61,
        compared: 55,
        left_out: [
          { code: "not-compared: surgery", n: 4 },
          { code: "milestone-before-treatment", n: 2 },
        ],
      },
    },
    queries: [
      {
        code: "grade-without-letter",
        severity: "set-aside",
        file: "injuries.csv",
        column: "grade",
        n: 1,
        rows: [14],
        expected: "the grade does not say whether 4a or 4b is meant",
        correction:
          "Write 4a (several pulleys, no visible bowstringing) or 4b (visible bowstringing, or complications).",
      },
      {
        code: "loaded-below-rest",
        severity: "look-at",
        file: "imaging.csv",
        column: "distance_mm",
        n: 23,
        rows: Array.from({ length: 20 }, (_, index) => index + 3),
        expected: "a loaded distance is usually not below the distance at rest",
        correction: "Check the two readings against the images.",
      },
    ],
    answers: null,
    target_trial: targetTrial(),
    cohort: cohort(),
    missing: missingValues(),
    lost: lost(),
    follow_up: {
      recruited: { from: "2021-03", to: "2023-10" },
      person_months: 214.3,
      not_back_days: { shortest: 12, longest: 210 },
      n: 61,
      milestones: 48,
      competing: [
        { code: "gave_up", n: 2 },
        { code: "new_rupture", n: 1 },
      ],
      censored: 10,
      median_days: found(203, 188, 231),
      completeness: 0.871,
      known: [
        { code: "day", n: 31 },
        { code: "not_reached", n: 13 },
        { code: "visits", n: 8 },
        { code: "week", n: 9 },
      ],
      whole_weeks: { milestones: 31, on_whole_weeks: 12 },
    },
    known_returns: {
      path: "days",
      because: ["few_wide"],
      groups: [
        {
          family: "all",
          label: "all injuries",
          n: 48,
          to_the_day: 31,
          narrow: 13,
          wide: 4,
          wide_share: 4 / 48,
          mean_wide_days: 2.6,
          median_days: 0,
          largest_days: 42,
        },
      ],
      most_open: 0.04,
      most_moved: 0.02,
      comparison: { statistic: 1.2, degrees_of_freedom: 1, p: 0.27, reason: null },
      readings: [
        {
          family: "all",
          label: "all injuries",
          landmarks: [
            {
              week: 13,
              day: 91,
              earliest: found(0.66, 0.52, 0.79),
              midpoint: found(0.62, 0.48, 0.75),
              latest: found(0.58, 0.44, 0.72),
              alone: { lower: 0.61, upper: 0.64 },
            },
          ],
        },
      ],
    },
    curves: [
      {
        family: "all",
        entry: "clock",
        held_equal: [],
        strata_used: [],
        model: null,
        curves: [curveOf({ family: "all", label: "all injuries", n: 61, main: found(0.55, 0.44, 0.67) })],
      },
      {
        family: "grade",
        entry: "clock",
        held_equal: [],
        strata_used: [],
        model: null,
        curves: ["1", "2", "3", "4a", "4b"].map((label, index) =>
          curveOf({
            family: "grade",
            label,
            n: [6, 15, 29, 7, 4][index]!,
            main: found(0.9 - index * 0.2, 0.8 - index * 0.2, Math.min(1, 0.97 - index * 0.15)),
          }),
        ),
      },
      {
        family: "compared",
        entry: "treatment",
        held_equal: [],
        strata_used: [],
        model: null,
        curves: compared,
      },
    ],
    differences_over_time: differencesOverTime(),
    within: withinGrades(),
    definitions: null,
    sites: null,
    sealed: null,
    harmonised: null,
    after_return: afterReturn(),
    loss_bounds: lossBounds(),
    tests: [
      {
        id: "log_rank:grade",
        method: "log_rank",
        family: "grade",
        groups: ["1", "2", "3", "4a", "4b"].map((label, index) => ({
          label,
          n: [6, 15, 29, 7, 4][index]!,
          observed: [6, 13, 23, 4, 2][index]!,
          expected: 4.26 + index,
        })),
        strata: [],
        statistic: 21.306,
        clustered: false,
        degrees_of_freedom: 4,
        p: 0.00028,
        reason: null,
      },
      {
        id: "log_rank_trend:grade",
        method: "log_rank_trend",
        family: "grade",
        groups: ["1", "2", "3"].map((label) => ({ label, n: 9, observed: null, expected: null })),
        strata: [],
        statistic: 18.2,
        clustered: false,
        degrees_of_freedom: 1,
        p: 0.00002,
        reason: null,
      },
      {
        id: "log_rank:compared",
        method: "log_rank",
        family: "compared",
        groups: [
          { label: "ring", n: 24, observed: 19, expected: 17.33 },
          { label: "tape", n: 31, observed: 25, expected: 26.67 },
        ],
        strata: [],
        statistic: 0.266,
        clustered: false,
        degrees_of_freedom: 1,
        p: 0.606,
        reason: null,
      },
      {
        id: "log_rank_stratified:compared",
        method: "log_rank_stratified",
        family: "compared",
        groups: [
          { label: "ring", n: 24, observed: 19, expected: 15.8 },
          { label: "tape", n: 31, observed: 25, expected: 28.2 },
        ],
        strata: ["grade"],
        statistic: 2.17,
        clustered: false,
        degrees_of_freedom: 1,
        p: 0.141,
        reason: null,
      },
      {
        id: "proportionality:compared",
        method: "proportionality",
        family: "compared",
        groups: [{ label: "ring", n: 24, observed: null, expected: null }],
        strata: [],
        statistic: 0.31,
        clustered: false,
        degrees_of_freedom: 1,
        p: 0.577,
        reason: null,
      },
    ],
    effects: effects(),
    distances: distances(),
    warnings: [
      { code: "not-randomised", facts: {}, could_move: null },
      {
        code: "completeness-low",
        facts: { share: 0.871, horizon_days: 182 },
        could_move: { points: 0.2, how: "worst-and-best-case" },
      },
      { code: "competing-ends-present", facts: { n: 3, of: 61 }, could_move: null },
      { code: "inexact-dates", facts: { n: 17, of: 48, rule: "midpoint" }, could_move: null },
      { code: "heaped-dates", facts: { n: 12, of: 31 }, could_move: null },
      { code: "delayed-entry-by-treatment", facts: {}, could_move: null },
      {
        code: "overlap-lacking",
        facts: { compared: "ring", reference: "tape", strata: "grade 4b", left_out: 3, used: 52 },
        could_move: { points: 0.09, how: "crude-and-adjusted" },
      },
      { code: "several-injuries-a-person", facts: { persons: 57, injuries: 61 }, could_move: null },
      { code: "small-counts", facts: { below: 5 }, could_move: null },
    ],
    ...changes,
  };
  const estimands = estimandsOf(made as unknown as ExactResults, specificationOf(made.plan));
  return resultsSchema.parse({ estimands, ...made });
}

/** A placeholder drawing with everything that the page must put right. */
export const drawing = (id: string): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="640" height="260" viewBox="0 0 640 260" role="img" aria-labelledby="${id}-title"><title id="${id}-title">A curve</title><defs><clipPath id="${id}-part-1"><rect width="640" height="260"></rect></clipPath></defs><g clip-path="url(#${id}-part-1)"><path d="M40,220H160V180H260V120H380V90H600" fill="none" stroke="#0f566b" stroke-width="3" style="stroke-dasharray: 6 3"></path><path d="M40,20V220H620" fill="none" stroke="#51606d"></path></g></svg>`;

/** Everything that a report is rendered from, with one placeholder drawing a family. */
export const inputOf = (changes: Partial<Results> = {}): PageInput => ({
  results: resultsOf(changes),
  figures: (
    [
      "all",
      "grade",
      "compared",
      "ends",
      "after",
      "forest",
      "difference",
      "balance",
      "missing",
      "loss",
      "distances",
    ] as const
  ).map((family) => ({
    id: `invented-${family}`,
    title: `Invented figure: ${family}`,
    description: "A placeholder that rises in steps.",
    svg: drawing(`invented-${family}`),
    png: new Uint8Array([137, 80, 78, 71]),
    spec: { mark: "line" },
    family,
    ...(family === "ends" ? { groups: ["ring", "tape"] } : {}),
  })),
  version: "0.1.0",
  fontCss: "",
  sha256,
});
