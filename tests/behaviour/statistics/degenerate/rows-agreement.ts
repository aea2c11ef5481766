import * as agreement from "../../../../src/statistics/agreement/index.js";
import type { Cohort } from "./cases.js";
import { level, pick, type Row } from "./row.js";

const pairs = ({ records }: Cohort) => ({ first: pick(records, "first"), second: pick(records, "second") });
const ratings = ({ records }: Cohort) => ({ raters: [pick(records, "first"), pick(records, "second")] });
const repeated = (cohort: Cohort) => ({ values: pick(cohort.records, "first"), subjects: personsOf(cohort) });
const complete = {
  subjects: ["readings"],
  columns: { "0.raters.0": ["finite", "raters[0]"], "0.raters.1": ["finite", "raters[1]"] },
} as const;
const inPairs = { subjects: ["readings"], columns: { "0.first": "finite", "0.second": "finite" } } as const;
const multiplier = [0, -1, Number.NaN, Number.POSITIVE_INFINITY, null] as const;
const personsOf = ({ records }: Cohort) => pick(records, "person");

export const agreementRows: readonly Row[] = [
  {
    ...complete,
    name: "intraclassCorrelation",
    of: agreement.intraclassCorrelation,
    given: (cohort) => [ratings(cohort), {}],
    numbers: { "1.level": level, "1.against": [-0.1, 1, Number.NaN, null] },
    outcomes: {
      "no-rows": ["no rows"],
      "too-few-rows": ["one row"],
      "not-positive": ["two rows"],
      "no-variance": [
        "all rows alike",
        "a single value throughout",
        "readings agree exactly",
        "readings differ by a constant",
      ],
    },
  },
  {
    ...complete,
    name: "measurementError",
    of: agreement.measurementError,
    given: (cohort) => [ratings(cohort), {}],
    numbers: { "1.level": level, "1.changeLevel": level },
    nulls: ["fromTotalDeviation"],
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
    name: "raterComponents",
    of: agreement.raterComponents,
    subjects: ["readings", "persons"],
    given: ({ records }) => [
      {
        values: [...pick(records, "first"), ...pick(records, "second")],
        subjects: [...records.keys(), ...records.keys()],
        raters: [...records.map(() => 1), ...records.map(() => 2)],
      },
      {},
    ],
    columns: { "0.values": "finite", "0.subjects": "code", "0.raters": "code" },
    numbers: { "1.level": level, "1.changeLevel": level, "1.averaged": [0, 0.5, Number.NaN, null] },
    nulls: ["standardErrors.subjects", "standardErrors.raters"],
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
    name: "repeatability",
    of: agreement.repeatability,
    subjects: ["readings", "persons"],
    given: (cohort) => [repeated(cohort), {}],
    columns: { "0.values": "finite", "0.subjects": "code" },
    numbers: { "1.level": level, "1.multiplier": multiplier },
    outcomes: {
      "no-rows": ["no rows"],
      "too-few-rows": ["one row", "each row its own person"],
      "no-variance": ["all rows alike", "a single value throughout"],
    },
  },
  {
    ...inPairs,
    name: "limitsOfAgreement",
    of: agreement.limitsOfAgreement,
    given: (cohort) => [pairs(cohort), {}],
    numbers: { "1.level": level, "1.multiplier": multiplier },
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
    name: "limitsOfRepeatedPairs",
    of: agreement.limitsOfRepeatedPairs,
    subjects: ["readings", "persons"],
    given: (cohort) => [{ ...pairs(cohort), subjects: personsOf(cohort) }, {}],
    columns: { "0.first": "finite", "0.second": "finite", "0.subjects": "code" },
    numbers: { "1.level": level, "1.multiplier": multiplier },
    nulls: ["variances.withinFirst", "variances.withinSecond"],
    outcomes: {
      "no-rows": ["no rows"],
      "too-few-rows": ["one row", "two rows", "all rows alike", "one person only"],
      "no-variance": ["a single value throughout", "readings agree exactly", "readings differ by a constant"],
    },
  },
  {
    name: "limitsOfReplicates",
    of: agreement.limitsOfReplicates,
    subjects: ["readings", "persons"],
    given: (cohort) => [
      {
        first: repeated(cohort),
        second: { values: pick(cohort.records, "second"), subjects: personsOf(cohort) },
      },
      {},
    ],
    columns: {
      "0.first.values": ["finite", "first.values"],
      "0.first.subjects": ["code", "first.subjects"],
      "0.second.values": ["finite", "second.values"],
      "0.second.subjects": ["code", "second.subjects"],
    },
    numbers: { "1.level": level, "1.multiplier": multiplier },
    nulls: ["variances.withinFirst", "variances.withinSecond"],
    outcomes: {
      "no-rows": ["no rows"],
      "too-few-rows": ["one row", "two rows", "all rows alike", "one person only"],
      "no-variance": ["a single value throughout", "readings agree exactly"],
    },
  },
  {
    ...inPairs,
    name: "proportionalBias",
    of: agreement.proportionalBias,
    given: (cohort) => [pairs(cohort), {}],
    numbers: { "1.level": level },
    outcomes: {
      "no-rows": ["no rows"],
      "too-few-rows": ["one row", "two rows"],
      collinear: ["all rows alike", "a single value throughout", "large readings that differ by little"],
      "no-variance": ["readings agree exactly", "readings differ by a constant"],
    },
  },
  {
    ...inPairs,
    name: "limitsByMagnitude",
    of: agreement.limitsByMagnitude,
    given: (cohort) => [pairs(cohort), { at: [2, 3, 4], spread: "with magnitude" }],
    columns: { ...inPairs.columns, "1.at": "finite" },
    ofAnyLength: ["1.at"],
    nulls: ["at[].lower", "at[].upper"],
    numbers: { "1.level": level, "1.multiplier": multiplier },
    outcomes: {
      "no-rows": ["no rows"],
      "too-few-rows": ["one row", "two rows"],
      collinear: ["all rows alike", "a single value throughout", "large readings that differ by little"],
      "no-variance": ["readings agree exactly", "readings differ by a constant"],
    },
  },
  {
    ...inPairs,
    name: "concordanceCorrelation",
    of: agreement.concordanceCorrelation,
    given: (cohort) => [pairs(cohort), {}],
    numbers: { "1.level": level },
    outcomes: {
      "no-rows": ["no rows"],
      "too-few-rows": ["one row", "two rows"],
      "no-variance": ["all rows alike", "a single value throughout", "readings agree exactly"],
    },
  },
];
