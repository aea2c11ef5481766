import * as fc from "fast-check";
import type { TimeToEvent } from "../../../src/statistics/index.js";

/** Every property runs on the same draws. */
export const settings = { seed: 2024, numRuns: 150 } as const;

export interface CohortRow {
  readonly time: number;
  readonly event: number;
  readonly group: number;
  readonly stratum: number;
  readonly x: number;
}

/** Whole days with ties, group and stratum of each row, one numeric covariate. */
export const row: fc.Arbitrary<CohortRow> = fc.record({
  time: fc.integer({ min: 0, max: 40 }),
  event: fc.integer({ min: 0, max: 1 }),
  group: fc.integer({ min: 0, max: 1 }),
  stratum: fc.integer({ min: 0, max: 2 }),
  x: fc.integer({ min: -5, max: 5 }),
});

export const cohort = fc.array(row, { minLength: 1, maxLength: 40 });
/** Large enough for regressions to have a maximum nearly always. */
export const largeCohort = fc.array(row, { minLength: 30, maxLength: 60 });

export const columns = (rows: readonly CohortRow[]): TimeToEvent => ({
  times: rows.map((one) => one.time),
  events: rows.map((one) => one.event),
});

/** Equal up to rounding. */
export function near(a: number | null | undefined, b: number | null | undefined, relative = 1e-9): boolean {
  if (a == null || b == null) return a === b;
  return Math.abs(a - b) <= 1e-12 + relative * Math.max(Math.abs(a), Math.abs(b));
}

export const allNear = (
  a: readonly (number | null)[],
  b: readonly (number | null)[],
  relative = 1e-9,
): boolean => a.length === b.length && a.every((value, at) => near(value, b[at], relative));
