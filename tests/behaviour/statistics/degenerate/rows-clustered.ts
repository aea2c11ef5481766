import * as agreement from "../../../../src/statistics/agreement/index.js";
import * as comparison from "../../../../src/statistics/comparison/index.js";
import * as hazards from "../../../../src/statistics/hazards/index.js";
import * as proportions from "../../../../src/statistics/proportions/index.js";
import * as bands from "../../../../src/statistics/survival/bands/index.js";
import type { Rec } from "./cases.js";
import {
  covariateColumns,
  covariates,
  entries,
  entryColumn,
  groupColumns,
  grouped,
  personColumn,
  persons,
  strata,
  strataColumn,
  timeColumns,
  times,
  weightColumn,
  weights,
} from "./columns.js";
import { drawsOption, iterationsOption, level, pick, type Row, seedOption, timeOption } from "./row.js";

const belonging = (records: readonly Rec[]) => ({ clusters: pick(records, "person") });

/** Methods for rows of which several belong together. */
export const clusteredRows: readonly Row[] = [
  {
    name: "clusteredShare",
    of: proportions.clusteredShare,
    subjects: ["states", "persons"],
    given: ({ records }) => [{ hits: pick(records, "state"), ...belonging(records) }, {}],
    columns: { "0.hits": "zero or one", ...personColumn },
    numbers: { "1.level": level },
    outcomes: {
      "no-rows": ["no rows"],
      "too-few-rows": ["one row", "two rows", "all rows alike", "one person only"],
    },
  },
  {
    name: "clusteredKappa",
    of: agreement.clusteredKappa,
    subjects: ["categories", "persons"],
    given: ({ records }) => [
      { first: pick(records, "category"), second: pick(records, "again"), ...belonging(records) },
      { categories: ["a", "b", "c"] },
    ],
    columns: { "0.first": "count", "0.second": "count", ...personColumn },
    numbers: { "1.level": level },
    nulls: ["alone.prevalenceIndex", "alone.biasIndex"],
    outcomes: {
      "no-rows": ["no rows"],
      "no-variance": ["one row", "all rows alike", "one category only"],
      "too-few-rows": ["one person only"],
      "no-variance + too-few-rows": ["two rows"],
    },
  },
  {
    name: "clusteredAccuracy",
    of: agreement.clusteredAccuracy,
    subjects: ["readings", "states", "persons"],
    given: ({ records }) => [
      { values: pick(records, "first"), states: pick(records, "state"), ...belonging(records) },
      { threshold: 3 },
    ],
    columns: { "0.values": "finite", "0.states": "zero or one", ...personColumn },
    numbers: { "1.level": level, "1.threshold": [Number.NaN, null, undefined] },
    outcomes: {
      "no-rows": [
        "no rows",
        "one state only",
        "a single value throughout",
        "the other state only",
        "large readings that differ by little",
      ],
      "no-rows + too-few-rows": ["one row", "all rows alike"],
      "too-few-rows": ["two rows", "one person only"],
    },
  },
  {
    name: "fewClustersLogRank",
    of: comparison.fewClustersLogRank,
    subjects: ["times", "groups", "persons", "strata"],
    given: ({ records }) => [{ ...grouped(records), ...belonging(records) }],
    optional: { ...entries, ...strata },
    columns: { ...groupColumns, ...personColumn, ...entryColumn, ...strataColumn },
    outcomes: {
      "no-rows": ["no rows"],
      "one-group": ["one row", "all rows alike", "one group only", "one row, censored"],
      "no-variance": [
        "each row its own stratum",
        "everybody has the event at one time",
        "one group censored before the other's events",
      ],
      "too-few-rows": ["two rows", "one person only"],
      "no-events": ["all censored"],
    },
  },
  {
    name: "fewClustersTrend",
    of: comparison.fewClustersTrend,
    subjects: ["times", "groups", "persons", "strata"],
    given: ({ records }) => [{ ...grouped(records), ...belonging(records) }, {}],
    optional: { ...entries, ...strata },
    columns: { ...groupColumns, ...personColumn, ...entryColumn, ...strataColumn },
    outcomes: {
      "no-rows": ["no rows"],
      "one-group": ["one row", "all rows alike", "one group only", "one row, censored"],
      "no-variance": [
        "each row its own stratum",
        "everybody has the event at one time",
        "one group censored before the other's events",
      ],
      "too-few-rows": ["two rows", "one person only"],
      "no-events": ["all censored"],
    },
  },
  {
    name: "personPermutedLogRank",
    of: comparison.personPermutedLogRank,
    subjects: ["times", "groups", "persons"],
    given: ({ records }) => [
      { ...grouped(records), ...belonging(records) },
      { seed: 1, draws: 20 },
    ],
    optional: entries,
    columns: { ...groupColumns, ...personColumn, ...entryColumn },
    numbers: { "1.seed": [...seedOption, undefined], "1.draws": drawsOption },
    outcomes: {
      "no-rows": ["no rows"],
      "one-group": ["one row", "all rows alike", "one group only", "one row, censored"],
      "no-events": ["all censored"],
      "no-variance": ["everybody has the event at one time"],
    },
  },
  {
    name: "clusteredHazardRatios",
    of: hazards.clusteredHazardRatios,
    subjects: ["times", "covariates", "weights", "persons", "strata"],
    given: ({ records }) => [
      { ...times(records), covariates: covariates(records), ...belonging(records) },
      {},
    ],
    optional: { ...entries, ...weights, ...strata },
    columns: {
      ...timeColumns,
      ...covariateColumns,
      ...personColumn,
      ...entryColumn,
      ...weightColumn,
      ...strataColumn,
    },
    numbers: { "1.level": level, "1.maximumIterations": iterationsOption },
    nulls: ["covariance[][]", "fit.robustCovariance[][]"],
    outcomes: {
      "no-rows": ["no rows"],
      "collinear + monotone-likelihood + too-few-rows": ["two rows"],
      "no-events": ["all censored", "all weights zero", "one row, censored"],
      collinear: [
        "one row",
        "all rows alike",
        "constant covariate",
        "collinear covariates",
        "each row its own stratum",
      ],
      "monotone-likelihood": ["a covariate tells the outcome"],
      "no-variance + too-few-rows": ["one person only"],
      "too-few-rows": ["two persons only"],
      "no-variance": ["everybody has the event at one time"],
    },
  },
  {
    name: "clusteredBand",
    of: bands.clusteredBand,
    subjects: ["times", "weights", "persons"],
    given: ({ records }) => [times(records), { seed: 1, draws: 100 }],
    optional: { ...entries, ...weights, ...persons },
    columns: { ...timeColumns, ...entryColumn, ...weightColumn, ...personColumn },
    numbers: {
      "1.level": level,
      "1.seed": [...seedOption, undefined],
      "1.draws": drawsOption,
      "1.to": timeOption,
      "1.from": timeOption,
    },
    outcomes: {
      "no-rows": ["no rows"],
      "all-returned": ["one row", "all rows alike", "everybody has the event at one time"],
      "no-events": ["all censored", "all weights zero", "one row, censored"],
      "too-few-rows": ["one person only"],
    },
  },
];
