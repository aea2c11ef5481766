import * as rounds from "../../../../src/statistics/pooling/rounds/index.js";
import * as tables from "../../../../src/statistics/pooling/tables/index.js";
import type { Rec } from "./cases.js";
import {
  ascent,
  causeColumns,
  causes,
  covariateColumns,
  covariates,
  ends,
  entries,
  entryColumn,
  looked,
  personColumn,
  persons,
  strata,
  strataColumn,
  timeColumns,
  times,
  weightColumn,
  weights,
} from "./columns.js";
import { level, pick, type Row } from "./row.js";

const rows = (records: readonly Rec[]) => ({
  ...causes(records),
  groups: pick(records, "group"),
  covariates: covariates(records),
});
const tableRow = {
  subjects: ["times", "causes", "groups", "covariates", "strata"],
  given: ({ records }) => [rows(records)],
  optional: { ...entries, ...strata },
  columns: {
    ...causeColumns,
    "0.groups": "code",
    ...covariateColumns,
    ...entryColumn,
    ...strataColumn,
  },
  mayBeLeftOut: ["0.groups", "0.covariates"],
} as const satisfies Partial<Row>;
const manyEnds = Array.from({ length: 20 }, (_, i) => i + 1);
const binned = {
  ...tableRow,
  given: ({ records }) => [rows(records), { ends: manyEnds }],
  columns: { ...tableRow.columns, "1.ends": "not negative" },
  ofAnyLength: ["1.ends"],
} as const satisfies Partial<Row>;
const tableOf = (records: readonly Rec[]) => {
  const table = tables.riskSetTable(rows(records));
  return { ...table, strata: table.strata.map(() => 0) };
};
const ofTable = {
  subjects: ["times", "causes", "groups", "covariates"],
  given: ({ records }) => [tableOf(records), {}],
  columns: { "0.times": "finite", "0.entered": "count", "0.censored": "count" },
} as const satisfies Partial<Row>;
const curveNulls = ["entered", "standardError[]", "lower[]", "upper[]", "lastTime"];

export const exactPoolingRows: readonly Row[] = [
  {
    ...tableRow,
    name: "riskSetTable",
    of: tables.riskSetTable,
    outcomes: {},
  },
  {
    ...binned,
    name: "binnedRows",
    of: tables.binnedRows,
    outcomes: { "! times[0]": ["times in a huge unit"] },
  },
  {
    ...ofTable,
    name: "coarserTable",
    of: tables.coarserTable,
    given: ({ records }) => [tableOf(records), { ends: manyEnds }],
    columns: { ...ofTable.columns, "1.ends": "not negative" },
    ofAnyLength: ["1.ends"],
    outcomes: { "! times[1]": ["times in a huge unit"] },
  },
  {
    ...ofTable,
    name: "addRiskSetTables",
    of: tables.addRiskSetTables,
    given: ({ records }) => [[tableOf(records), tableOf(records)]],
    columns: { "0.1.entered": "count", "0.1.censored": "count" },
    outcomes: {},
  },
  {
    ...ofTable,
    name: "incidenceOfTable",
    of: tables.incidenceOfTable,
    numbers: { "1.level": level },
    nulls: curveNulls,
    outcomes: {},
  },
  {
    ...ofTable,
    name: "productLimitOfTable",
    of: tables.productLimitOfTable,
    numbers: { "1.level": level },
    nulls: [...curveNulls, "competing"],
    outcomes: {},
  },
  {
    ...ofTable,
    name: "logRankOfTable",
    of: tables.logRankOfTable,
    nulls: ["z", "oneSided"],
    outcomes: {
      "no-rows": ["no rows"],
      "one-group": ["one row", "all rows alike", "one row, censored", "one group only"],
      "no-events": ["all censored", "the cause asked for never seen"],
      "no-variance": ["everybody has the event at one time", "one group censored before the other's events"],
    },
  },
  {
    ...ofTable,
    name: "hazardsOfTable",
    of: tables.hazardsOfTable,
    numbers: { "1.level": level, ...ascent },
    nulls: ["robustStandardErrors", "robustCovariance", "robustWald", "robustScore"],
    outcomes: {
      "no-rows": ["no rows"],
      collinear: ["one row", "all rows alike", "constant covariate", "collinear covariates"],
      "collinear + monotone-likelihood": ["two rows"],
      "no-events": ["all censored", "one row, censored", "the cause asked for never seen"],
      "monotone-likelihood": ["a covariate tells the outcome"],
    },
  },
  {
    name: "hazardsAt",
    of: rounds.hazardsAt,
    subjects: ["times", "covariates", "weights", "persons", "strata"],
    given: ({ records }) => [
      { ...times(records), covariates: covariates(records) },
      { point: [0.1, -0.2], squares: "yes" },
    ],
    optional: { ...entries, ...weights, ...persons, ...strata },
    columns: {
      ...timeColumns,
      ...covariateColumns,
      ...entryColumn,
      ...weightColumn,
      ...personColumn,
      ...strataColumn,
      "1.point": "finite",
    },
    ofAnyLength: ["1.point"],
    outcomes: { "! point": ["a covariate in a huge unit"] },
  },
  {
    name: "deletionsAt",
    of: rounds.deletionsAt,
    subjects: ["times", "covariates", "weights", "persons", "strata"],
    given: ({ records }) => [
      { ...times(records), covariates: covariates(records) },
      {
        point: [0.1, -0.2],
        score: [0, 0],
        information: [
          [40, 3],
          [3, 50],
        ],
      },
    ],
    optional: { ...entries, ...weights, ...persons, ...strata },
    columns: {
      ...timeColumns,
      ...covariateColumns,
      ...entryColumn,
      ...weightColumn,
      ...personColumn,
      ...strataColumn,
      "1.point": "finite",
      "1.score": "finite",
    },
    ofAnyLength: ["1.point", "1.score"],
    outcomes: { "! point": ["a covariate in a huge unit"] },
  },
  {
    name: "acceleratedAt",
    of: rounds.acceleratedAt,
    subjects: ["times", "covariates", "weights", "persons"],
    given: ({ records }) => [
      { ...looked(records), covariates: covariates(records) },
      { point: [2, 0.1, -0.2, 1], squares: "yes" },
    ],
    optional: { ...weights, ...persons },
    columns: { ...ends, ...covariateColumns, ...weightColumn, ...personColumn, "1.point": "finite" },
    ofAnyLength: ["1.point"],
    outcomes: { "! point": ["a covariate in a huge unit"] },
  },
];
