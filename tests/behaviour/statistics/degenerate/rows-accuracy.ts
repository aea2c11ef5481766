import * as agreement from "../../../../src/statistics/agreement/index.js";
import type { Cohort, Rec } from "./cases.js";
import { countNumber, level, pick, type Row, seedOption } from "./row.js";

const pairs = ({ records }: Cohort) => ({ first: pick(records, "first"), second: pick(records, "second") });
const names = ["a", "b", "c"];
const places = ({ records }: Cohort) => ({
  first: pick(records, "category"),
  second: pick(records, "again"),
});
const readings = ({ records }: Cohort) => ({
  values: pick(records, "first"),
  states: pick(records, "state"),
});
const table = (cohort: Cohort) => agreement.agreementTable(places(cohort), { categories: names });
const inPairs = { subjects: ["readings"], columns: { "0.first": "finite", "0.second": "finite" } } as const;
const rated = { subjects: ["categories"], columns: { "0.first": "count", "0.second": "count" } } as const;
const counted = {
  subjects: ["categories"],
  columns: { "0.counts.0": ["not negative", "counts[0]"], "0.counts.2": ["not negative", "counts[2]"] },
} as const;
const withState = {
  subjects: ["readings", "states"],
  columns: { "0.values": "finite", "0.states": "zero or one" },
} as const;
const clustered = {
  optional: { "0.clusters": (records: readonly Rec[]) => pick(records, "person") },
  subjects: ["readings", "states", "persons"],
} as const;

