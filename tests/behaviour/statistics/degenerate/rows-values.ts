import * as continuous from "../../../../src/statistics/continuous/index.js";
import * as statistics from "../../../../src/statistics/index.js";
import type { Cohort } from "./cases.js";
import { byState, inGroup } from "./columns.js";
import { countNumber, drawsOption, level, pick, type Row, seedOption } from "./row.js";

const first = ({ records }: Cohort) => pick(records, "first");
const samples = (cohort: Cohort) => ({
  a: pick(inGroup(cohort, 0), "first"),
  b: pick(inGroup(cohort, 1), "first"),
});
const pairs = ({ records }: Cohort) => ({ before: pick(records, "first"), after: pick(records, "second") });
const groupedValues = ({ records }: Cohort) => ({
  values: pick(records, "first"),
  groups: pick(records, "group"),
});
const single = {
  subjects: ["readings"],
  columns: { "0": ["finite", "values"] },
  ofAnyLength: ["0"],
} as const;
const two = {
  subjects: ["readings", "groups"],
  columns: { "0.a": "finite", "0.b": "finite" },
  ofAnyLength: ["0.a", "0.b"],
} as const;
const side = {
  subjects: ["readings", "groups"],
  columns: { "0": ["finite", "a"], "1": ["finite", "b"] },
  ofAnyLength: ["0", "1"],
} as const;
const paired = { subjects: ["readings"], columns: { "0.before": "finite", "0.after": "finite" } } as const;
/** Limits that lie beyond the ordered values: rank 0. */
const rankLimits = (of: string): readonly string[] =>
  ["outward", "nearest"].flatMap((rounded) =>
    ["lower", "upper"].map((end) => `${of}.approximate.${rounded}.${end}`),
  );

const orderedLimits = (of: string): readonly string[] => [
  `${of}.exact`,
  `${of}.approximate.outward`,
  `${of}.approximate.nearest`,
];

