import { describe, expect, it } from "vitest";
import {
  causeSpecificHazards,
  type SubdistributionColumns,
  subdistributionIncidence,
  subdistributionRegression,
} from "../../../../src/statistics/competing/index.js";
import {
  type Expected,
  expectAllClose,
  expectClose,
  numbers,
  referenceCase,
  referenceRows,
} from "../reference-data.js";

const bmt = referenceRows("competing", "bmt.csv");
const melanoma = referenceRows("competing", "melanoma.csv");
const cohort = referenceRows("synthetic_cohort", "cohort.csv");
const is = (rows: typeof bmt, name: string, word: string) => rows.map((row) => (row[name] === word ? 1 : 0));

const transplant: SubdistributionColumns = {
  times: numbers(bmt, "t_dfs"),
  causes: numbers(bmt, "cause"),
  covariates: {
    names: ["aml_low", "aml_high", "age"],
    columns: [is(bmt, "group", "AML-low"), is(bmt, "group", "AML-high"), numbers(bmt, "age")],
  },
};
const cancer: SubdistributionColumns = {
  times: numbers(melanoma, "time"),
  causes: numbers(melanoma, "cause"),
  covariates: {
    names: ["male", "log_thickness", "ulcer", "age"],
    columns: [
      numbers(melanoma, "sex"),
      numbers(melanoma, "thickness").map(Math.log),
      numbers(melanoma, "ulcer"),
      numbers(melanoma, "age"),
    ],
  },
};
const invented: SubdistributionColumns = {
  times: numbers(cohort, "days"),
  causes: numbers(cohort, "outcome"),
  covariates: {
    names: ["age", "male", "grade", "ring", "surg"],
    columns: [
      numbers(cohort, "age"),
      numbers(cohort, "male"),
      numbers(cohort, "grade"),
      is(cohort, "treatment", "ring"),
      is(cohort, "treatment", "surgery"),
    ],
  },
};

function expectFit(columns: SubdistributionColumns, cause: number, expected: Expected): void {
  const fit = subdistributionRegression(columns, { cause });
  const rel = 1e-6;
  expect(fit.status).toBe("ok");
  fit.names.forEach((name, j) => {
    expectClose(fit.coefficients[j], expected.coef[name], { rel, what: `coefficient of ${name}` });
    expectClose(fit.standardErrors[j], expected.se[name], { rel, what: `error of ${name}` });
    const ratio = fit.ratios[j];
    expectClose(ratio?.estimate, expected.subdistribution_hazard_ratio[name], { rel, what: name });
    expectClose(ratio?.lower, expected.ci95[name][0], { rel, what: `${name} lower` });
    expectClose(ratio?.upper, expected.ci95[name][1], { rel, what: `${name} upper` });
    expectClose(ratio?.p, expected.p[name], { rel, what: `p of ${name}` });
  });
  expectAllClose(fit.covariance.flat() as number[], expected.variance.flat(), { rel, what: "covariance" });
  expectClose(fit.logPseudoLikelihood, expected.pseudo_log_likelihood, { rel, what: "likelihood" });
  expectClose(fit.logPseudoLikelihoodNull, expected.null_pseudo_log_likelihood, { rel, what: "null" });
}

describe("subdistribution regression against R package cmprsk 2.2.11", () => {
  it.each([
    ["relapse, bone marrow transplant", transplant, 1, "bmt_subdistribution_relapse"],
    ["death in remission, bone marrow transplant", transplant, 2, "bmt_subdistribution_death"],
    ["melanoma death", cancer, 1, "melanoma_subdistribution"],
  ] as const)("%s", (_, columns, cause, id) => {
    expectFit(columns, cause, referenceCase("competing", id).expected);
  });

  it.each([1, 2])("2,000 invented injuries, end %i", (cause) => {
    const { expected } = referenceCase("synthetic_cohort", "competing");
    expectFit(invented, cause, expected[`subdistribution_${cause}`]);
  });

  it.each([1, 2, 3, 4, 5, 6, 7, 8])("heavy ties of events and censorings, made up, %i", (number) => {
    const { expected, data } = referenceCase("competing_ties", `tied_${number}`) as never as {
      expected: Expected;
      data: Record<string, number[]>;
    };
    const columns = {
      times: data.time!,
      causes: data.cause!,
      covariates: { names: ["x1", "x2"], columns: [data.x1!, data.x2!] },
    };
    const rel = 1e-6;
    const fit = subdistributionRegression(columns);
    expectAllClose(fit.coefficients, expected.coef, { rel, what: "coefficients" });
    expectAllClose(fit.covariance.flat() as number[], expected.variance.flat(), { rel, what: "covariance" });
    expectClose(fit.logPseudoLikelihood, expected.loglik, { rel, what: "likelihood" });
    const { x, time, incidence } = expected.predicted;
    const predicted = subdistributionIncidence({ columns, fit }, { covariates: x, times: time });
    expectAllClose(
      predicted.map((one) => one.incidence),
      incidence,
      { rel, what: "predicted incidence" },
    );
    const grouped = subdistributionRegression({ ...columns, censoringGroups: data.censoring_group! });
    expectAllClose(grouped.coefficients, expected.coef_by_censoring_group, { rel, what: "by group" });
  });
});

describe("cause-specific regression against R package survival 3.5.3", () => {
  it.each([1, 2])("bone marrow transplant, event %i", (cause) => {
    const expected = referenceCase("competing", "bmt_cause_specific").expected[`cause_${cause}`];
    const fit = causeSpecificHazards(transplant, { cause });
    const rel = 1e-7;
    fit.names.forEach((name, j) => {
      expectClose(fit.coefficients[j], expected.coef[name], { rel, what: `coefficient of ${name}` });
      expectClose(fit.standardErrors[j], expected.se[name], { rel, what: `error of ${name}` });
    });
    expectClose(fit.logLikelihood, expected.log_partial_likelihood, { rel, what: "likelihood" });
    expect(fit.cause).toBe(cause);
  });
});

describe("interval of a predicted incidence", () => {
  it("standard error within a tenth of the jackknife's (each row left out in turn), bone marrow transplant", () => {
    const rows = [...Array(transplant.times.length).keys()];
    const without = (left: number): SubdistributionColumns => {
      const pick = (values: ArrayLike<number>) =>
        rows.filter((row) => row !== left).map((row) => values[row]!);
      const { names, columns } = transplant.covariates;
      return {
        times: pick(transplant.times),
        causes: pick(transplant.causes),
        covariates: { names, columns: columns.map(pick) },
      };
    };
    const question = { covariates: [0, 1, 30], times: [365] };
    const at = (columns: SubdistributionColumns) =>
      subdistributionIncidence({ columns, fit: subdistributionRegression(columns) }, question)[0]!;
    const whole = at(transplant);
    const left = rows.map((row) => at(without(row)).incidence!);
    const mean = left.reduce((sum, value) => sum + value, 0) / left.length;
    const squares = left.reduce((sum, value) => sum + (value - mean) ** 2, 0);
    const jackknife = Math.sqrt((squares * (left.length - 1)) / left.length);
    expectClose(whole.standardError, jackknife, { rel: 0.1, what: "standard error" });
    expect(whole.lower!).toBeLessThan(whole.incidence!);
    expect(whole.upper!).toBeGreaterThan(whole.incidence!);
  });
});
