import { describe, expect, it } from "vitest";
import { hazardConcordance, hazardModel, predictedCurves } from "../../../../src/statistics/hazards/index.js";
import { type HazardColumns, proportionalityTest, type Ties } from "../../../../src/statistics/index.js";
import {
  type Expected,
  expectAllClose,
  expectClose,
  numbers,
  referenceCase,
  referenceRows,
} from "../reference-data.js";

const rel = 1e-9;

const rows = referenceRows("synthetic_cohort", "cohort.csv");
const is = (name: string, word: string): number[] => rows.map((row) => (row[name] === word ? 1 : 0));
const names = ["age", "male", "grade", "ring", "surg"];
const plain: HazardColumns = {
  times: numbers(rows, "days"),
  events: is("outcome", "1"),
  covariates: {
    names,
    columns: [
      ...["age", "male", "grade"].map((name) => numbers(rows, name)),
      is("treatment", "ring"),
      is("treatment", "surgery"),
    ],
  },
};
const site = numbers(rows, "site");
const weights = numbers(rows, "weight");
const entries = numbers(rows, "entry_days");

const questions: Record<string, { readonly columns: HazardColumns; readonly ties?: Ties }> = {
  efron: { columns: plain },
  breslow: { columns: plain, ties: "breslow" },
  strata_site: { columns: { ...plain, strata: site } },
  robust_by_site: { columns: { ...plain, clusters: site } },
  weighted_robust: { columns: { ...plain, weights, clusters: numbers(rows, "id") } },
  delayed_entry: { columns: { ...plain, entries } },
  delayed_entry_strata_weighted: {
    columns: { ...plain, entries, strata: site, weights, clusters: site },
    ties: "breslow",
  },
};
const { expected: all } = referenceCase("synthetic_cohort", "ph");

describe("SYNTHETIC cohort of 2,000 rows (seeded generator), against R package survival 3.5.3", () => {
  it.each(Object.keys(questions))("%s", (name) => {
    const { columns, ties = "efron" } = questions[name]!;
    const wanted: Expected = all[name];
    const each = (by: Record<string, Expected>) => names.map((covariate) => by[covariate]);
    const model = hazardModel(columns, { ties });
    const { fit } = model;
    expect([fit.n, fit.events]).toEqual([wanted.n, wanted.events]);
    expectAllClose(fit.coefficients, each(wanted.coef), { rel, what: "coefficients" });
    expectAllClose(fit.covariance.flat(), wanted.covariance.flat(), { rel, what: "covariance" });
    expectClose(fit.logLikelihood, wanted.log_likelihood, { rel, what: "log-likelihood" });
    expectClose(fit.likelihoodRatio.statistic, wanted.lr_chisq, { rel, what: "likelihood ratio" });
    expectClose(fit.wald.statistic, wanted.wald_chisq, { rel, what: "Wald" });
    expectClose(fit.score.statistic, wanted.score_chisq, { rel, what: "score" });
    expectAllClose(
      fit.hazardRatios.flatMap(({ lower, upper }) => [lower, upper]),
      each(wanted.robust_ci95 ?? wanted.ci95).flat(),
      { rel, what: "limits" },
    );
    if (wanted.robust_se) {
      expectAllClose(fit.robustCovariance?.flat() ?? [], wanted.robust_covariance.flat(), {
        rel,
        what: "robust covariance",
      });
      expectClose(fit.robustWald?.statistic, wanted.robust_wald_chisq, { rel, what: "robust Wald" });
      expectClose(fit.robustScore?.statistic, wanted.robust_score_chisq, { rel, what: "robust score" });
    }
    const agreement = hazardConcordance(model);
    expectClose(agreement.estimate, wanted.concordance.c, { rel, what: "concordance" });
    expectClose(agreement.standardError, wanted.concordance.se, { rel, what: "error of the concordance" });
  });

  it.each([
    ["km", "product-limit"],
    ["rank", "rank"],
    ["identity", "identity"],
  ] as const)("proportional hazards, %s, both ways", (name, transform) => {
    const wanted = all.efron.proportionality[name];
    for (const [method, key] of [
      ["score", "chisq"],
      ["approximation-1994", "approx1994_chisq"],
    ] as const) {
      const found = proportionalityTest(plain, { transform, method });
      expectAllClose(
        [...found.covariates, found.global].map(({ statistic }) => statistic),
        [...names, "GLOBAL"].map((covariate) => wanted[key][covariate]),
        // the smallest statistic is 7e-5 beside others of 1 to 10
        { rel, abs: 1e-11, what: key },
      );
    }
  });

  it("predicted curves", () => {
    for (const wanted of all.efron.predicted) {
      const row = names.map((name) => wanted.covariates[name]);
      const [curve] = predictedCurves(hazardModel(plain), {
        rows: [row],
        times: wanted.time,
        interval: "log",
      }).curves;
      expectAllClose(curve?.notYet ?? [], wanted.survival, { rel, what: "share" });
      expectAllClose(curve?.standardError ?? [], wanted.se, { rel, what: "standard error" });
      expectAllClose(curve?.lower ?? [], wanted.ci95_log.lower, { rel, what: "lower" });
      expectAllClose(curve?.upper ?? [], wanted.ci95_log.upper, { rel, what: "upper" });
    }
  });
});
