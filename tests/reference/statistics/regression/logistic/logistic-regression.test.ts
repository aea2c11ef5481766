import { describe, expect, it } from "vitest";
import { logisticRegression } from "../../../../../src/statistics/regression/logistic/index.js";
import {
  type Expected,
  expectAllClose,
  expectClose,
  numbers,
  referenceCase,
  referenceRows,
} from "../../reference-data.js";

const columnsOf = (file: string, outcome: string, names: readonly string[]) => {
  const rows = referenceRows("logistic", file);
  return {
    outcome: numbers(rows, outcome),
    covariates: { names, columns: names.map((name) => numbers(rows, name)) },
  };
};
const inOrder = (by: Record<string, Expected>, names: readonly string[]): Expected[] =>
  ["(Intercept)", ...names].map((name) => by[name]);
const low = (pairs: readonly Expected[]) => pairs.map((pair) => pair[0]);
const high = (pairs: readonly Expected[]) => pairs.map((pair) => pair[1]);

describe("logistic regression, low birth weight, Hosmer & Lemeshow 1989, Applied Logistic Regression, against R 4.2.2", () => {
  it.each([
    { id: "birthwt", names: ["age", "lwt", "race_black", "race_other", "smoke"] },
    { id: "birthwt_smoke", names: ["smoke"] },
  ])("$id", ({ id, names }) => {
    const { expected, tolerance } = referenceCase("logistic", id);
    const rel = tolerance.rel;
    const fit = logisticRegression(columnsOf("birthwt.csv", "low", names));
    expect(fit.status).toBe("ok");
    expectAllClose(fit.coefficients, inOrder(expected.coef, names), { rel, what: "coefficients" });
    expectAllClose(fit.standardErrors, inOrder(expected.se, names), { rel, what: "errors" });
    expectAllClose(
      fit.terms.map((term) => term.statistic),
      inOrder(expected.z, names),
      { rel, what: "z" },
    );
    expectAllClose(
      fit.terms.map((term) => term.p),
      inOrder(expected.p, names),
      { rel, what: "p" },
    );
    expectAllClose(
      fit.terms.map((term) => term.oddsRatio.estimate),
      inOrder(expected.odds_ratio, names),
      { rel, what: "odds ratios" },
    );
    expectAllClose(
      fit.terms.map((term) => term.lower),
      low(inOrder(expected.ci95_wald, names)),
      { rel, what: "lower" },
    );
    expectAllClose(
      fit.terms.map((term) => term.upper),
      high(inOrder(expected.ci95_wald, names)),
      { rel, what: "upper" },
    );
    expectAllClose(fit.covariance.flat(), expected.covariance.flat(), { rel, what: "covariance" });
    expectClose(fit.logLikelihood, expected.log_likelihood, { rel, what: "log-likelihood" });
    expectClose(fit.logLikelihoodNull, expected.log_likelihood_null, { rel, what: "null" });
    expectClose(fit.likelihoodRatio.statistic, expected.lr_chisq, { rel, what: "likelihood ratio" });
    expect(fit.likelihoodRatio.df).toBe(expected.df);
    expectClose(fit.deviance, expected.deviance, { rel, what: "deviance" });
    expectClose(fit.aic, expected.aic, { rel, what: "AIC" });
    expectClose(fit.concordance, expected.c_statistic, { rel, what: "concordance" });
    if (expected.ci95_profile) {
      const { terms } = logisticRegression(columnsOf("birthwt.csv", "low", names), { interval: "profile" });
      const limits = inOrder(expected.ci95_profile, names);
      expectAllClose(
        terms.map((term) => term.lower),
        low(limits),
        { rel, what: "profile lower" },
      );
      expectAllClose(
        terms.map((term) => term.upper),
        high(limits),
        { rel, what: "profile upper" },
      );
    }
  });
});

