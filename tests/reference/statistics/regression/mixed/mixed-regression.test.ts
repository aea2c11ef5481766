import { describe, expect, it } from "vitest";
import { mixedRegression } from "../../../../../src/statistics/regression/mixed/index.js";
import {
  codes,
  type Expected,
  expectAllClose,
  expectClose,
  numbers,
  type Row,
  referenceCase,
  referenceRows,
} from "../../reference-data.js";

const children = referenceRows("mixed", "orthodont.csv");
const sleepers = referenceRows("mixed", "sleepstudy.csv");

/** Columns of the growth data: distance by age and sex. */
function growth(rows: readonly Row[], names: readonly string[]) {
  const subjects = [...new Set(rows.map((row) => row.subject!))].sort();
  const age = numbers(rows, "age");
  const female = rows.map((row) => (row.sex === "Female" ? 1 : 0));
  const centred = age.map((value) => value - 11);
  const by: Record<string, number[]> = {
    age,
    female,
    age_c: centred,
    "age_c:female": centred.map((value, row) => value * female[row]!),
  };
  return {
    subjects,
    columns: {
      response: numbers(rows, "distance"),
      groups: codes(rows, "subject", subjects),
      covariates: { names, columns: names.map((name) => by[name]!) },
    },
  };
}

const cases = [
  { id: "orthodont_age_sex", ...growth(children, ["age", "female"]) },
  { id: "orthodont_interaction", ...growth(children, ["age_c", "female", "age_c:female"]) },
  {
    id: "orthodont_unbalanced",
    ...growth(
      children.filter((row) => row.keep === "1"),
      ["age", "female"],
    ),
  },
  { id: "orthodont_intercept_only", ...growth(children, []) },
  {
    id: "sleepstudy",
    subjects: [...new Set(sleepers.map((row) => row.subject!))].sort(),
    columns: {
      response: numbers(sleepers, "reaction"),
      groups: numbers(sleepers, "subject"),
      covariates: { names: ["days"], columns: [numbers(sleepers, "days")] },
    },
  },
];

const inOrder = (by: Record<string, Expected>, names: readonly string[]): Expected[] =>
  ["(Intercept)", ...names].map((name) => by[name]);

describe("random intercept, growth data of Potthoff & Roy 1964, Biometrika 51:313, and sleep data of Belenky et al. 2003, J Sleep Res 12:1, against R 4.2.2 with lme4 1.1.31", () => {
  it.each(cases.flatMap((one) => (["reml", "ml"] as const).map((method) => ({ ...one, method }))))(
    "$id, $method",
    ({ id, method, columns, subjects }) => {
      const { expected, tolerance } = referenceCase("mixed", id);
      const wanted = expected[method];
      const rel = tolerance.rel;
      const { names } = columns.covariates;
      const fit = mixedRegression(columns, { method, inference: "normal" });
      expect([fit.n, fit.groups, fit.status]).toEqual([wanted.n, wanted.groups, "ok"]);
      expectAllClose(fit.coefficients, inOrder(wanted.coef, names), { rel, what: "coefficients" });
      expectAllClose(fit.standardErrors, inOrder(wanted.se, names), { rel, what: "errors" });
      expectAllClose(fit.covariance.flat(), wanted.covariance.flat(), { rel, what: "covariance" });
      const limits = inOrder(wanted.ci95_normal, names);
      expectAllClose(
        fit.terms.flatMap((term) => [term.lower, term.upper]),
        limits.flat(),
        { rel, what: "limits" },
      );
      const { interceptDeviation, residualDeviation, intraclassCorrelation } = fit.components;
      expectClose(interceptDeviation.estimate, wanted.sd_between, { rel, what: "between" });
      expectClose(residualDeviation.estimate, wanted.sd_within, { rel, what: "within" });
      expectClose(intraclassCorrelation?.estimate, wanted.icc, { rel, what: "intraclass correlation" });
      expectClose(fit.logLikelihood, wanted.log_likelihood, { rel, what: "log-likelihood" });
      expectClose(fit.aic, wanted.aic, { rel, what: "AIC" });
      expectClose(fit.varianceTest.logLikelihoodWithout, wanted.log_likelihood_no_random_effect, {
        rel,
        what: "without",
      });
      expectClose(fit.varianceTest.statistic, wanted.variance_lr_chisq, { rel, what: "likelihood ratio" });
      // p falls with the exponential of the statistic: its relative error is about half the absolute one of that
      expectClose(fit.varianceTest.p, wanted.variance_lr_p_half_mixture, {
        rel: 100 * rel,
        abs: 0,
        what: "p",
      });
      expectAllClose(
        fit.predictions.map((one) => one.intercept),
        subjects.map((subject) => wanted.predicted_intercept_deviations[subject]),
        { rel, what: "predictions" },
      );
      expectAllClose(
        fit.predictions.map((one) => one.interceptDeviation),
        subjects.map((subject) => wanted.predicted_conditional_sd[subject]),
        { rel, what: "their deviations" },
      );
    },
  );

  it.each(cases)(
    "$id: Satterthwaite's degrees of freedom, R package lmerTest 3.1.3, good to four digits",
    ({ id, columns }) => {
      const { expected } = referenceCase("mixed", id);
      const fit = mixedRegression(columns, { inference: "satterthwaite", varianceIntervals: "none" });
      expectAllClose(
        fit.terms.map((term) => term.df),
        inOrder(expected.reml.satterthwaite_df, columns.covariates.names),
        { rel: 1e-3, what: "degrees of freedom" },
      );
    },
  );
});
