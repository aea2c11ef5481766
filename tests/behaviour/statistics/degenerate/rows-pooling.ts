import * as pooling from "../../../../src/statistics/pooling/index.js";
import type { Cohort } from "./cases.js";
import { covariateColumns, covariates } from "./columns.js";
import { level, pick, type Row } from "./row.js";

/** A record as a site: its first reading as the answer, its time as twenty variances. */
const sites = ({ records }: Cohort) => ({
  estimates: pick(records, "first"),
  variances: records.map(({ time }) => time / 20),
});
/** The same with shares: the state as the events among two, or the time as the size. */
const shares = ({ records }: Cohort) => ({
  events: records.map(({ state, time }) => (time === 0 ? 0 : state * Math.min(1, time))),
  sizes: pick(records, "time"),
});
const medians = ({ records }: Cohort) => ({
  medians: records.map(({ time }) => time + 1),
  lower: records.map(({ time }) => time + 0.5),
  upper: records.map(({ time }) => time + 2),
});
const columns = { "0.estimates": "site estimate", "0.variances": "site variance" } as const;
const shareColumns = { "0.events": "site share", "0.sizes": "site share" } as const;

export const poolingRows: readonly Row[] = [
  {
    name: "commonEffect",
    of: pooling.commonEffect,
    subjects: ["times", "readings"],
    given: (cohort) => [sites(cohort), {}],
    columns,
    numbers: { "1.level": level },
    outcomes: {
      "no-rows": ["no rows"],
      "no-rows + no-variance": ["time zero throughout"],
      "no-variance": ["an event at time zero"],
    },
  },
  {
    name: "heterogeneity",
    of: pooling.heterogeneity,
    subjects: ["times", "readings"],
    given: (cohort) => [sites(cohort), {}],
    columns,
    numbers: { "1.level": level },
    outcomes: {
      "no-rows": ["no rows"],
      "too-few-sites": ["one row", "one row, censored"],
      "closer-than-chance + no-variance": ["all rows alike", "a single value throughout"],
      "no-rows + no-variance": ["time zero throughout"],
      "closer-than-chance": ["times in a huge unit"],
      "no-variance": ["an event at time zero"],
    },
  },
  {
    name: "randomEffects",
    of: pooling.randomEffects,
    subjects: ["times", "readings"],
    given: (cohort) => [sites(cohort), {}],
    columns,
    numbers: { "1.level": level },
    outcomes: {
      "no-rows": ["no rows"],
      "too-few-sites": ["one row", "two rows", "one row, censored"],
      "closer-than-chance + no-variance": ["all rows alike", "a single value throughout"],
      "no-rows + no-variance": ["time zero throughout"],
      "closer-than-chance": ["times in a huge unit"],
      "no-variance": ["an event at time zero"],
    },
  },
  {
    name: "leaveOneOut",
    of: pooling.leaveOneOut,
    subjects: ["times", "readings"],
    given: (cohort) => [sites(cohort), {}],
    columns,
    numbers: { "1.level": level },
    outcomes: {
      "no-rows": ["one row", "one row, censored"],
      "too-few-sites": ["two rows"],
      "closer-than-chance + no-variance": ["all rows alike", "a single value throughout"],
      "closer-than-chance": ["times in a huge unit"],
      "no-variance": ["an event at time zero"],
    },
  },
  {
    name: "metaRegression",
    of: pooling.metaRegression,
    subjects: ["times", "readings", "covariates"],
    given: (cohort) => [{ ...sites(cohort), covariates: covariates(cohort.records) }, {}],
    columns: { ...columns, ...covariateColumns },
    numbers: { "1.level": level },
    outcomes: {
      "no-rows": ["no rows"],
      "too-few-sites": ["one row", "two rows", "one row, censored"],
      "collinear + no-covariates": ["all rows alike"],
      "no-rows + no-variance": ["time zero throughout"],
      "no-variance": ["an event at time zero"],
      collinear: ["constant covariate", "collinear covariates"],
    },
  },
  {
    name: "subgroups",
    of: pooling.subgroups,
    subjects: ["times", "readings", "groups"],
    given: (cohort) => [{ ...sites(cohort), groups: pick(cohort.records, "group") }, {}],
    columns: { ...columns, "0.groups": "code" },
    numbers: { "1.level": level },
    outcomes: {
      "no-rows": ["no rows"],
      "too-few-sites": ["one row", "two rows", "one row, censored"],
      "one-group": ["all rows alike", "one group only"],
      "no-rows + no-variance": ["time zero throughout"],
      "no-variance": ["an event at time zero"],
    },
  },
  {
    name: "smallStudyAsymmetry",
    of: pooling.smallStudyAsymmetry,
    subjects: ["times", "readings"],
    given: (cohort) => [sites(cohort), {}],
    columns,
    numbers: { "1.level": level },
    outcomes: {
      "too-few-sites": ["no rows", "one row", "two rows", "one row, censored"],
      "no-variance": [
        "all rows alike",
        "a single time",
        "everybody has the event at one time",
        "an event at time zero",
        "a single value throughout",
      ],
      "no-variance + too-few-sites": ["time zero throughout"],
    },
  },
  {
    name: "pooledShare",
    of: pooling.pooledShare,
    subjects: ["times", "states"],
    given: (cohort) => [shares(cohort), {}],
    columns: shareColumns,
    numbers: { "1.level": level },
    outcomes: {
      "no-rows": ["no rows", "time zero throughout", "an event at time zero"],
      "too-few-sites": ["one row", "two rows", "one row, censored"],
      "no-events": ["all rows alike", "one state only"],
    },
  },
  {
    name: "furtherSite",
    of: pooling.furtherSite,
    subjects: ["times", "readings"],
    given: (cohort) => [sites(cohort), {}],
    columns,
    numbers: { "1.level": level },
    outcomes: {
      "no-rows": ["no rows"],
      "too-few-sites": ["one row", "two rows", "one row, censored"],
      "no-rows + no-variance": ["time zero throughout"],
      "no-variance": ["an event at time zero"],
    },
  },
  {
    name: "furtherSiteShare",
    of: pooling.furtherSiteShare,
    subjects: ["times", "states"],
    given: (cohort) => [shares(cohort), {}],
    columns: shareColumns,
    numbers: { "1.level": level },
    outcomes: {
      "no-rows": ["no rows", "time zero throughout", "an event at time zero"],
      "too-few-sites": ["one row", "two rows", "one row, censored"],
      "no-events": ["all rows alike", "one state only"],
    },
  },
  {
    name: "logOddsOfShares",
    of: pooling.logOddsOfShares,
    subjects: ["times", "states"],
    given: (cohort) => [shares(cohort)],
    columns: shareColumns,
    // a site without counts, as the doc comment says
    nulls: ["estimates[]", "variances[]"],
    outcomes: {},
  },
  {
    name: "differencesOfShares",
    of: pooling.differencesOfShares,
    subjects: ["times", "states"],
    given: (cohort) => [{ a: shares(cohort), b: { ...shares(cohort), sizes: pick(cohort.records, "time") } }],
    columns: {
      "0.a.events": "site share",
      "0.a.sizes": "site share",
      "0.b.events": "site share",
      "0.b.sizes": "site share",
    },
    // a site without counts, as the doc comment says
    nulls: ["estimates[]", "variances[]"],
    outcomes: {},
  },
  {
    name: "logMedians",
    of: pooling.logMedians,
    subjects: ["times"],
    given: (cohort) => [medians(cohort), {}],
    columns: { "0.medians": "median time", "0.lower": "median time", "0.upper": "median time" },
    numbers: { "1.level": level },
    outcomes: {},
  },
];
