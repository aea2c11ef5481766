import { subdistributionRegression } from "../../src/statistics/competing/index.js";
import { cumulativeIncidence, incidenceAt } from "../../src/statistics/index.js";
import type { BenchCase } from "./case.js";
import { cohortOf } from "./cohort.js";

function incidences(n: number): () => readonly number[] {
  const cohort = cohortOf(n);
  const groups = [0, 1].map((group) => {
    const rows = Array.from(cohort.group.keys()).filter((row) => cohort.group[row] === group);
    return {
      times: Float64Array.from(rows, (row) => cohort.day[row]!),
      causes: Uint8Array.from(rows, (row) => cohort.cause[row]!),
    };
  });
  return () =>
    groups.flatMap((columns) => {
      const at = incidenceAt(cumulativeIncidence(columns), { time: 365, cause: 1 });
      return [at.incidence!, at.standardError!];
    });
}

function subdistribution(n: number): () => readonly number[] {
  const { day, cause, x } = cohortOf(n);
  const covariates = { names: ["x1", "x2", "x3", "x4", "x5"], columns: x.slice(0, 5) };
  return () => {
    const { coefficients, standardErrors } = subdistributionRegression({
      times: day,
      causes: cause,
      covariates,
    });
    return [coefficients[0]!, standardErrors[0]!];
  };
}

export const competingCases: readonly BenchCase[] = [
  {
    name: "aj",
    what: "cumulative incidence of two causes in two groups, with standard errors",
    peer: { name: "R cmprsk, as documented", size: 100_000 },
    target: 0.02,
    growth: [10_000, 1_000_000],
    checked: {
      at: 10_000,
      values: [0.39133643814, 0.00734669848651, 0.44884823072, 0.00749140193957],
      tolerance: 1e-9,
    },
    prepare: incidences,
  },
  {
    name: "finegray",
    what: "subdistribution hazards, 5 covariates",
    peer: { name: "R cmprsk, as documented", size: 1000 },
    target: 0.03,
    growth: [1000, 100_000],
    checked: { at: 1000, values: [0.140068011265, 0.0473936542687], tolerance: 1e-6 },
    prepare: subdistribution,
  },
];
