import * as statistics from "../../../../src/statistics/index.js";
import * as hazards from "../../../../src/statistics/regression/hazards/index.js";
import type { Rec } from "./cases.js";
import {
  ascent,
  covariateColumns,
  covariates,
  entries,
  entryColumn,
  personColumn,
  persons,
  strata,
  strataColumn,
  timeColumns,
  weightColumn,
  weights,
} from "./columns.js";
import { horizonOption, level, pick, type Row } from "./row.js";

const hazardColumns = (records: readonly Rec[]) => ({
  times: pick(records, "time"),
  events: pick(records, "event"),
  covariates: covariates(records),
});
const robust = ["robustStandardErrors", "robustCovariance", "robustWald", "robustScore"];
const hazardRow = {
  subjects: ["times", "covariates", "weights", "persons", "strata"],
  given: ({ records }) => [hazardColumns(records), {}],
  optional: { ...entries, ...weights, ...persons, ...strata },
  columns: {
    ...timeColumns,
    ...covariateColumns,
    ...entryColumn,
    ...weightColumn,
    ...personColumn,
    ...strataColumn,
  },
} as const satisfies Partial<Row>;
const modelOf = (records: readonly Rec[]) => hazards.hazardModel(hazardColumns(records));
const ofModel = { subjects: ["times", "covariates"], columns: {} } as const;