export const accuracyRows: readonly Row[] = [
  {
    ...rated,
    name: "agreementTable",
    of: agreement.agreementTable,
    given: (cohort) => [places(cohort), { categories: names }],
    outcomes: {},
  },
  {
    ...rated,
    name: "kappa",
    of: agreement.kappa,
    given: (cohort) => [places(cohort), { categories: names }],
    numbers: { "1.level": level },
    nulls: ["prevalenceIndex", "biasIndex"],
    outcomes: {
      "no-rows": ["no rows"],
      "no-variance": ["one row", "two rows", "all rows alike", "one category only"],
    },
  },
  {
    ...counted,
    name: "kappaOfTable",
    of: agreement.kappaOfTable,
    given: (cohort) => [table(cohort), { weights: "linear" }],
    numbers: { "1.level": level },
    nulls: ["prevalenceIndex", "biasIndex"],
    outcomes: {
      "no-rows": ["no rows"],
      "no-variance": ["one row", "two rows", "all rows alike", "one category only"],
    },
  },
  {
    ...counted,
    name: "agreementShares",
    of: agreement.agreementShares,
    given: (cohort) => [table(cohort), {}],
    columns: { "0.counts.0": ["count", "counts[0]"], "0.counts.2": ["count", "counts[2]"] },
    numbers: { "1.level": level },
    outcomes: {
      "no-rows": [
        "no rows",
        "one row",
        "two rows",
        "all rows alike",
        "one category only",
        "a category that nobody chose",
      ],
    },
  },
  {
    name: "severalRatersKappa",
    of: agreement.severalRatersKappa,
    subjects: ["categories"],
    given: ({ records }) => [
      {
        categories: names,
        counts: names.map((_, place) =>
          records.map(({ category, again }) => Number(category === place) + Number(again === place)),
        ),
      },
      {},
    ],
    columns: { "0.counts.0": ["count", "counts[0]"], "0.counts.2": ["count", "counts[2]"] },
    numbers: { "1.level": level },
    outcomes: {
      "no-rows": ["no rows", "a category that nobody chose"],
      "no-rows + no-variance": ["one row", "two rows", "all rows alike", "one category only"],
    },
  },
  {
    ...withState,
    ...clustered,
    name: "rocArea",
    of: agreement.rocArea,
    given: (cohort) => [readings(cohort), {}],
    columns: { ...withState.columns, "0.clusters": "code" },
    numbers: { "1.level": level },
    nulls: ["clusters"],
    outcomes: {
      "no-rows": ["no rows"],
      "one-group": ["one row", "all rows alike", "one state only", "the other state only"],
      "too-few-rows": ["two rows", "one person only"],
      "no-variance": ["two persons only", "the reading tells the state", "a single value throughout"],
    },
  },
  {
    ...clustered,
    name: "compareAreas",
    of: agreement.compareAreas,
    given: (cohort) => [{ ...pairs(cohort), states: pick(cohort.records, "state") }, {}],
    columns: { ...inPairs.columns, "0.states": "zero or one", "0.clusters": "code" },
    numbers: { "1.level": level },
    nulls: ["first.clusters", "second.clusters"],
    outcomes: {
      "no-rows": ["no rows"],
      "one-group": ["one row", "all rows alike", "one state only", "the other state only"],
      "too-few-rows": ["two rows", "one person only"],
      "no-variance": [
        "two persons only",
        "the reading tells the state",
        "a single value throughout",
        "readings agree exactly",
        "readings differ by a constant",
      ],
    },
  },
  {
    ...withState,
    name: "rocCurve",
    of: agreement.rocCurve,
    given: (cohort) => [readings(cohort)],
    nulls: ["thresholds[]"],
    outcomes: {
      "no-rows": ["no rows"],
      "one-group": ["one row", "all rows alike", "one state only", "the other state only"],
    },
  },
  {
    ...withState,
    name: "accuracyAt",
    of: agreement.accuracyAt,
    given: (cohort) => [readings(cohort), { threshold: 3, prevalence: 0.3 }],
    numbers: { "1.level": level, "1.threshold": [Number.NaN, null, undefined], "1.prevalence": level },
    outcomes: {
      "no-rows": ["no rows", "one row", "all rows alike", "one state only", "the other state only"],
      "not-positive": ["two rows", "the reading tells the state"],
      "no-rows + no-variance + not-positive": [
        "a single value throughout",
        "large readings that differ by little",
      ],
    },
  },
  {
    name: "accuracyOfCounts",
    of: agreement.accuracyOfCounts,
    subjects: ["states", "readings"],
    given: ({ records }) => {
      const count = (state: number, positive: boolean) =>
        records.filter((record) => record.state === state && record.first >= 3 === positive).length;
      return [
        {
          truePositive: count(1, true),
          falsePositive: count(0, true),
          falseNegative: count(1, false),
          trueNegative: count(0, false),
        },
        {},
      ];
    },
    columns: {},
    numbers: {
      "0.truePositive": countNumber,
      "0.falsePositive": countNumber,
      "0.falseNegative": countNumber,
      "0.trueNegative": countNumber,
      "1.level": level,
    },
    nulls: ["atPrevalence"],
    outcomes: {
      "no-rows": ["no rows", "one row", "all rows alike", "one state only", "the other state only"],
      "not-positive": ["two rows", "the reading tells the state"],
      "no-rows + no-variance + not-positive": [
        "a single value throughout",
        "large readings that differ by little",
      ],
    },
  },
  {
    ...withState,
    ...clustered,
    name: "chooseThreshold",
    onePoint: [""],
    of: agreement.chooseThreshold,
    given: (cohort) => [readings(cohort), { seed: 1, replicates: 20 }],
    columns: { ...withState.columns, "0.clusters": "code" },
    numbers: {
      "1.level": level,
      "1.seed": [...seedOption, undefined],
      "1.replicates": [0.5, -1, Number.NaN, null],
    },
    nulls: ["negativeNeighbour", "accuracy.atPrevalence"],
    outcomes: {
      "too-few-rows": ["one person only"],
      "no-rows": ["no rows"],
      "one-group": ["one row", "all rows alike", "one state only", "the other state only"],
      "not-positive": ["two rows", "the reading tells the state"],
      "no-rows + no-variance + not-positive": ["a single value throughout"],
    },
  },
];