export const valueRows: readonly Row[] = [
  {
    ...single,
    name: "describe",
    of: continuous.describe,
    given: (cohort) => [first(cohort)],
    nulls: ["standardDeviation"],
    outcomes: { "no-rows": ["no rows"] },
  },
  {
    ...single,
    name: "meanInterval",
    of: continuous.meanInterval,
    given: (cohort) => [first(cohort), {}],
    numbers: { "1.level": level },
    outcomes: {
      "no-rows": ["no rows"],
      "too-few-rows": ["one row"],
      "no-variance": ["all rows alike", "a single value throughout"],
    },
  },
  {
    ...single,
    name: "varianceInterval",
    of: continuous.varianceInterval,
    given: (cohort) => [first(cohort), {}],
    numbers: { "1.level": level },
    outcomes: {
      "no-rows": ["no rows"],
      "too-few-rows": ["one row"],
      "no-variance": ["all rows alike", "a single value throughout"],
    },
  },
  {
    ...single,
    name: "sampleQuantile",
    of: continuous.sampleQuantile,
    onePoint: [""],
    given: (cohort) => [first(cohort), { share: 0.5 }],
    numbers: {
      "1.level": level,
      "1.share": [-0.1, 1.1, Number.NaN, null],
      "1.type": [0, 10, Number.NaN, null],
    },
    outcomes: { "no-rows": ["no rows"], "too-few-rows": ["one row", "two rows"] },
  },
  {
    ...single,
    name: "signedRank",
    of: continuous.signedRank,
    onePoint: orderedLimits("middle"),
    given: ({ records }) => [records.map((record) => record.first - record.second), {}],
    columns: { "0": ["finite", "differences"] },
    nulls: ["exact", "middle.exact", ...rankLimits("middle")],
    numbers: { "1.level": level },
    outcomes: {
      "no-rows": ["no rows"],
      "too-few-rows": ["one row"],
      "no-variance": ["a single value throughout", "readings agree exactly"],
    },
  },
  {
    ...paired,
    name: "pairedMeanChange",
    of: continuous.pairedMeanChange,
    given: (cohort) => [pairs(cohort), {}],
    numbers: { "1.level": level },
    outcomes: {
      "no-rows": ["no rows"],
      "too-few-rows": ["one row"],
      "no-variance": [
        "all rows alike",
        "a single value throughout",
        "readings agree exactly",
        "readings differ by a constant",
      ],
    },
  },
  {
    ...paired,
    name: "standardisedChange",
    of: continuous.standardisedChange,
    given: (cohort) => [pairs(cohort)],
    nulls: ["correction"],
    outcomes: {
      "no-rows": ["no rows"],
      "too-few-rows": ["one row"],
      "no-variance": [
        "all rows alike",
        "a single value throughout",
        "readings agree exactly",
        "readings differ by a constant",
      ],
    },
  },
  {
    ...side,
    name: "welch",
    of: continuous.welch,
    given: (cohort) => [samples(cohort).a, samples(cohort).b, {}],
    numbers: { "2.level": level },
    outcomes: {
      "no-rows": ["no rows", "one row", "all rows alike", "one group only", "a group number passed over"],
      "too-few-rows": ["two rows", "a group of one row"],
      "no-variance": ["a single value throughout", "values alike within each group"],
    },
  },
  {
    ...side,
    name: "standardisedDifference",
    of: continuous.standardisedDifference,
    given: (cohort) => [samples(cohort).a, samples(cohort).b],
    outcomes: {
      "no-rows": ["no rows", "one row", "all rows alike", "one group only", "a group number passed over"],
      "too-few-rows": ["two rows", "a group of one row"],
      "no-variance": ["values alike within each group"],
    },
  },
  {
    name: "standardisedDifferenceOfShares",
    of: continuous.standardisedDifferenceOfShares,
    subjects: ["groups", "states"],
    given: (cohort) => [byState(inGroup(cohort, 0)), byState(inGroup(cohort, 1))],
    columns: { "0": ["not negative", "a"], "1": ["not negative", "b"] },
    outcomes: {
      "no-rows": ["no rows", "one row", "all rows alike", "one group only", "a group number passed over"],
      "no-variance": ["two rows"],
    },
  },
  {
    ...two,
    name: "studentT",
    of: continuous.studentT,
    given: (cohort) => [samples(cohort), {}],
    numbers: { "1.level": level },
    outcomes: {
      "no-rows": ["no rows", "one row", "all rows alike", "one group only", "a group number passed over"],
      "too-few-rows": ["two rows"],
      "no-variance": ["a single value throughout", "values alike within each group"],
    },
  },
  {
    ...two,
    name: "standardisedMeanDifference",
    of: continuous.standardisedMeanDifference,
    given: (cohort) => [samples(cohort), {}],
    numbers: { "1.level": level },
    outcomes: {
      "no-rows": ["no rows", "one row", "all rows alike", "one group only", "a group number passed over"],
      "too-few-rows": ["two rows"],
      "no-variance": ["a single value throughout", "values alike within each group"],
    },
  },
  {
    ...two,
    name: "rankSum",
    of: continuous.rankSum,
    onePoint: orderedLimits("shift"),
    given: (cohort) => [samples(cohort), {}],
    numbers: { "1.level": level },
    nulls: ["exact", "shift.exact", ...rankLimits("shift")],
    outcomes: {
      "no-rows": ["no rows", "one row", "all rows alike", "one group only", "a group number passed over"],
      "too-few-rows": ["two rows", "a group of one row"],
      "no-variance": ["a single value throughout"],
    },
  },
  {
    ...two,
    name: "permutationOfMeans",
    of: continuous.permutationOfMeans,
    given: (cohort) => [samples(cohort), { method: "random", seed: 1, draws: 20 }],
    numbers: { "1.seed": [...seedOption, undefined], "1.draws": drawsOption },
    outcomes: {
      "no-rows": ["no rows", "one row", "all rows alike", "one group only", "a group number passed over"],
    },
  },
  {
    name: "analysisOfVariance",
    of: continuous.analysisOfVariance,
    subjects: ["readings", "groups"],
    given: (cohort) => [groupedValues(cohort)],
    columns: { "0.values": "finite", "0.groups": "code" },
    outcomes: {
      "no-rows": ["no rows"],
      "one-group": ["one row", "all rows alike", "one group only"],
      "too-few-rows": ["two rows", "a group of one row"],
      "no-variance": ["a single value throughout", "values alike within each group"],
    },
  },
  {
    name: "rankTestOfGroups",
    of: continuous.rankTestOfGroups,
    subjects: ["readings", "groups"],
    given: (cohort) => [groupedValues(cohort)],
    columns: { "0.values": "finite", "0.groups": "code" },
    outcomes: {
      "no-rows": ["no rows"],
      "one-group": ["one row", "all rows alike", "one group only"],
      "no-variance": ["a single value throughout"],
    },
  },
  {
    name: "rankSumDistribution",
    of: continuous.rankSumDistribution,
    subjects: ["groups"],
    given: (cohort) => [{ m: inGroup(cohort, 0).length, n: inGroup(cohort, 1).length }],
    columns: {},
    numbers: { "0.m": countNumber, "0.n": countNumber },
    outcomes: {},
  },
  {
    name: "signedRankDistribution",
    of: continuous.signedRankDistribution,
    subjects: [],
    given: ({ records }) => [records.length],
    columns: {},
    numbers: { "0": countNumber },
    called: { "0": "n" },
    outcomes: {},
  },
  {
    name: "holm",
    of: statistics.holm,
    subjects: ["readings"],
    given: ({ records }) => [records.map((record) => (record.state === 1 ? record.first / 10 : null))],
    columns: { "0": ["p-value", "pValues"] },
    ofAnyLength: ["0"],
    nulls: ["[]"],
    outcomes: { "! pValues[1]": ["large readings that differ by little"] },
  },
  {
    name: "benjaminiHochberg",
    of: statistics.benjaminiHochberg,
    subjects: ["readings"],
    given: ({ records }) => [records.map((record) => (record.state === 1 ? record.first / 10 : null))],
    columns: { "0": ["p-value", "pValues"] },
    ofAnyLength: ["0"],
    nulls: ["[]"],
    outcomes: { "! pValues[1]": ["large readings that differ by little"] },
  },
];
