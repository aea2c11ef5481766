import { describe, expect, it } from "vitest";
import { lagOneCorrelation } from "../../../../src/statistics/continuous/lag-one-correlation.js";
import { linearRegression } from "../../../../src/statistics/index.js";
import { baselineTests } from "../../../../src/statistics/regression/baseline-tests.js";
import { testTogether } from "../../../../src/statistics/regression/linear-hypothesis.js";
import { codes, expectClose, numbers, referenceCase, referenceRows } from "../reference-data.js";

describe("tests beside the adjusted comparison, anorexia data, Hand et al. 1994, against R 4.2.2", () => {
  const rows = referenceRows("continuous", "anorexia.csv");
  const columns = {
    baseline: numbers(rows, "pre"),
    followUp: numbers(rows, "post"),
    groups: codes(rows, "treatment", ["Cont", "CBT", "FT"]),
  };
  const { expected } = referenceCase("continuous", "anorexia_baseline_adjusted");

  it.each([
    { name: "groups", wanted: expected.group_f },
    { name: "slopes", wanted: expected.slope_interaction_f },
  ] as const)("$name: F and p of nested models", ({ name, wanted }) => {
    const found = baselineTests(columns)[name];
    expect([found.numeratorDf, found.denominatorDf]).toEqual([wanted.df1, wanted.df2]);
    expectClose(found.f, wanted.f, { rel: 1e-9, what: "F" });
    expectClose(found.p, wanted.p, { rel: 1e-9, what: "p" });
  });
});

describe("testTogether", () => {
  it("all covariates of Longley's data, NIST: the certified F", () => {
    const rows = referenceRows("nist", "Longley.csv");
    const names = ["x1", "x2", "x3", "x4", "x5", "x6"];
    const fit = linearRegression({
      response: numbers(rows, "y"),
      covariates: { names, columns: names.map((name) => numbers(rows, name)) },
    });
    const wanted = referenceCase("nist", "Longley").expected.from_doubles;
    // through the covariance matrix, whose condition number is near 1e10 here
    expectClose(testTogether(fit, names).f, wanted.f, { rel: 1e-6, what: "F" });
  });
});

describe("lag-1 correlation, NIST Statistical Reference Datasets", () => {
  it.each(["NumAcc1", "NumAcc4", "Lew", "Mavro", "Michelso"])("%s", (id) => {
    const { expected } = referenceCase("nist", id);
    const found = lagOneCorrelation(numbers(referenceRows("nist", `${id}.csv`), "y"));
    expectClose(found.value, expected.from_doubles.lag1_autocorrelation, { rel: 1e-9, what: "lag-1" });
  });
});