export const hazardRows: readonly Row[] = [
  {
    ...hazardRow,
    name: "hazardsRegression",
    of: statistics.hazardsRegression,
    numbers: { "1.level": level, ...ascent },
    nulls: robust,
    outcomes: {
      "no-rows": ["no rows"],
      collinear: [
        "one row",
        "all rows alike",
        "constant covariate",
        "collinear covariates",
        "each row its own stratum",
      ],
      "collinear + monotone-likelihood": ["two rows"],
      "no-events": ["all censored", "all weights zero"],
      "monotone-likelihood": ["a covariate tells the outcome"],
      "no-variance + too-few-rows": ["one person only"],
    },
  },
  {
    ...hazardRow,
    name: "hazardModel",
    of: hazards.hazardModel,
    numbers: { "1.level": level, ...ascent },
    read: ({ fit }: hazards.HazardModel) => fit,
    nulls: robust,
    outcomes: {
      "no-rows": ["no rows"],
      collinear: [
        "one row",
        "all rows alike",
        "constant covariate",
        "collinear covariates",
        "each row its own stratum",
      ],
      "collinear + monotone-likelihood": ["two rows"],
      "no-events": ["all censored", "all weights zero"],
      "monotone-likelihood": ["a covariate tells the outcome"],
      "no-variance + too-few-rows": ["one person only"],
    },
  },
  {
    ...hazardRow,
    name: "automaticHazardsRegression",
    of: hazards.automaticHazardsRegression,
    numbers: { "1.level": level },
    read: ({ ordinary, penalised }: hazards.ChosenHazardFit) => penalised ?? ordinary,
    nulls: robust,
    outcomes: {
      "no-rows": ["no rows"],
      collinear: [
        "one row",
        "two rows",
        "all rows alike",
        "constant covariate",
        "collinear covariates",
        "each row its own stratum",
      ],
      "no-events": ["all censored", "all weights zero"],
      "no-variance + too-few-rows": ["one person only"],
    },
  },
  {
    ...hazardRow,
    name: "penalisedHazardsRegression",
    of: hazards.penalisedHazardsRegression,
    numbers: { "1.level": level },
    outcomes: {
      "no-rows": ["no rows"],
      collinear: [
        "one row",
        "two rows",
        "all rows alike",
        "constant covariate",
        "collinear covariates",
        "each row its own stratum",
      ],
      "no-events": ["all censored", "all weights zero"],
    },
  },
  {
    ...hazardRow,
    name: "proportionalityTest",
    of: statistics.proportionalityTest,
    outcomes: {
      "no-rows": ["no rows"],
      collinear: [
        "one row",
        "all rows alike",
        "constant covariate",
        "collinear covariates",
        "each row its own stratum",
      ],
      "monotone-likelihood": ["two rows", "a covariate tells the outcome"],
      "no-events": ["all censored", "all weights zero"],
      "no-variance": ["all events at one time", "a single time", "time zero throughout"],
    },
  },
  {
    name: "frailtyRegression",
    of: hazards.frailtyRegression,
    subjects: ["times", "covariates", "persons", "strata"],
    given: ({ records }) => [{ ...hazardColumns(records), groups: pick(records, "person") }, {}],
    optional: { ...entries, ...strata },
    columns: { ...timeColumns, ...covariateColumns, ...entryColumn, ...strataColumn, "0.groups": "code" },
    numbers: { "1.level": level, "1.theta": [-1, Number.NaN, Number.POSITIVE_INFINITY, null] },
    nulls: ["theta.standardError", "theta.lower", "theta.upper"],
    outcomes: {
      "no-rows": ["no rows"],
      collinear: [
        "one row",
        "all rows alike",
        "constant covariate",
        "collinear covariates",
        "each row its own stratum",
      ],
      "monotone-likelihood": ["two rows", "a covariate tells the outcome"],
      "no-events": ["all censored"],
    },
  },
  {
    ...ofModel,
    name: "baselineHazard",
    of: hazards.baselineHazard,
    given: ({ records }) => [modelOf(records), { at: [1, 0] }],
    columns: { "1.at": "finite" },
    mayBeLeftOut: ["1.at"],
    outcomes: {
      "no-rows": ["no rows"],
      "monotone-likelihood": ["two rows", "a covariate tells the outcome"],
      "no-events": ["all censored"],
    },
  },
  {
    ...ofModel,
    name: "predictedCurves",
    of: hazards.predictedCurves,
    given: ({ records, at }) => [modelOf(records), { rows: [[1, 0]], times: [0, at], strata: [0] }],
    columns: { "1.rows.0": ["finite", "rows[0]"], "1.times": "not negative" },
    ofAnyLength: ["1.times"],
    mayBeLeftOut: ["1.times"],
    numbers: { "1.level": level },
    nulls: ["curves[].lower[]", "curves[].upper[]"],
    outcomes: {
      "no-rows": ["no rows"],
      "monotone-likelihood": ["two rows", "a covariate tells the outcome"],
      "no-events": ["all censored"],
    },
  },
  {
    ...ofModel,
    name: "hazardResiduals",
    of: hazards.hazardResiduals,
    given: ({ records }) => [modelOf(records)],
    outcomes: {
      "no-rows": ["no rows"],
      "monotone-likelihood": ["two rows", "a covariate tells the outcome"],
      "no-events": ["all censored"],
    },
  },
  {
    ...ofModel,
    name: "hazardConcordance",
    of: hazards.hazardConcordance,
    given: ({ records }) => [modelOf(records)],
    outcomes: {
      "no-rows": ["no rows"],
      "too-few-rows": ["one row", "all rows alike"],
      "monotone-likelihood": ["two rows", "a covariate tells the outcome"],
      "no-events": ["all censored"],
    },
  },
  {
    name: "hazards/concordance",
    of: hazards.concordance,
    subjects: ["times", "covariates", "weights", "persons", "strata"],
    given: ({ records }) => [
      { times: pick(records, "time"), events: pick(records, "event"), scores: pick(records, "x") },
    ],
    optional: { ...entries, ...weights, ...persons, ...strata },
    columns: {
      ...timeColumns,
      "0.scores": "finite",
      ...entryColumn,
      ...weightColumn,
      ...personColumn,
      ...strataColumn,
    },
    outcomes: {
      "no-rows": ["no rows"],
      "too-few-rows": [
        "one row",
        "all rows alike",
        "all weights zero",
        "one person only",
        "each row its own stratum",
      ],
      "no-events": ["all censored"],
    },
  },
  {
    name: "standardisedPredictions",
    of: hazards.standardisedPredictions,
    subjects: ["times", "covariates", "horizon"],
    given: ({ records, at, horizon }) => [
      modelOf(records),
      {
        settings: [
          { name: "without", values: { z: 0 } },
          { name: "with", values: { z: 1 } },
        ],
        times: [at],
        horizon,
        population: { covariates: covariates(records) },
      },
    ],
    columns: {
      "1.times": "not negative",
      "1.population.covariates.columns.0": ["finite", 'covariate "x"'],
      "1.population.covariates.columns.1": ["finite", 'covariate "z"'],
      "1.population.weights": ["not negative", "population.weights"],
    },
    optional: { "1.population.weights": (records) => pick(records, "weight") },
    ofAnyLength: ["1.times"],
    numbers: { "1.level": level, "1.horizon": horizonOption, "1.settings.0.values.z": [Number.NaN, null] },
    called: { "1.settings.0.values.z": "settings[0].values.z" },
    outcomes: {
      "no-rows": ["no rows"],
      "no-variance": ["one row", "all rows alike", "constant covariate", "collinear covariates"],
      "monotone-likelihood": ["two rows", "a covariate tells the outcome"],
      "no-events": ["all censored"],
    },
  },
];
