import { logRank, productLimit, shareAt } from "../../src/statistics/index.js";
import type { BenchCase } from "./case.js";
import { type BenchCohort, cohortOf } from "./cohort.js";

const fit = { name: "R survival, fitter on prepared arrays", size: 100_000 };
const growth = [10_000, 1_000_000] as const;

/** Times and events of one group. */
function ofGroup(
  cohort: BenchCohort,
  { group, times }: { readonly group: number; readonly times: Float64Array },
) {
  const rows = Array.from(cohort.group.keys()).filter((row) => cohort.group[row] === group);
  return {
    times: Float64Array.from(rows, (row) => times[row]!),
    events: Uint8Array.from(rows, (row) => cohort.status[row]!),
  };
}

const curvesOf = (timesOf: (cohort: BenchCohort) => Float64Array) => (n: number) => {
  const cohort = cohortOf(n);
  const groups = [0, 1].map((group) => ofGroup(cohort, { group, times: timesOf(cohort) }));
  return () =>
    groups.flatMap((columns) => {
      const { notYet, standardError } = shareAt(productLimit(columns), 365);
      return [notYet!, standardError!];
    });
};

const testOf = (timesOf: (cohort: BenchCohort) => Float64Array) => (n: number) => {
  const cohort = cohortOf(n);
  const columns = { times: timesOf(cohort), events: cohort.status, groups: cohort.group };
  return () => [logRank(columns).chiSquare!];
};

const byDay = ({ day }: BenchCohort) => day;
const byTime = ({ time }: BenchCohort) => time;

export const curveCases: readonly BenchCase[] = [
  {
    name: "km2",
    what: "two curves with standard errors and limits, whole days",
    peer: fit,
    target: 0.06,
    growth,
    checked: {
      at: 10_000,
      values: [0.357247440348, 0.00731324435957, 0.242327777893, 0.00662106404968],
      tolerance: 1e-9,
    },
    prepare: curvesOf(byDay),
  },
  {
    name: "km2cont",
    what: "the same, times nearly untied",
    peer: fit,
    target: 0.35,
    growth,
    checked: null,
    prepare: curvesOf(byTime),
  },
  {
    name: "logrank2",
    what: "log-rank test of two groups, whole days",
    peer: fit,
    target: 0.06,
    growth,
    checked: { at: 10_000, values: [208.711336646], tolerance: 1e-9 },
    prepare: testOf(byDay),
  },
  {
    name: "logrank2cont",
    what: "the same, times nearly untied",
    peer: fit,
    target: 0.35,
    growth,
    checked: { at: 10_000, values: [208.737312321], tolerance: 1e-9 },
    prepare: testOf(byTime),
  },
];
