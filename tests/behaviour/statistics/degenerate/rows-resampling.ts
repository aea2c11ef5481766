import * as resampling from "../../../../src/statistics/resampling/index.js";
import type { Cohort, Rec } from "./cases.js";
import { entries, strata, timeColumns, weights } from "./columns.js";
import {
  countNumber,
  drawsOption,
  horizonOption,
  level,
  pick,
  type Row,
  seedOption,
  shareOption,
  timeOption,
} from "./row.js";

const first = ({ records }: Cohort) => pick(records, "first");
const timed = ({ records }: Cohort) => ({ times: pick(records, "time"), events: pick(records, "event") });
const clusters = { "0.clusters": (records: readonly Rec[]) => pick(records, "person") } as const;
const clusterColumns = { "0.clusters": "code", "0.strata": "code" } as const;
const draws = { seed: 1, replicates: 30 };
const drawn = {
  "1.seed": [...seedOption, undefined],
  "1.replicates": [0.5, -1, Number.NaN, null],
  "1.level": level,
} as const;
const meanOf =
  (values: readonly number[]) =>
  (counts: ArrayLike<number>): number | null => {
    const total = values.reduce((sum, _, row) => sum + counts[row]!, 0);
    return total === 0 ? null : values.reduce((sum, value, row) => sum + value * counts[row]!, 0) / total;
  };
const ones = (cohort: Cohort) => cohort.records.map(() => 1);
/** Written by the bootstrap where an interval cannot be had. */
const bootstrapNulls = [
  "intervals.studentised",
  "intervals.bca.limits",
  "intervals.bca.biasCorrection",
  "intervals.bca.shares",
];

