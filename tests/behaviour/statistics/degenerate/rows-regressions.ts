import { lagOneCorrelation } from "../../../../src/statistics/continuous/lag-one-correlation.js";
import * as statistics from "../../../../src/statistics/index.js";
import * as linear from "../../../../src/statistics/linear/index.js";
import * as logistic from "../../../../src/statistics/regression/logistic/index.js";
import * as mixed from "../../../../src/statistics/regression/mixed/index.js";
import {
  ascent,
  covariateColumns,
  covariates,
  personColumn,
  persons,
  weightColumn,
  weights,
} from "./columns.js";
import { level, pick, type Row } from "./row.js";

export const regressionRows: readonly Row[] = [
  {
    name: "linearRegression",
    of: statistics.linearRegression,
    subjects: ["readings", "covariates", "persons"],
    given: ({ records }) => [{ response: pick(records, "first"), covariates: covariates(records) }, {}],
    optional: persons,
    columns: { "0.response": "finite", ...covariateColumns, ...personColumn },
    numbers: { "1.level": level },
    outcomes: {
      "no-rows": ["no rows"],
      "collinear + too-few-rows": ["one row", "two rows"],
      "collinear + no-variance": ["all rows alike"],
      collinear: ["constant covariate", "collinear covariates"],
      "no-variance": ["a single value throughout"],
      "too-few-rows": ["one person only"],
    },
  },
  {
    name: "testTogether",
    of: statistics.testTogether,
    subjects: ["readings", "covariates"],
    given: ({ records }) => [
      statistics.linearRegression({ response: pick(records, "first"), covariates: covariates(records) }),
      ["x", "z"],
    ],
    columns: {},
    outcomes: {
      "no-rows": ["no rows"],
      "too-few-rows": ["one row", "two rows"],
      collinear: ["all rows alike"],
      "no-variance": ["a single value throughout"],
    },
  },
  {
    name: "baselineAdjusted",
    of: statistics.baselineAdjusted,
    subjects: ["readings", "groups", "persons"],
    given: ({ records }) => [
      {
        baseline: pick(records, "first"),
        followUp: pick(records, "second"),
        groups: pick(records, "group"),
      },
      {},
    ],
    optional: persons,
    columns: { "0.baseline": "finite", "0.followUp": "finite", "0.groups": "code", ...personColumn },
    numbers: { "1.level": level, "1.reference": [17, Number.NaN, null] },
    outcomes: {
      "no-rows": ["no rows"],
      "collinear + one-group + too-few-rows": ["one row"],
      "collinear + too-few-rows": ["two rows"],
      "collinear + no-variance + one-group": ["all rows alike"],
      "one-group": ["one group only"],
      "collinear + no-variance": ["a single value throughout", "values alike within each group"],
      "no-variance": ["readings agree exactly", "readings differ by a constant"],
      "too-few-rows": ["one person only"],
      collinear: ["large readings that differ by little"],
    },
  },
  {
    name: "baselineTests",
    of: statistics.baselineTests,
    subjects: ["readings", "groups", "persons"],
    given: ({ records }) => [
      {
        baseline: pick(records, "first"),
        followUp: pick(records, "second"),
        groups: pick(records, "group"),
      },
      {},
    ],
    optional: persons,
    columns: { "0.baseline": "finite", "0.followUp": "finite", "0.groups": "code", ...personColumn },
    numbers: { "1.reference": [17, Number.NaN, null] },
    outcomes: {
      "no-rows": ["no rows"],
      "one-group": ["one row", "all rows alike", "one group only"],
      "too-few-rows": ["two rows", "one person only"],
      collinear: ["a group of one row", "values alike within each group"],
      "collinear + no-variance": ["a single value throughout"],
      "no-variance": ["readings agree exactly", "readings differ by a constant"],
    },
  },
  {
    name: "logisticRegression",
    of: logistic.logisticRegression,
    subjects: ["states", "covariates", "weights", "persons"],
    given: ({ records }) => [{ outcome: pick(records, "state"), covariates: covariates(records) }, {}],
    optional: { ...weights, ...persons },
    columns: { "0.outcome": "zero or one", ...covariateColumns, ...weightColumn, ...personColumn },
    numbers: { "1.level": level, ...ascent },
    nulls: ["robustCovariance", "separation", "standardErrors[]", "robustCovariance[][]"],
    outcomes: {
      "no-rows": ["no rows", "all weights zero"],
      "collinear + no-events + one-outcome": ["one row", "all rows alike"],
      "collinear + monotone-likelihood + separation": ["two rows"],
      collinear: ["constant covariate", "collinear covariates"],
      "monotone-likelihood + separation": [
        "a covariate tells the outcome",
        "a covariate almost tells the outcome",
      ],
      "no-events + one-outcome": ["one state only"],
      "too-few-rows": ["one person only", "two persons only"],
      "monotone-likelihood + one-outcome": ["the other state only"],
    },
  },
  {
    name: "predictedProbabilities",
    of: logistic.predictedProbabilities,
    subjects: ["states", "covariates"],
    given: ({ records }) => [
      logistic.logisticRegression({ outcome: pick(records, "state"), covariates: covariates(records) }),
      {
        covariates: {
          names: ["x", "z"],
          columns: [
            [0, 1, 2],
            [1, 0, 1],
          ],
        },
      },
    ],
    columns: {
      "1.covariates.columns.0": ["finite", 'covariate "x"'],
      "1.covariates.columns.1": ["finite", 'covariate "z"'],
    },
    numbers: { "1.level": level },
    outcomes: {
      "no-rows": ["no rows"],
      "no-events": ["one row", "all rows alike", "one state only"],
      "monotone-likelihood": [
        "two rows",
        "a covariate tells the outcome",
        "a covariate almost tells the outcome",
        "the other state only",
      ],
    },
  },
  {
    name: "multinomialRegression",
    of: logistic.multinomialRegression,
    subjects: ["categories", "covariates", "weights", "persons"],
    given: ({ records }) => [{ categories: pick(records, "category"), covariates: covariates(records) }, {}],
    optional: { ...weights, ...persons },
    columns: { "0.categories": "code", ...covariateColumns, ...weightColumn, ...personColumn },
    numbers: { "1.level": level, "1.reference": [17, Number.NaN, null], ...ascent },
    nulls: ["robustCovariance", "separation", "standardErrors[]", "robustCovariance[][]"],
    outcomes: {
      "no-rows": ["no rows", "all weights zero"],
      "one-group + one-outcome": ["one row", "all rows alike", "one category only"],
      "collinear + monotone-likelihood + separation": ["two rows"],
      collinear: ["constant covariate", "collinear covariates"],
      "monotone-likelihood + separation": [
        "a covariate tells the outcome",
        "a covariate almost tells the outcome",
      ],
      "too-few-rows": ["one person only", "two persons only"],
    },
  },
  {
    name: "mixedRegression",
    of: mixed.mixedRegression,
    subjects: ["readings", "covariates", "persons"],
    given: ({ records }) => [
      {
        response: pick(records, "first"),
        covariates: covariates(records),
        groups: pick(records, "person"),
      },
      {},
    ],
    optional: { "0.slope": (records) => pick(records, "x") },
    columns: {
      "0.response": "finite",
      ...covariateColumns,
      "0.groups": "code",
      "0.slope": "finite",
    },
    numbers: { "1.level": level },
    nulls: [
      "components.slopeDeviation",
      "components.correlation",
      "predictions[].slope",
      "predictions[].slopeDeviation",
    ],
    outcomes: {
      boundary: [
        "two persons only",
        "nothing wrong",
        "ties everywhere",
        "a covariate tells the outcome",
        "readings agree exactly",
        "readings differ by a constant",
        "a covariate almost tells the outcome",
        "a covariate in a huge unit",
        "a covariate far from zero",
      ],
      "boundary + no-variance": ["every column that may be left out"],
      "no-rows": ["no rows"],
      "too-few-rows": ["one row", "two rows", "each row its own person"],
      "one-group": ["all rows alike", "one person only"],
      "boundary + collinear": ["constant covariate", "collinear covariates"],
      "no-variance": ["a single value throughout", "large readings that differ by little"],
    },
  },
  {
    name: "solveSymmetric",
    of: linear.solveSymmetric,
    subjects: ["covariates"],
    given: ({ records }) => {
      const { columns } = covariates(records);
      const product = (a: readonly number[], b: readonly number[]) =>
        a.reduce((sum, value, row) => sum + value * b[row]!, 0);
      return [
        {
          matrix: columns.flatMap((a) => columns.map((b) => product(a, b))),
          right: columns.map((a) => product(a, pick(records, "first"))),
        },
      ];
    },
    columns: { "0.matrix": "finite", "0.right": "finite" },
    outcomes: {},
  },
  {
    name: "eigenSymmetric",
    of: linear.eigenSymmetric,
    subjects: ["covariates"],
    given: ({ records }) => {
      const { columns } = covariates(records);
      const product = (a: readonly number[], b: readonly number[]) =>
        a.reduce((sum, value, row) => sum + value * b[row]!, 0);
      return [columns.flatMap((a) => columns.map((b) => product(a, b))), 2];
    },
    columns: { "0": ["finite", "matrix"] },
    numbers: { "1": [-1, 0.5, Number.NaN, null] },
    called: { "1": "size" },
    outcomes: {},
  },
  {
    name: "lagOneCorrelation",
    of: lagOneCorrelation,
    subjects: ["readings"],
    given: ({ records }) => [pick(records, "first")],
    columns: { "0": ["finite", "values"] },
    ofAnyLength: ["0"],
    outcomes: {
      "no-rows": ["no rows"],
      "too-few-rows": ["one row"],
      "no-variance": ["all rows alike", "a single value throughout"],
    },
  },
];
