import { describe, expect, it } from "vitest";
import { baselineAdjusted, linearRegression } from "../../../../src/statistics/index.js";
import {
  codes,
  type Expected,
  expectAllClose,
  expectClose,
  numbers,
  type Row,
  referenceCase,
  referenceRows,
} from "../reference-data.js";

const rows = (file: string): Row[] => referenceRows("nist", file);

const longley = rows("Longley.csv");
const filip = rows("Filip.csv");
const norris = rows("Norris.csv");
const x = numbers(filip, "x");

const designs = [
  { id: "Norris", response: numbers(norris, "y"), columns: [numbers(norris, "x")] },
  {
    id: "Longley",
    response: numbers(longley, "y"),
    columns: ["x1", "x2", "x3", "x4", "x5", "x6"].map((name) => numbers(longley, name)),
  },
  {
    id: "Filip",
    response: numbers(filip, "y"),
    columns: Array.from({ length: 10 }, (_, power) => x.map((value) => value ** (power + 1))),
  },
];

describe("linear regression against the NIST Statistical Reference Datasets, certified values", () => {
  it.each(designs)("$id", ({ id, response, columns }) => {
    const { expected, tolerance } = referenceCase("nist", id);
    const { rel } = tolerance;
    const wanted = expected.from_doubles;
    const names = columns.map((_, at) => `b${at + 1}`);
    const fit = linearRegression({ response, covariates: { names, columns } });
    expect(fit.rank).toBe(columns.length + 1);
    expectAllClose(fit.coefficients, Object.values(wanted.coef), { rel, what: "coefficients" });
    expectAllClose(fit.standardErrors, Object.values(wanted.se), { rel, what: "standard errors" });
    expectClose(fit.residualDeviation, wanted.residual_sd, { rel, what: "residual deviation" });
    expectClose(fit.rSquared, wanted.r_squared, { rel, what: "R squared" });
    expectClose(fit.residualSquares, wanted.residual_ss, { rel, what: "residual squares" });
    expectClose(fit.regressionSquares, wanted.regression_ss, { rel, what: "regression squares" });
    expectClose(fit.f.statistic, wanted.f, { rel, what: "F" });
    expect(fit.residualDf).toBe(wanted.residual_df);
  });

  it.each(["SiRstv", "SmLs01", "SmLs04", "SmLs07"])(
    "%s: one-way analysis of variance as a regression on groups",
    (id) => {
      const { expected } = referenceCase("nist", id);
      // against the numbers rounded to double even the hardest set is solved to full precision
      const rel = 1e-12;
      const wanted = expected.from_doubles;
      const data = rows(`${id}.csv`);
      const groups = numbers(data, "treatment");
      const others = [...new Set(groups)].slice(1);
      const fit = linearRegression({
        response: numbers(data, "y"),
        covariates: {
          names: others.map(String),
          columns: others.map((code) => groups.map((group) => (group === code ? 1 : 0))),
        },
      });
      expectClose(fit.f.statistic, wanted.f, { rel, what: "F" });
      expectClose(fit.regressionSquares, wanted.between_ss, { rel, what: "between" });
      expectClose(fit.residualSquares, wanted.within_ss, { rel, what: "within" });
      expectClose(fit.residualDeviation, wanted.residual_sd, { rel, what: "residual deviation" });
      expect([fit.f.df, fit.residualDf]).toEqual([wanted.between_df, wanted.within_df]);
      // an F that is right to rel has a p that is right to about df times that
      expectClose(fit.f.p, wanted.p, { rel: 200 * rel, what: "p" });
    },
  );
});

