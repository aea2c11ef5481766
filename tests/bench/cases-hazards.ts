import { type HazardColumns, hazardsRegression } from "../../src/statistics/index.js";
import { bootstrapLogHazardRatio } from "../../src/statistics/resampling/index.js";
import type { BenchCase, Checked } from "./case.js";
import { type BenchCohort, cohortOf, startStopOf } from "./cohort.js";

const fit = { name: "R survival, fitter on prepared arrays", size: 100_000 };
const growth = [10_000, 1_000_000] as const;
const checkedAt = (...values: number[]): Checked => ({ at: 10_000, values, tolerance: 1e-9 });

const covariatesOf = (x: readonly Float64Array[], count: number): HazardColumns["covariates"] => ({
  names: Array.from({ length: count }, (_, k) => `x${k + 1}`),
  columns: x.slice(0, count),
});

/** Coefficient of x1 first, then what else is checked. */
const regression =
  (
    columnsOf: (cohort: BenchCohort) => HazardColumns,
    more: "error and likelihood" | "likelihood" | "robust" | "none",
  ) =>
  (n: number) => {
    const columns = columnsOf(cohortOf(n));
    return (): readonly number[] => {
      const { coefficients, standardErrors, robustStandardErrors, logLikelihood } =
        hazardsRegression(columns);
      const figures = {
        "error and likelihood": [standardErrors[0], logLikelihood],
        likelihood: [logLikelihood],
        robust: [robustStandardErrors?.[0]],
        none: [],
      }[more];
      return [coefficients[0], ...figures] as number[];
    };
  };

const byDay =
  (count: number) =>
  ({ day, status, x }: BenchCohort): HazardColumns => ({
    times: day,
    events: status,
    covariates: covariatesOf(x, count),
  });

const startStop = (cohort: BenchCohort): HazardColumns => {
  const { x, ...rows } = startStopOf(cohort);
  return { ...rows, covariates: covariatesOf(x, 5) };
};

export const hazardCases: readonly BenchCase[] = [
  {
    name: "cox1",
    what: "proportional hazards, Efron ties, 1 covariate",
    peer: fit,
    target: 0.75,
    growth,
    checked: null,
    prepare: regression(byDay(1), "none"),
  },
  {
    name: "cox5",
    what: "5 covariates",
    peer: fit,
    target: 0.7,
    growth,
    checked: null,
    prepare: regression(byDay(5), "none"),
  },
  {
    name: "cox10",
    what: "10 covariates",
    peer: fit,
    target: 0.55,
    growth,
    checked: checkedAt(0.299690263292, 0.0115127829655, -64830.261059),
    prepare: regression(byDay(10), "error and likelihood"),
  },
  {
    name: "cox10cont",
    what: "10 covariates, times nearly untied",
    peer: fit,
    target: 1,
    growth,
    checked: checkedAt(0.299692410302, -64826.8884636),
    prepare: regression((cohort) => ({ ...byDay(10)(cohort), times: cohort.time }), "likelihood"),
  },
  {
    name: "coxstrata",
    what: "5 covariates, 20 strata",
    peer: fit,
    target: 0.85,
    growth,
    checked: checkedAt(0.300540142719),
    prepare: regression((cohort) => ({ ...byDay(5)(cohort), strata: cohort.stratum }), "none"),
  },
  {
    name: "coxcluster",
    what: "5 covariates, variance clustered in fives",
    // the peer grows as the square of n
    peer: { ...fit, size: 10_000 },
    target: 0.03,
    growth: [10_000, 100_000],
    checked: checkedAt(0.299065814233, 0.0114601529014),
    prepare: regression((cohort) => ({ ...byDay(5)(cohort), clusters: cohort.cluster }), "robust"),
  },
  {
    name: "coxentry",
    what: "5 covariates, late entry",
    peer: fit,
    target: 0.6,
    growth,
    checked: checkedAt(0.208553346082),
    prepare: regression((cohort) => ({ ...byDay(5)(cohort), entries: cohort.entry }), "none"),
  },
  {
    name: "coxss5",
    what: "5 covariates, start-stop rows of n subjects",
    peer: fit,
    target: 0.6,
    growth,
    checked: checkedAt(0.296637612068),
    prepare: regression(startStop, "none"),
  },
  {
    name: "boot500",
    what: "n resamples of 500 rows, log hazard ratio of x1",
    peer: { name: "R survival, fitter on resampled arrays", size: 2000 },
    target: 0.4,
    growth: [500, 5000],
    checked: null,
    prepare: (replicates) => {
      const { day, status, x } = cohortOf(500);
      const columns = { times: day, events: status, covariate: x[0]! };
      return () => [
        bootstrapLogHazardRatio(columns, { seed: 1, replicates, acceleration: "none" }).estimate!,
      ];
    },
  },
];
