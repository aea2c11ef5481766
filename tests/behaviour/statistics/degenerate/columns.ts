import * as statistics from "../../../../src/statistics/index.js";
import type { Cohort, Rec } from "./cases.js";
import { iterationsOption, pick, toleranceOption } from "./row.js";

export const times = (records: readonly Rec[]) => ({
  times: pick(records, "time"),
  events: pick(records, "event"),
});
export const causes = (records: readonly Rec[]) => ({
  times: pick(records, "time"),
  causes: pick(records, "cause"),
});
export const grouped = (records: readonly Rec[]) => ({ ...times(records), groups: pick(records, "group") });
export const inGroup = ({ records }: Cohort, group: number) =>
  records.filter((record) => record.group === group);
export const curve = (records: readonly Rec[]) => statistics.productLimit(times(records));
export const covariates = (records: readonly Rec[]) => ({
  names: ["x", "z"],
  columns: [pick(records, "x"), pick(records, "z")],
});
export const timeColumns = { "0.times": "not negative", "0.events": "zero or one" } as const;
export const causeColumns = { "0.times": "not negative", "0.causes": "count" } as const;
export const groupColumns = { ...timeColumns, "0.groups": "code" } as const;
export const covariateColumns = {
  "0.covariates.columns.0": ["finite", 'covariate "x"'],
  "0.covariates.columns.1": ["finite", 'covariate "z"'],
} as const;
export const entries = {
  "0.entries": (records: readonly Rec[]) => records.map(({ time }) => time - 1.5),
} as const;
export const weights = { "0.weights": (records: readonly Rec[]) => pick(records, "weight") } as const;
export const persons = { "0.clusters": (records: readonly Rec[]) => pick(records, "person") } as const;
export const strata = { "0.strata": (records: readonly Rec[]) => pick(records, "stratum") } as const;
export const entryColumn = { "0.entries": "finite" } as const;
export const weightColumn = { "0.weights": "not negative" } as const;
export const personColumn = { "0.clusters": "code" } as const;
export const strataColumn = { "0.strata": "code" } as const;
export const whole = { ...entries, ...weights, ...persons } as const;
export const wholeColumns = { ...timeColumns, ...entryColumn, ...weightColumn, ...personColumn } as const;
/** Looked at every other day: the event lies in (left, right]. */
export const looked = (records: readonly Rec[]) => ({
  left: records.map(({ time, event }) => (event === 1 ? Math.max(0, time - 1) : time)),
  right: records.map(({ time, event }) => (event === 1 ? time + 1 : null)),
});
export const ends = { "0.left": "end of an interval", "0.right": "end of an interval" } as const;
export const ascent = { "1.maximumIterations": iterationsOption, "1.tolerance": toleranceOption } as const;
export const count = (records: readonly Rec[], keep: (record: Rec) => boolean) => records.filter(keep).length;
export const byState = (records: readonly Rec[]) => [
  count(records, ({ state }) => state === 1),
  count(records, ({ state }) => state === 0),
];
