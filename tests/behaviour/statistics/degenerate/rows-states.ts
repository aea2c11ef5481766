import * as rates from "../../../../src/statistics/rates/index.js";
import * as states from "../../../../src/statistics/states/index.js";
import type { Cohort, Rec } from "./cases.js";
import { entries, entryColumn, inGroup, personColumn, persons } from "./columns.js";
import { horizonOption, level, pick, type Row, timeOption } from "./row.js";

/** Everybody begins in state 0 and moves to that of the event, if there was one. */
const stays = (records: readonly Rec[]) => ({
  times: pick(records, "time"),
  from: records.map(() => 0),
  to: pick(records, "cause"),
  subjects: records.map((_, row) => row),
});
const stayColumns = {
  "0.times": "not negative",
  "0.from": "count",
  "0.to": "count",
  "0.subjects": "code",
} as const;
const walk = {
  subjects: ["times", "causes", "persons"],
  optional: { ...entries, ...persons },
  columns: { ...stayColumns, ...entryColumn, ...personColumn },
} as const;
const countOf = (records: readonly Rec[]) => ({
  events: records.reduce((sum, { event }) => sum + event, 0),
  personTime: records.reduce((sum, { time }) => sum + time, 0),
});
const notNegative = [-1, Number.NaN, Number.POSITIVE_INFINITY, null, undefined] as const;
const bothGroups = (cohort: Cohort) => [0, 1].map((group) => inGroup(cohort, group)) as [Rec[], Rec[]];

export const stateRows: readonly Row[] = [
  {
    ...walk,
    name: "stateProbabilities",
    of: states.stateProbabilities,
    given: ({ records }) => [stays(records), {}],
    numbers: { "1.level": level },
    nulls: ["lastTime", "states[].lower[]", "states[].upper[]"],
    outcomes: {},
  },
  {
    name: "stateAt",
    of: states.stateAt,
    subjects: ["times", "causes", "horizon"],
    given: ({ records, at }) => [states.stateProbabilities(stays(records)), { time: at, state: 1 }],
    columns: {},
    numbers: { "1.time": timeOption, "1.state": [-1, 0.5, Number.NaN, null] },
    outcomes: {
      "no-rows": ["no rows"],
      "beyond-follow-up": [
        "a single time",
        "time zero throughout",
        "horizon beyond follow-up",
        "one row, censored",
      ],
    },
  },
  {
    ...walk,
    name: "timeInStates",
    of: states.timeInStates,
    subjects: [...walk.subjects, "horizon"],
    given: ({ records, horizon }) => [stays(records), { horizon }],
    numbers: { "1.horizon": horizonOption, "1.level": level },
    outcomes: {
      "no-rows": ["no rows"],
      "no-events": ["all censored", "one row, censored"],
      // all move at once, or are one person's: nothing tells how sure the mean is
      "no-variance": ["one row", "all rows alike", "everybody has the event at one time", "one person only"],
    },
  },
  {
    name: "stateContrast",
    of: states.stateContrast,
    subjects: ["times", "causes", "groups", "horizon"],
    given: (cohort) => {
      const [a, b] = bothGroups(cohort).map((records) => states.stateProbabilities(stays(records)));
      return [
        { a, b },
        { state: 1, times: [0, cohort.at] },
      ];
    },
    columns: { "1.times": "not negative" },
    ofAnyLength: ["1.times"],
    numbers: { "1.state": [-1, 0.5, Number.NaN, null], "1.level": level },
    outcomes: {
      "no-rows": ["no rows", "one row", "all rows alike", "one group only", "a group number passed over"],
      "beyond-follow-up": [
        "a single time",
        "time zero throughout",
        "horizon beyond follow-up",
        "one group censored before the other's events",
        "the common incidence passes 1",
        "values alike within each group",
      ],
      "beyond-follow-up + no-rows": ["one row, censored"],
    },
  },
  {
    name: "eventRate",
    of: rates.eventRate,
    subjects: ["times"],
    given: ({ records }) => [countOf(records), {}],
    columns: {},
    numbers: { "0.events": notNegative, "0.personTime": notNegative, "1.level": level },
    outcomes: {
      "no-rows": ["no rows", "time zero throughout"],
    },
  },
  {
    name: "rateRatio",
    of: rates.rateRatio,
    subjects: ["times", "groups"],
    given: (cohort) => {
      const [a, b] = bothGroups(cohort).map(countOf);
      return [{ a, b }, {}];
    },
    columns: {},
    numbers: { "0.a.events": notNegative, "0.b.personTime": notNegative, "1.level": level },
    called: { "0.a.events": "a.events", "0.b.personTime": "b.personTime" },
    outcomes: {
      "no-rows": [
        "no rows",
        "one row",
        "all rows alike",
        "one row, censored",
        "time zero throughout",
        "one group only",
        "a group number passed over",
      ],
      "no-events": ["all censored"],
      "not-positive": ["a group without an event"],
    },
  },
  {
    name: "clusteredRate",
    of: rates.clusteredRate,
    subjects: ["times", "persons"],
    given: ({ records }) => [
      {
        events: pick(records, "event"),
        personTimes: pick(records, "time"),
        clusters: pick(records, "person"),
      },
      {},
    ],
    columns: { "0.events": "count", "0.personTimes": "not negative", "0.clusters": "code" },
    numbers: { "1.level": level },
    outcomes: {
      "no-rows": ["no rows", "time zero throughout"],
      "too-few-rows": ["one row", "two rows", "all rows alike", "one row, censored", "one person only"],
    },
  },
];
