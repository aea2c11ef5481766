import * as comparison from "../../../../src/statistics/comparison/index.js";
import * as statistics from "../../../../src/statistics/index.js";
import * as bands from "../../../../src/statistics/survival/bands/index.js";
import {
  curve,
  entries,
  entryColumn,
  groupColumns,
  grouped,
  inGroup,
  personColumn,
  persons,
  strata,
  strataColumn,
  times,
  whole,
  wholeColumns,
} from "./columns.js";
import { drawsOption, horizonOption, level, pick, type Row, seedOption } from "./row.js";

export const groupRows: readonly Row[] = [
  {
    name: "logRank",
    of: statistics.logRank,
    subjects: ["times", "groups", "persons", "strata"],
    given: ({ records }) => [grouped(records)],
    optional: { ...entries, ...persons, ...strata },
    columns: { ...groupColumns, ...entryColumn, ...personColumn, ...strataColumn },
    outcomes: {
      "no-rows": ["no rows"],
      "one-group": ["one row", "all rows alike", "one group only", "one row, censored"],
      "no-events": ["all censored"],
      "no-variance": [
        "each row its own stratum",
        "everybody has the event at one time",
        "one group censored before the other's events",
      ],
      "too-few-rows": ["one person only"],
    },
  },
  {
    name: "logRankTrend",
    of: statistics.logRankTrend,
    subjects: ["times", "groups", "persons", "strata"],
    given: ({ records }) => [grouped(records), {}],
    optional: { ...entries, ...persons, ...strata },
    columns: { ...groupColumns, ...entryColumn, ...personColumn, ...strataColumn },
    outcomes: {
      "no-rows": ["no rows"],
      "one-group": ["one row", "all rows alike", "one group only", "one row, censored"],
      "no-events": ["all censored"],
      "no-variance": [
        "each row its own stratum",
        "everybody has the event at one time",
        "one group censored before the other's events",
      ],
      "too-few-rows": ["one person only"],
    },
  },
  {
    name: "oneStepHazardRatio",
    of: comparison.oneStepHazardRatio,
    subjects: ["times", "groups", "strata"],
    given: ({ records }) => [grouped(records), {}],
    optional: { ...entries, ...strata },
    columns: { ...groupColumns, ...entryColumn, ...strataColumn },
    numbers: { "1.level": level },
    outcomes: {
      "no-rows": ["no rows"],
      "one-group": ["one row", "all rows alike", "one group only", "one row, censored"],
      "no-events": ["all censored"],
      "no-variance": [
        "each row its own stratum",
        "everybody has the event at one time",
        "one group censored before the other's events",
      ],
    },
  },
  {
    name: "permutedLogRank",
    of: statistics.permutedLogRank,
    subjects: ["times", "groups", "strata"],
    given: ({ records }) => [grouped(records), { seed: 1, draws: 20, method: "random" }],
    optional: { ...entries, ...strata, "0.clusters": (records) => records.map((_, row) => row) },
    columns: { ...groupColumns, ...entryColumn, ...personColumn, ...strataColumn },
    numbers: { "1.seed": seedOption, "1.draws": drawsOption },
    outcomes: {
      "no-rows": ["no rows"],
      "one-group": ["one row", "all rows alike", "one group only", "one row, censored"],
      "no-events": ["all censored"],
      "no-variance": ["each row its own stratum", "everybody has the event at one time"],
    },
  },
  {
    name: "landmarkContrast",
    of: statistics.landmarkContrast,
    subjects: ["times", "groups", "horizon"],
    given: (cohort) => [
      { a: curve(inGroup(cohort, 0)), b: curve(inGroup(cohort, 1)) },
      { times: [cohort.at] },
    ],
    columns: { "1.times": "not negative" },
    ofAnyLength: ["1.times"],
    numbers: { "1.level": level },
    outcomes: {
      "no-rows": ["no rows", "one group only", "a group number passed over"],
      "all-returned + no-rows": ["one row", "all rows alike"],
      "all-returned + no-variance": ["two rows", "a group of one row", "everybody has the event at one time"],
      "no-events + no-variance + not-positive": ["all censored"],
      "beyond-follow-up": [
        "a single time",
        "time zero throughout",
        "one group censored before the other's events",
        "the common incidence passes 1",
      ],
      "no-events + not-positive": ["a group without an event"],
      "all-returned + beyond-follow-up": ["horizon beyond follow-up"],
      "beyond-follow-up + no-events": ["values alike within each group"],
      "all-returned + no-events + no-variance + not-positive": ["one group after the other"],
      "beyond-follow-up + no-rows": ["one row, censored"],
    },
  },
  {
    name: "restrictedMeanContrast",
    of: statistics.restrictedMeanContrast,
    subjects: ["times", "groups", "horizon"],
    given: (cohort) => [
      { a: times(inGroup(cohort, 0)), b: times(inGroup(cohort, 1)) },
      { horizon: cohort.horizon },
    ],
    columns: {
      "0.a.times": "not negative",
      "0.a.events": "zero or one",
      "0.b.times": "not negative",
      "0.b.events": "zero or one",
    },
    numbers: { "1.level": level, "1.horizon": horizonOption },
    outcomes: {
      "no-rows": ["no rows", "one group only", "a group number passed over"],
      "no-rows + no-variance": ["one row", "all rows alike"],
      "no-variance": ["two rows", "a group of one row", "everybody has the event at one time"],
      "no-events + no-variance + not-positive": ["all censored"],
      "no-events + not-positive": [
        "a group without an event",
        "one group censored before the other's events",
      ],
      "no-events + no-rows": ["one row, censored"],
    },
  },
  {
    name: "standardisedCurves",
    of: statistics.standardisedCurves,
    subjects: ["times", "groups", "strata", "weights", "horizon"],
    given: ({ records, at, horizon }) => [
      { ...grouped(records), strata: pick(records, "stratum") },
      { horizon, times: [Math.min(at, horizon)], smallest: 1 },
    ],
    optional: whole,
    columns: {
      ...wholeColumns,
      "0.groups": "zero or one",
      ...strataColumn,
      "1.times": "not negative",
    },
    ofAnyLength: ["1.times"],
    mayBeLeftOut: ["1.times"],
    numbers: { "1.level": level, "1.horizon": horizonOption, "1.smallest": [0.5, -1, Number.NaN] },
    outcomes: {
      "beyond-follow-up + no-variance": [
        "nothing wrong",
        "all censored",
        "an event at time zero",
        "a group without an event",
        "a weight of zero",
        "times in a huge unit",
        "the common incidence passes 1",
      ],
      "no-variance": ["every column that may be left out", "two rows", "everybody has the event at one time"],
      "no-rows": ["no rows", "all weights zero"],
      "no-overlap + too-few-rows": [
        "one row",
        "all rows alike",
        "one group only",
        "each row its own stratum",
        "one row, censored",
        "one group after the other",
      ],
      "beyond-follow-up + no-overlap": [
        "ties everywhere",
        "a single time",
        "time zero throughout",
        "horizon beyond follow-up",
        "one group censored before the other's events",
        "values alike within each group",
      ],
      "beyond-follow-up": ["all events at one time"],
      "beyond-follow-up + no-overlap + too-few-rows": ["a group of one row"],
      "! groups[1]": ["a group number passed over"],
    },
  },
  {
    name: "differenceBand",
    of: bands.differenceBand,
    subjects: ["times", "groups", "strata", "weights", "persons", "horizon"],
    given: ({ records, at, horizon }) => [
      { ...grouped(records), strata: pick(records, "stratum") },
      { horizon, times: [Math.min(at, horizon)], smallest: 1, seed: 1, draws: 100 },
    ],
    optional: whole,
    columns: {
      ...wholeColumns,
      "0.groups": "zero or one",
      ...strataColumn,
      "1.times": "not negative",
    },
    ofAnyLength: ["1.times"],
    nulls: ["points[].bandLower", "points[].bandUpper"],
    numbers: {
      "1.level": level,
      "1.horizon": horizonOption,
      "1.smallest": [0.5, -1, Number.NaN],
      "1.seed": [...seedOption, undefined],
      "1.draws": drawsOption,
    },
    outcomes: {
      "! groups[1]": ["a group number passed over"],
      "beyond-follow-up + no-overlap + too-few-rows": ["a group of one row"],
      "beyond-follow-up + no-events": ["a group without an event", "all censored"],
      "beyond-follow-up + no-overlap": [
        "a single time",
        "horizon beyond follow-up",
        "one group censored before the other's events",
        "ties everywhere",
        "time zero throughout",
        "values alike within each group",
      ],
      "beyond-follow-up + no-variance": [
        "a weight of zero",
        "an event at time zero",
        "each row its own person",
        "nothing wrong",
        "times in a huge unit",
      ],
      "beyond-follow-up": ["all events at one time", "the common incidence passes 1"],
      "no-overlap + too-few-rows": [
        "all rows alike",
        "each row its own stratum",
        "one group after the other",
        "one group only",
        "one row",
        "one row, censored",
      ],
      "no-rows": ["all weights zero", "no rows"],
      "no-variance": [
        "every column that may be left out",
        "everybody has the event at one time",
        "nobody censored",
      ],
      "beyond-follow-up + too-few-rows": ["one person only", "two persons only"],
      "too-few-rows": ["two rows"],
    },
  },
  {
    name: "differenceOf",
    of: statistics.differenceOf,
    subjects: ["times", "groups", "horizon"],
    given: (cohort) => [
      statistics.restrictedMean(times(inGroup(cohort, 0)), { horizon: cohort.horizon }),
      statistics.restrictedMean(times(inGroup(cohort, 1)), { horizon: cohort.horizon }),
      {},
    ],
    columns: {},
    numbers: {
      "2.level": level,
      "0.estimate": [Number.NaN, Number.POSITIVE_INFINITY],
      "1.standardError": [-1, Number.NaN, Number.POSITIVE_INFINITY],
    },
    called: { "0.estimate": "a.estimate", "1.standardError": "b.standardError" },
    outcomes: {
      "no-rows": [
        "no rows",
        "one row",
        "all rows alike",
        "one group only",
        "a group number passed over",
        "one row, censored",
      ],
      "no-variance": ["two rows", "all censored", "everybody has the event at one time"],
    },
  },
  {
    name: "ratioOf",
    of: statistics.ratioOf,
    subjects: ["times", "groups", "horizon"],
    given: (cohort) => [
      statistics.restrictedMean(times(inGroup(cohort, 0)), { horizon: cohort.horizon }),
      statistics.restrictedMean(times(inGroup(cohort, 1)), { horizon: cohort.horizon }),
      {},
    ],
    columns: {},
    numbers: {
      "2.level": level,
      "0.estimate": [Number.NaN, Number.POSITIVE_INFINITY],
      "1.standardError": [-1, Number.NaN, Number.POSITIVE_INFINITY],
    },
    called: { "0.estimate": "a.estimate", "1.standardError": "b.standardError" },
    outcomes: {
      "no-rows": [
        "no rows",
        "one row",
        "all rows alike",
        "one group only",
        "a group number passed over",
        "one row, censored",
      ],
      "no-variance": ["two rows", "all censored", "everybody has the event at one time"],
    },
  },
  {
    name: "studentInterval",
    of: statistics.studentInterval,
    subjects: ["groups", "readings"],
    given: (cohort) => {
      const { difference, standardError } = statistics.studentT({
        a: pick(inGroup(cohort, 0), "first"),
        b: pick(inGroup(cohort, 1), "first"),
      });
      return [
        { estimate: difference ?? 0, standardError: standardError ?? 0 },
        { units: cohort.records.length, curves: 2 },
      ];
    },
    columns: {},
    numbers: {
      "0.estimate": [Number.NaN, Number.POSITIVE_INFINITY, null],
      "0.standardError": [-1, Number.NaN, null],
      "1.units": [-1, 0.5, Number.NaN, null],
      "1.curves": [-1, 0.5, Number.NaN, null],
      "1.level": level,
    },
    outcomes: {
      "no-variance": [
        "no rows",
        "one row",
        "two rows",
        "all rows alike",
        "one group only",
        "a group number passed over",
        "a single value throughout",
        "values alike within each group",
      ],
    },
  },
  {
    name: "meanTimeInterval",
    of: statistics.meanTimeInterval,
    subjects: ["times", "horizon"],
    given: ({ records, horizon }) => {
      const { estimate, standardError } = statistics.restrictedMean(times(records), { horizon });
      return [
        { estimate: estimate ?? 0, standardError: standardError ?? 0 },
        { horizon, units: records.length, curves: 1 },
      ];
    },
    columns: {},
    numbers: {
      "0.estimate": [-1, Number.NaN, Number.POSITIVE_INFINITY, null],
      "0.standardError": [-1, Number.NaN, null],
      "1.units": [-1, 0.5, Number.NaN, null],
      "1.curves": [-1, 0.5, Number.NaN, null],
      "1.horizon": horizonOption,
      "1.level": level,
    },
    nulls: ["p"],
    outcomes: {
      "no-variance": [
        "no rows",
        "one row",
        "all rows alike",
        "all censored",
        "one row, censored",
        "everybody has the event at one time",
      ],
    },
  },
  {
    name: "shareInterval",
    of: statistics.shareInterval,
    subjects: ["times"],
    given: (cohort) => {
      const { returned, standardError, atRisk } = statistics.shareAt(curve(cohort.records), cohort.at);
      return [{ returned: returned ?? 0, standardError, atRisk, n: cohort.records.length }, {}];
    },
    columns: {},
    numbers: {
      "0.returned": [-0.1, 1.1, Number.NaN, null],
      "0.standardError": [-1, Number.NaN],
      "0.n": [-1, Number.NaN, null],
      "1.level": level,
    },
    called: { "0.returned": "share.returned", "0.standardError": "share.standardError", "0.n": "share.n" },
    outcomes: { "no-rows": ["no rows", "a single time", "one row, censored", "time zero throughout"] },
  },
  {
    name: "shareDifference",
    of: statistics.shareDifference,
    subjects: ["times", "groups"],
    given: (cohort) => {
      const point = (group: number) => {
        const own = inGroup(cohort, group);
        const { returned, standardError, atRisk } = statistics.shareAt(curve(own), cohort.at);
        return { returned: returned ?? 0, standardError, atRisk, n: own.length };
      };
      return [point(0), point(1), {}];
    },
    columns: {},
    numbers: {
      "0.returned": [-0.1, 1.1, Number.NaN, null],
      "1.standardError": [-1, Number.NaN],
      "0.n": [-1, Number.NaN, null],
      "2.level": level,
    },
    called: { "0.returned": "a.returned", "1.standardError": "b.standardError", "0.n": "a.n" },
    outcomes: {
      "no-rows": [
        "no rows",
        "one row",
        "all rows alike",
        "a single time",
        "time zero throughout",
        "one group only",
        "a group number passed over",
        "one row, censored",
        "one group censored before the other's events",
        "the common incidence passes 1",
        "values alike within each group",
      ],
    },
  },
];
