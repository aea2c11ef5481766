/** One invented record; every function of the table takes the columns that it needs. SYNTHETIC. */
export interface Rec {
  readonly time: number;
  readonly event: number;
  /** 0 censored, 1 and 2 competing events; 0 exactly where `event` is 0 */
  readonly cause: number;
  readonly group: number;
  readonly x: number;
  readonly z: number;
  /** two readings, and a state that either may tell */
  readonly first: number;
  readonly second: number;
  readonly state: number;
  /** place among three categories, by two raters */
  readonly category: number;
  readonly again: number;
  readonly person: number;
  readonly stratum: number;
  readonly weight: number;
}

/** What a case is about: a function is put to it only where its data have that. */
export type Subject =
  | "rows"
  | "times"
  | "causes"
  | "groups"
  | "covariates"
  | "states"
  | "readings"
  | "categories"
  | "weights"
  | "persons"
  | "strata"
  | "horizon";

export interface Cohort {
  readonly records: readonly Rec[];
  /** Time asked about, and horizon of means. */
  readonly at: number;
  readonly horizon: number;
}

const column = {
  time: [2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 14],
  event: [1, 1, 0, 1, 1, 0, 1, 1, 0, 1, 1, 0],
  cause: [1, 2, 0, 1, 1, 0, 2, 1, 0, 1, 2, 0],
  group: [0, 1, 0, 1, 0, 0, 1, 1, 0, 1, 0, 1],
  x: [1.2, 0.4, 2.2, 1.9, 0.3, 2.8, 1.1, 0.7, 2.4, 1.6, 0.9, 2.1],
  z: [0, 1, 1, 0, 1, 0, 0, 1, 1, 0, 0, 1],
  first: [2.1, 3.4, 1.7, 4.2, 3.9, 2.6, 1.2, 4.8, 3.1, 2.9, 2.3, 3.6],
  second: [2.4, 3.1, 1.9, 4.6, 3.5, 2.2, 1.5, 4.9, 3.3, 2.4, 2.8, 3.7],
  state: [0, 1, 0, 1, 0, 0, 0, 1, 1, 0, 1, 1],
  category: [0, 1, 0, 2, 1, 0, 0, 2, 1, 1, 0, 2],
  again: [0, 1, 0, 2, 2, 0, 1, 2, 1, 0, 0, 1],
  person: [1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 6],
  stratum: [0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 1, 1],
} as const;

export const wellFormed: Cohort = {
  records: column.time.map((_, row) => ({
    time: column.time[row]!,
    event: column.event[row]!,
    cause: column.cause[row]!,
    group: column.group[row]!,
    x: column.x[row]!,
    z: column.z[row]!,
    first: column.first[row]!,
    second: column.second[row]!,
    state: column.state[row]!,
    category: column.category[row]!,
    again: column.again[row]!,
    person: column.person[row]!,
    stratum: column.stratum[row]!,
    weight: 1,
  })),
  at: 7,
  horizon: 10,
};

const each = (change: (record: Rec, row: number) => Partial<Rec>): Cohort => ({
  ...wellFormed,
  records: wellFormed.records.map((record, row) => ({ ...record, ...change(record, row) })),
});
const only = (keep: (record: Rec, row: number) => boolean): Cohort => ({
  ...wellFormed,
  records: wellFormed.records.filter(keep),
});