describe("penalised logistic regression, Heinze & Schemper 2002, Stat Med 21:2409, against R package brglm2 0.9 and formulas in R 4.2.2", () => {
  it.each([
    { id: "endometrial_firth", file: "endometrial.csv", outcome: "HG", names: ["NV", "PI", "EH"] },
    {
      id: "urinary_infection_firth",
      file: "urinary_infection.csv",
      outcome: "case",
      names: ["age", "oc", "vic", "vicl", "vis", "dia"],
    },
  ])("$id", ({ id, file, outcome, names }) => {
    const { expected, tolerance } = referenceCase("logistic", id);
    const rel = tolerance.rel;
    const columns = columnsOf(file, outcome, names);
    const fit = logisticRegression(columns, { penalty: "firth" });
    expectAllClose(fit.coefficients, inOrder(expected.coef, names), { rel, what: "coefficients" });
    expectAllClose(fit.standardErrors, inOrder(expected.se_wald, names), { rel, what: "errors" });
    expectAllClose(fit.covariance.flat(), expected.covariance.flat(), { rel, what: "covariance" });
    expectClose(fit.logLikelihood, expected.penalised_log_likelihood, {
      rel,
      what: "penalised log-likelihood",
    });
    expectClose(fit.logLikelihoodNull, expected.penalised_log_likelihood_null, { rel, what: "null" });
    expectClose(fit.likelihoodRatio.statistic, expected.lr_chisq, { rel, what: "likelihood ratio" });
    expect(fit.likelihoodRatio.df).toBe(expected.lr_df);
    const { terms } = fit;
    expectAllClose(
      terms.map((term) => term.statistic),
      inOrder(expected.penalised_lr_chisq_each, names),
      { rel, what: "each" },
    );
    expectAllClose(
      terms.map((term) => term.p),
      inOrder(expected.penalised_lr_p_each, names),
      { rel, what: "p each" },
    );
    const limits = inOrder(expected.ci95_profile, names);
    expectAllClose(
      terms.map((term) => term.lower),
      low(limits),
      { rel, what: "profile lower" },
    );
    expectAllClose(
      terms.map((term) => term.upper),
      high(limits),
      { rel, what: "profile upper" },
    );
    const wald = logisticRegression(columns, { penalty: "firth", interval: "wald" }).terms;
    expectAllClose(
      wald.map((term) => term.lower),
      low(inOrder(expected.ci95_wald, names)),
      { rel, what: "Wald lower" },
    );
    expectAllClose(
      wald.map((term) => term.upper),
      high(inOrder(expected.ci95_wald, names)),
      { rel, what: "Wald upper" },
    );
  });
});

describe("separation, endometrial data, Heinze & Schemper 2002: the limit of the ordinary fit, from the rows without NV, R 4.2.2", () => {
  const { expected, tolerance } = referenceCase("logistic", "endometrial_ordinary");
  const rel = tolerance.rel;
  const columns = columnsOf("endometrial.csv", "HG", ["NV", "PI", "EH"]);

  it("NV has no estimate, its odds ratio goes to infinity, the others have those of the limit", () => {
    const fit = logisticRegression(columns);
    expect(fit.status).toBe("separation");
    expect(fit.separation).toMatchObject({
      kind: "quasi-complete",
      terms: ["NV"],
      certain: columns.covariates.columns[0]?.filter((x) => x === 1).length,
    });
    expect(fit.terms[1]).toMatchObject({
      coefficient: null,
      reason: "monotone-likelihood",
      limit: "infinity",
    });
    const limit = expected.other_coef_limit;
    expectAllClose(fit.coefficients, [limit["(Intercept)"], null, limit.PI, limit.EH], {
      rel,
      what: "coefficients",
    });
    expectClose(fit.logLikelihood, expected.log_likelihood_limit, { rel, what: "log-likelihood" });
    expectClose(fit.likelihoodRatio.statistic, expected.lr_chisq_limit, { rel, what: "likelihood ratio" });
    expect(fit.wald).toMatchObject({ statistic: null, reason: "monotone-likelihood" });
  });

  it("its profile has a lower limit, at which the likelihood lies half of 3.841 below that of the limit", () => {
    const { terms } = logisticRegression(columns, { interval: "profile" });
    expect(terms[1]?.upper).toBeNull();
    expect(terms[1]?.lower).toBeGreaterThan(0);
    expect(terms[1]?.statistic).toBeGreaterThan(3.841);
  });
});