export const resamplingRows: readonly Row[] = [
  {
    name: "bootstrap",
    of: resampling.bootstrap,
    subjects: ["readings", "persons", "strata"],
    given: (cohort) => [{ n: cohort.records.length, statistic: { ofCounts: meanOf(first(cohort)) } }, draws],
    optional: { ...clusters, ...strata },
    columns: clusterColumns,
    numbers: { ...drawn, "0.n": countNumber },
    nulls: bootstrapNulls,
    outcomes: {
      "no-variance": [
        "all rows alike",
        "a single value throughout",
        "two persons only",
        "each row its own stratum",
        "large readings that differ by little",
      ],
      "no-rows": ["no rows"],
      "too-few-rows": ["one row", "one person only"],
    },
  },
  {
    name: "bootstrapReplicates",
    of: resampling.bootstrapReplicates,
    subjects: ["readings", "persons", "strata"],
    given: (cohort) => [
      { n: cohort.records.length, statistic: { ofCounts: meanOf(first(cohort)) } },
      { seed: 1, from: 0, to: 10 },
    ],
    optional: { ...clusters, ...strata },
    columns: clusterColumns,
    numbers: {
      "1.seed": [...seedOption, undefined],
      "1.from": [-1, 0.5, Number.NaN, null],
      "1.to": [-1, 0.5, Number.NaN, null],
      "0.n": countNumber,
    },
    // NaN stands for a resample without a figure, as the doc comment says
    read: ({ estimates }: resampling.Replicates) =>
      Array.from(estimates, (value) => (Number.isNaN(value) ? null : value)),
    nulls: ["[]"],
    outcomes: {},
  },
  {
    name: "bootstrapIntervals",
    of: resampling.bootstrapIntervals,
    subjects: ["readings"],
    given: (cohort) => [
      { estimate: 3, standardError: 0.3, replicates: first(cohort), jackknife: first(cohort) },
      {},
    ],
    columns: {},
    numbers: { "1.level": level, "0.estimate": [Number.NaN, Number.POSITIVE_INFINITY, null] },
    nulls: bootstrapNulls.map((path) => path.replace("intervals.", "")),
    outcomes: {
      "no-variance": ["all rows alike", "a single value throughout"],
      "too-few-rows": ["no rows", "one row"],
    },
  },
  {
    name: "bootstrapShare",
    of: resampling.bootstrapShare,
    subjects: ["times", "persons", "strata", "weights", "horizon"],
    given: (cohort) => [timed(cohort), { ...draws, time: cohort.at }],
    optional: { ...entries, ...weights, ...clusters, ...strata },
    columns: { ...timeColumns, ...clusterColumns, "0.entries": "finite", "0.weights": "not negative" },
    numbers: { ...drawn, "1.time": timeOption },
    nulls: bootstrapNulls,
    outcomes: {
      "no-variance": [
        "two rows",
        "all rows alike",
        "all censored",
        "each row its own stratum",
        "everybody has the event at one time",
      ],
      "no-rows": ["no rows"],
      "too-few-rows": [
        "one row",
        "a single time",
        "time zero throughout",
        "all weights zero",
        "one person only",
        "horizon beyond follow-up",
        "one row, censored",
      ],
    },
  },
  {
    name: "bootstrapRestrictedMean",
    of: resampling.bootstrapRestrictedMean,
    subjects: ["times", "persons", "strata", "weights", "horizon"],
    given: (cohort) => [timed(cohort), { ...draws, horizon: cohort.horizon }],
    optional: { ...entries, ...weights, ...clusters, ...strata },
    columns: { ...timeColumns, ...clusterColumns, "0.entries": "finite", "0.weights": "not negative" },
    numbers: { ...drawn, "1.horizon": horizonOption },
    nulls: bootstrapNulls,
    outcomes: {
      "no-variance": [
        "all rows alike",
        "all censored",
        "each row its own stratum",
        "everybody has the event at one time",
      ],
      "no-rows": ["no rows"],
      "too-few-rows": ["one row", "all weights zero", "one person only", "one row, censored"],
    },
  },
  {
    name: "bootstrapQuantileTime",
    of: resampling.bootstrapQuantileTime,
    subjects: ["times", "persons", "strata", "weights"],
    given: (cohort) => [timed(cohort), { ...draws, p: 0.5 }],
    optional: { ...entries, ...weights, ...clusters, ...strata },
    columns: { ...timeColumns, ...clusterColumns, "0.entries": "finite", "0.weights": "not negative" },
    numbers: { ...drawn, "1.p": shareOption },
    nulls: bootstrapNulls,
    outcomes: {
      "no-variance": [
        "all rows alike",
        "all events at one time",
        "a single time",
        "time zero throughout",
        "each row its own stratum",
        "everybody has the event at one time",
      ],
      "no-rows": ["no rows"],
      "too-few-rows": ["one row", "all censored", "all weights zero", "one person only", "one row, censored"],
    },
  },
  {
    name: "bootstrapLogHazardRatio",
    of: resampling.bootstrapLogHazardRatio,
    subjects: ["times", "covariates", "persons", "strata"],
    given: (cohort) => [{ ...timed(cohort), covariate: pick(cohort.records, "z") }, draws],
    optional: { ...clusters, ...strata },
    columns: { ...timeColumns, ...clusterColumns, "0.covariate": "finite" },
    numbers: drawn,
    nulls: bootstrapNulls,
    outcomes: {
      "no-rows": ["no rows"],
      "too-few-rows": [
        "one row",
        "two rows",
        "all rows alike",
        "all censored",
        "constant covariate",
        "one person only",
        "each row its own stratum",
        "one row, censored",
      ],
      "no-variance": ["everybody has the event at one time"],
    },
  },
  {
    name: "countedShare",
    of: resampling.countedShare,
    subjects: ["times", "weights", "horizon"],
    given: (cohort) => [timed(cohort), { time: cohort.at }],
    optional: { ...entries, ...weights },
    columns: { ...timeColumns, "0.entries": "finite", "0.weights": "not negative" },
    numbers: { "1.time": timeOption },
    read: (figure: resampling.CountedFigure, cohort) => figure(ones(cohort)),
    nulls: [""],
    outcomes: {},
  },
  {
    name: "countedRestrictedMean",
    of: resampling.countedRestrictedMean,
    subjects: ["times", "weights", "horizon"],
    given: (cohort) => [timed(cohort), { horizon: cohort.horizon }],
    optional: { ...entries, ...weights },
    columns: { ...timeColumns, "0.entries": "finite", "0.weights": "not negative" },
    numbers: { "1.horizon": horizonOption },
    read: (figure: resampling.CountedFigure, cohort) => figure(ones(cohort)),
    nulls: [""],
    outcomes: {},
  },
  {
    name: "countedQuantileTime",
    of: resampling.countedQuantileTime,
    subjects: ["times", "weights"],
    given: (cohort) => [timed(cohort), { p: 0.5 }],
    optional: { ...entries, ...weights },
    columns: { ...timeColumns, "0.entries": "finite", "0.weights": "not negative" },
    numbers: { "1.p": shareOption },
    read: (figure: resampling.CountedFigure, cohort) => figure(ones(cohort)),
    nulls: [""],
    outcomes: {},
  },
  {
    name: "countedLogHazardRatio",
    of: resampling.countedLogHazardRatio,
    subjects: ["times", "covariates", "strata"],
    given: (cohort) => [{ ...timed(cohort), covariate: pick(cohort.records, "z") }],
    optional: strata,
    columns: { ...timeColumns, "0.strata": "code", "0.covariate": "finite" },
    read: (figure: (counts: ArrayLike<number>) => resampling.CountedHazard, cohort) => figure(ones(cohort)),
    nulls: ["estimate", "standardError"],
    outcomes: {},
  },
  {
    name: "permutationTest",
    of: resampling.permutationTest,
    subjects: ["groups", "strata"],
    given: (cohort) => [
      {
        labels: pick(cohort.records, "group"),
        statistic: (labels: Float64Array) => labels.reduce((sum, label, row) => sum + label * row, 0),
      },
      { seed: 1, draws: 20 },
    ],
    optional: strata,
    columns: { "0.labels": "finite", "0.strata": "code" },
    ofAnyLength: ["0.labels"],
    numbers: { "1.seed": [...seedOption, undefined], "1.draws": drawsOption },
    outcomes: {},
  },
];