/** The columns of the table: every degenerate, but well-formed, cohort. */
export const cases = {
  "nothing wrong": { subject: "rows", cohort: wellFormed },
  "every column that may be left out": { subject: "rows", cohort: wellFormed },
  "no rows": { subject: "rows", cohort: only(() => false) },
  "one row": { subject: "rows", cohort: only((_, row) => row === 0) },
  "two rows": { subject: "rows", cohort: only((_, row) => row < 2) },
  "all rows alike": { subject: "rows", cohort: each(() => wellFormed.records[0]!) },
  "ties everywhere": {
    subject: "rows",
    cohort: each((record, row) => ({
      time: row % 4 < 2 ? 4 : 9,
      first: Math.round(record.first),
      second: Math.round(record.second),
    })),
  },
  "all censored": { subject: "times", cohort: each(() => ({ event: 0, cause: 0 })) },
  "nobody censored": {
    subject: "times",
    cohort: each(({ cause }) => ({ event: 1, cause: cause === 0 ? 1 : cause })),
  },
  "all events at one time": {
    subject: "times",
    cohort: each(({ event, time }) => ({ time: event === 1 ? 5 : time })),
  },
  "a single time": { subject: "times", cohort: each(() => ({ time: 5 })) },
  "time zero throughout": { subject: "times", cohort: each(() => ({ time: 0 })) },
  "one row, censored": { subject: "times", cohort: only((_, row) => row === 2) },
  "everybody has the event at one time": {
    subject: "times",
    cohort: each(() => ({ time: 5, event: 1, cause: 1 })),
  },
  "times in a huge unit": {
    subject: "times",
    cohort: { ...each(({ time }) => ({ time: time * 1e9 })), at: 7e9, horizon: 10e9 },
  },
  "an event at time zero": {
    subject: "times",
    cohort: each((_, row) => (row < 2 ? { time: 0 } : {})),
  },
  "one cause only": {
    subject: "causes",
    cohort: each(({ event }) => ({ cause: event })),
  },
  "the cause asked for never seen": {
    subject: "causes",
    cohort: each(({ event }) => ({ cause: event * 2 })),
  },
  "one group only": { subject: "groups", cohort: each(() => ({ group: 0 })) },
  "a group without an event": {
    subject: "groups",
    cohort: each(({ group, event, cause }) => ({
      event: group === 1 ? 0 : event,
      cause: group === 1 ? 0 : cause,
    })),
  },
  "a group of one row": { subject: "groups", cohort: each((_, row) => ({ group: row === 3 ? 1 : 0 })) },
  "a group number passed over": {
    subject: "groups",
    cohort: each(({ group }) => ({ group: group * 2 })),
  },
  "one group after the other": {
    subject: "groups",
    cohort: each((_, row) => ({ group: row < 6 ? 0 : 1, event: 1, cause: 1 })),
  },
  "one group censored before the other's events": {
    subject: "groups",
    cohort: each(({ group }) => (group === 0 ? { time: 1, event: 0, cause: 0 } : {})),
  },
  "the common incidence passes 1": {
    subject: "groups",
    cohort: {
      ...wellFormed,
      records: Array.from({ length: 16 }, (_, row) => ({
        ...wellFormed.records[row % wellFormed.records.length]!,
        time: row < 9 ? 1 : row - 7,
        event: row === 9 ? 0 : 1,
        cause: row === 9 ? 0 : 1,
        group: row < 10 ? 0 : 1,
      })),
    },
  },
  "values alike within each group": {
    subject: "groups",
    cohort: each(({ group }) => ({ time: 3 + 5 * group, first: 1 + group, second: 1 + group })),
  },
  "constant covariate": { subject: "covariates", cohort: each(() => ({ z: 7 })) },
  "collinear covariates": { subject: "covariates", cohort: each(({ x }) => ({ z: 3 - 2 * x })) },
  "a covariate tells the outcome": {
    subject: "covariates",
    cohort: each(({ time, state }) => ({ x: -time, z: state })),
  },
  "a covariate almost tells the outcome": {
    subject: "covariates",
    cohort: each(({ state }, row) => ({ z: row === 1 ? 1 - state : state })),
  },
  "a covariate in a huge unit": { subject: "covariates", cohort: each(({ x }) => ({ x: -x * 1e12 })) },
  "a covariate far from zero": { subject: "covariates", cohort: each(({ x }) => ({ x: 100 + x })) },
  "one state only": { subject: "states", cohort: each(() => ({ state: 0 })) },
  "the other state only": { subject: "states", cohort: each(() => ({ state: 1 })) },
  "the reading tells the state": {
    subject: "states",
    cohort: each(({ state, first }) => ({ first: first + 10 * state, second: first + 20 * state })),
  },
  "a single value throughout": { subject: "readings", cohort: each(() => ({ first: 3, second: 3 })) },
  "readings agree exactly": { subject: "readings", cohort: each(({ first }) => ({ second: first })) },
  "readings differ by a constant": {
    subject: "readings",
    cohort: each(({ first }) => ({ second: first + 0.7 })),
  },
  "large readings that differ by little": {
    subject: "readings",
    cohort: each(({ first, second }) => ({
      first: 1e12 + Math.round(first),
      second: 1e12 + Math.round(second),
    })),
  },
  "one category only": { subject: "categories", cohort: each(() => ({ category: 1, again: 1 })) },
  "a category that nobody chose": {
    subject: "categories",
    cohort: each(({ category, again }) => ({
      category: Math.min(category, 1),
      again: Math.min(again, 1),
    })),
  },
  "a weight of zero": { subject: "weights", cohort: each((_, row) => ({ weight: row === 1 ? 0 : 1 })) },
  "all weights zero": { subject: "weights", cohort: each(() => ({ weight: 0 })) },
  "one person only": { subject: "persons", cohort: each(() => ({ person: 1 })) },
  "two persons only": { subject: "persons", cohort: each((_, row) => ({ person: row < 6 ? 1 : 2 })) },
  "each row its own person": { subject: "persons", cohort: each((_, row) => ({ person: row })) },
  "each row its own stratum": { subject: "strata", cohort: each((_, row) => ({ stratum: row })) },
  "horizon beyond follow-up": { subject: "horizon", cohort: { ...wellFormed, at: 500, horizon: 1000 } },
} as const satisfies Record<string, { subject: Subject; cohort: Cohort }>;

export type Case = keyof typeof cases;
