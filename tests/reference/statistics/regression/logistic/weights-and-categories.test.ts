import { describe, expect, it } from "vitest";
import {
  logisticRegression,
  multinomialRegression,
  predictedProbabilities,
} from "../../../../../src/statistics/regression/logistic/index.js";
import { expectAllClose, expectClose, numbers, referenceCase, referenceRows } from "../../reference-data.js";

const rows = referenceRows("logistic_more", "birthwt.csv");
const { expected } = referenceCase("logistic_more", "birthwt");
const names = ["age", "lwt", "smoke"];
const covariates = { names, columns: names.map((name) => numbers(rows, name)) };
const weights = numbers(rows, "ftv").map((visits) => visits + 0.5);
const clusters = numbers(rows, "age");
const black = numbers(rows, "race_black");
const categories = numbers(rows, "race_other").map((other, row) => black[row]! + 2 * other);
const rel = 1e-7;

describe("weights and clusters, low birth weight, Hosmer & Lemeshow 1989, against R 4.2.2 with sandwich 3.0.2", () => {
  const outcome = numbers(rows, "low");
  const wanted = expected.weighted;

  it("coefficients, both errors, tests", () => {
    const fit = logisticRegression({ outcome, covariates, weights });
    expectAllClose(fit.coefficients, wanted.coef, { rel, what: "coefficients" });
    expectAllClose(fit.standardErrors, wanted.se, { rel, what: "errors" });
    expectClose(fit.logLikelihood, wanted.log_likelihood, { rel, what: "log-likelihood" });
    expectClose(fit.score.statistic, wanted.score, { rel, what: "score" });
    expectClose(fit.wald.statistic, wanted.wald, { rel, what: "Wald" });
    const robust = logisticRegression({ outcome, covariates, weights, clusters });
    expectAllClose(robust.standardErrors, wanted.robust_se, { rel, what: "robust errors" });
    expectClose(robust.wald.statistic, wanted.robust_wald, { rel, what: "robust Wald" });
  });

  it("predictions", () => {
    const fit = logisticRegression({ outcome, covariates, weights });
    const found = predictedProbabilities(fit, {
      covariates: {
        names,
        columns: [
          [20, 35],
          [110, 150],
          [1, 0],
        ],
      },
    });
    expectAllClose(found.logOdds, wanted.predicted_log_odds, { rel, what: "log odds" });
    expectAllClose(found.standardError, wanted.predicted_se, { rel, what: "errors" });
    found.probability.forEach((share, row) => {
      expectClose(share, 1 / (1 + Math.exp(-wanted.predicted_log_odds[row])), { rel, what: "probability" });
    });
  });
});

describe("three categories, low birth weight, Hosmer & Lemeshow 1989, against R 4.2.2 with nnet 7.3.18", () => {
  it("coefficients, errors, fitted shares", () => {
    const wanted = expected.multinomial;
    const fit = multinomialRegression({ categories, covariates });
    const terms = fit.comparisons.flatMap((one) => one.terms);
    expectAllClose(
      terms.map((term) => term.coefficient),
      wanted.coef,
      { rel, what: "coefficients" },
    );
    expectAllClose(
      terms.map((term) => term.standardError),
      wanted.se,
      { rel, what: "errors" },
    );
    expectClose(fit.logLikelihood, wanted.log_likelihood, { rel, what: "log-likelihood" });
    expectClose(fit.logLikelihoodNull, wanted.log_likelihood_null, { rel, what: "null" });
    expectAllClose(
      fit.fitted.map((by) => by[0]!),
      wanted.first_row,
      { rel, what: "shares" },
    );
    expect(fit.categories).toEqual([0, 1, 2]);
  });

  it("weights and clusters", () => {
    const wanted = expected.multinomial_weighted;
    const plain = multinomialRegression({ categories, covariates, weights });
    const robust = multinomialRegression({ categories, covariates, weights, clusters });
    const of = (fit: typeof plain) => fit.comparisons.flatMap((one) => one.terms);
    expectAllClose(
      of(plain).map((term) => term.coefficient),
      wanted.coef,
      { rel, what: "coefficients" },
    );
    expectAllClose(
      of(plain).map((term) => term.standardError),
      wanted.se,
      { rel, what: "errors" },
    );
    expectAllClose(
      of(robust).map((term) => term.standardError),
      wanted.robust_se,
      { rel, what: "robust errors" },
    );
  });
});