describe("follow-up adjusted for baseline, anorexia data, Hand et al. 1994, A Handbook of Small Data Sets, against R 4.2.2", () => {
  const anorexia = referenceRows("continuous", "anorexia.csv");
  const words = ["Cont", "CBT", "FT"];
  const columns = {
    baseline: numbers(anorexia, "pre"),
    followUp: numbers(anorexia, "post"),
    groups: codes(anorexia, "treatment", words),
  };
  const { expected } = referenceCase("continuous", "anorexia_baseline_adjusted");
  const wanted = expected.post_on_pre_and_group;
  const rel = 1e-9;
  const values = (by: Record<string, Expected>) =>
    ["(Intercept)", "pre", "gCBT", "gFT"].map((name) => by[name]);

  it("coefficients, errors, limits, p, fit", () => {
    const { fit } = baselineAdjusted(columns);
    expectAllClose(fit.coefficients, values(wanted.coef), { rel, what: "coefficients" });
    expectAllClose(fit.standardErrors, values(wanted.se), { rel, what: "errors" });
    expectAllClose(fit.t, values(wanted.t), { rel, what: "t" });
    expectAllClose(fit.p, values(wanted.p), { rel, what: "p" });
    expectAllClose(
      fit.lower,
      values(wanted.ci95).map((pair) => pair[0]),
      { rel, what: "lower" },
    );
    expectAllClose(
      fit.upper,
      values(wanted.ci95).map((pair) => pair[1]),
      { rel, what: "upper" },
    );
    expectClose(fit.residualDeviation, wanted.residual_sd, { rel, what: "residual deviation" });
    expectClose(fit.rSquared, wanted.r_squared, { rel, what: "R squared" });
    expectClose(fit.f.statistic, wanted.f, { rel, what: "F" });
  });

  it("HC3 errors", () => {
    const { fit } = baselineAdjusted(columns, { variance: "hc3" });
    expectAllClose(fit.standardErrors, values(wanted.robust_se.hc3), { rel, what: "HC3 errors" });
  });

  it("has no HC3 error where a residual is 0 whatever it is: a group of one row divides 0 by 0 in the formula", () => {
    const one = columns.groups.findIndex((group) => group === 2);
    const kept = columns.groups.map((group, row) => group !== 2 || row === one);
    const only = <T>(values: ArrayLike<T>) => Array.from(values).filter((_, row) => kept[row]);
    const { fit } = baselineAdjusted(
      { baseline: only(columns.baseline), followUp: only(columns.followUp), groups: only(columns.groups) },
      { variance: "hc3" },
    );
    expect(fit.standardErrors.every((error) => error === null)).toBe(true);
    expect(new Set(fit.reasons)).toEqual(new Set(["too-few-rows"]));
  });

  it("every row its own cluster: HC0 times sqrt(n/(n-1) (n-1)/(n-k)), which is HC1", () => {
    const { fit } = baselineAdjusted({ ...columns, clusters: columns.groups.map((_, row) => row) });
    expectAllClose(fit.standardErrors, values(wanted.robust_se.hc1), { rel, what: "clustered errors" });
    expect(fit.df).toBe(columns.groups.length - 1);
  });

  it("adjusted differences and means; regressing the change gives the same differences", () => {
    const found = baselineAdjusted(columns);
    expectAllClose(
      found.differences.map((one) => one.difference),
      [wanted.coef.gCBT, wanted.coef.gFT],
      { rel, what: "differences" },
    );
    const means = expected.adjusted_means;
    expectClose(found.meanBaseline, means.at_baseline, { rel, what: "mean baseline" });
    expectAllClose(
      found.adjustedMeans.map((one) => one.mean),
      means.mean,
      { rel, what: "adjusted means" },
    );
    expectAllClose(
      found.adjustedMeans.map((one) => one.standardError),
      means.se,
      { rel, what: "their errors" },
    );
    const change = columns.followUp.map((value, row) => value - columns.baseline[row]!);
    const onChange = baselineAdjusted({ ...columns, followUp: change }).fit.coefficients;
    expectAllClose(onChange, values(expected.change_on_pre_and_group_coef), { rel, what: "on change" });
  });

  it("unadjusted change by group", () => {
    const fit = linearRegression({
      response: columns.followUp.map((value, row) => value - columns.baseline[row]!),
      covariates: {
        names: ["CBT", "FT"],
        columns: [1, 2].map((code) => columns.groups.map((group) => (group === code ? 1 : 0))),
      },
    });
    const unadjusted = expected.unadjusted_change;
    const order = (by: Record<string, Expected>) => ["(Intercept)", "gCBT", "gFT"].map((name) => by[name]);
    expectAllClose(fit.coefficients, order(unadjusted.coef), { rel, what: "coefficients" });
    expectAllClose(fit.standardErrors, order(unadjusted.se), { rel, what: "errors" });
    expectAllClose(fit.p, order(unadjusted.p), { rel, what: "p" });
    const { analysis_of_variance: variance } = referenceCase("continuous", "anorexia_k_groups").expected;
    expectClose(fit.f.statistic, variance.f, { rel, what: "F" });
    expectClose(fit.f.p, variance.p, { rel, what: "p of F" });
  });
});
