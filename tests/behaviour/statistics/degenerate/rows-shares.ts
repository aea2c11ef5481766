import * as continuous from "../../../../src/statistics/continuous/index.js";
import * as proportions from "../../../../src/statistics/proportions/index.js";
import type { Cohort } from "./cases.js";
import { byState, count, inGroup } from "./columns.js";
import { countNumber, level, type Row } from "./row.js";

const fourCells = (cohort: Cohort) => {
  const [a, b] = byState(inGroup(cohort, 0)) as [number, number];
  const [c, d] = byState(inGroup(cohort, 1)) as [number, number];
  return { a, b, c, d };
};
const pairedCells = ({ records }: Cohort) => ({
  both: count(records, ({ state, z }) => state === 1 && z === 1),
  firstOnly: count(records, ({ state, z }) => state === 1 && z !== 1),
  secondOnly: count(records, ({ state, z }) => state === 0 && z === 1),
  neither: count(records, ({ state, z }) => state === 0 && z !== 1),
});
const groupCounts = (cohort: Cohort) => ({
  events: [0, 1, 2].map((group) => count(inGroup(cohort, group), ({ state }) => state === 1)),
  n: [0, 1, 2].map((group) => inGroup(cohort, group).length),
});
const cells = {
  subjects: ["groups", "states"],
  columns: {},
  numbers: { "0.a": countNumber, "0.b": countNumber, "0.c": countNumber, "0.d": countNumber },
} as const;
const pairedCount = {
  subjects: ["states", "covariates"],
  columns: {},
  numbers: {
    "0.both": countNumber,
    "0.firstOnly": countNumber,
    "0.secondOnly": countNumber,
    "0.neither": countNumber,
  },
} as const;

export const shareRows: readonly Row[] = [
  {
    name: "wilson",
    of: continuous.wilson,
    subjects: ["states"],
    given: ({ records }) => [byState(records)[0], records.length, {}],
    columns: {},
    numbers: { "0": countNumber, "1": countNumber, "2.level": level },
    called: { "0": "successes", "1": "n" },
    outcomes: { "no-rows": ["no rows"] },
  },
  {
    name: "proportionInterval",
    of: proportions.proportionInterval,
    subjects: ["states"],
    given: ({ records }) => [{ successes: byState(records)[0], n: records.length }, {}],
    columns: {},
    numbers: { "0.successes": countNumber, "0.n": countNumber, "1.level": level },
    outcomes: { "no-rows": ["no rows"] },
  },
  {
    ...cells,
    name: "fourCellsChiSquare",
    of: proportions.fourCellsChiSquare,
    given: (cohort) => [fourCells(cohort)],
    outcomes: {
      "no-rows": ["no rows"],
      "no-variance": [
        "one row",
        "all rows alike",
        "one group only",
        "a group number passed over",
        "one state only",
        "the other state only",
      ],
    },
  },
  {
    ...cells,
    name: "fisher",
    of: proportions.fisher,
    given: (cohort) => [fourCells(cohort)],
    outcomes: {},
  },
  {
    ...cells,
    name: "riskDifference",
    of: proportions.riskDifference,
    given: (cohort) => [fourCells(cohort), {}],
    numbers: { ...cells.numbers, "1.level": level },
    nulls: ["numberNeeded"],
    outcomes: {
      "no-rows": ["no rows", "one row", "all rows alike", "one group only", "a group number passed over"],
    },
  },
  {
    ...cells,
    name: "riskRatio",
    of: proportions.riskRatio,
    given: (cohort) => [fourCells(cohort), {}],
    numbers: { ...cells.numbers, "1.level": level },
    outcomes: {
      "no-rows": ["no rows", "one row", "all rows alike", "one group only", "a group number passed over"],
      "not-positive": ["two rows", "one state only"],
      "no-variance": ["the other state only"],
    },
  },
  {
    ...cells,
    name: "oddsRatio",
    of: proportions.oddsRatio,
    given: (cohort) => [fourCells(cohort), {}],
    numbers: { ...cells.numbers, "1.level": level },
    outcomes: {
      "no-rows": ["no rows", "one row", "all rows alike", "one group only", "a group number passed over"],
      "not-positive": ["two rows", "a group of one row", "one state only", "the other state only"],
    },
  },
  {
    ...cells,
    name: "conditionalOddsRatio",
    of: proportions.conditionalOddsRatio,
    given: (cohort) => [fourCells(cohort), {}],
    numbers: { ...cells.numbers, "1.level": level },
    outcomes: {
      "no-rows": ["no rows", "one row", "all rows alike", "one group only", "a group number passed over"],
      "not-positive": ["two rows", "a group of one row", "one state only", "the other state only"],
    },
  },
  {
    name: "proportionsTest",
    of: proportions.proportionsTest,
    subjects: ["groups", "states"],
    given: (cohort) => [groupCounts(cohort)],
    columns: { "0.events": "count", "0.n": "count" },
    outcomes: {
      "no-rows": ["no rows"],
      "one-group": ["one row", "all rows alike", "one group only"],
      "no-variance": ["one state only", "the other state only"],
    },
  },
  {
    name: "proportionTrend",
    of: proportions.proportionTrend,
    subjects: ["groups", "states"],
    given: (cohort) => [groupCounts(cohort), { scores: [0, 1, 2] }],
    columns: { "0.events": "count", "0.n": "count", "1.scores": "finite" },
    mayBeLeftOut: ["1.scores"],
    outcomes: {
      "no-rows": ["no rows"],
      "one-group": ["one row", "all rows alike", "one group only"],
      "no-variance": ["one state only", "the other state only"],
    },
  },
  {
    ...pairedCount,
    name: "pairedTest",
    of: proportions.pairedTest,
    given: (cohort) => [pairedCells(cohort)],
    outcomes: {
      "no-rows": ["no rows"],
      "no-variance": ["one row", "two rows", "all rows alike", "a covariate tells the outcome"],
    },
  },
  {
    ...pairedCount,
    name: "pairedDifference",
    of: proportions.pairedDifference,
    given: (cohort) => [pairedCells(cohort), {}],
    numbers: { ...pairedCount.numbers, "1.level": level },
    outcomes: { "no-rows": ["no rows"] },
  },
  {
    ...pairedCount,
    name: "pairedOddsRatio",
    of: proportions.pairedOddsRatio,
    given: (cohort) => [pairedCells(cohort), {}],
    numbers: { ...pairedCount.numbers, "1.level": level },
    outcomes: {
      "no-variance": ["no rows", "one row", "two rows", "all rows alike", "a covariate tells the outcome"],
      "not-positive": [
        "constant covariate",
        "collinear covariates",
        "one state only",
        "a covariate almost tells the outcome",
        "the other state only",
      ],
    },
  },
];
