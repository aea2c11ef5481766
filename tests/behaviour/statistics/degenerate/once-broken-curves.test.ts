import { describe, expect, it } from "vitest";
import {
  cumulativeIncidence,
  hazardsRegression,
  productLimit,
  quantileTime,
} from "../../../../src/statistics/index.js";

describe("curves: what once came out wrong", () => {
  it("a curve that comes down while all at risk are one person: its median had limits that both lay after it", () => {
    const { estimate, lower, upper } = quantileTime(
      productLimit({
        times: [7, 12, 19, 30, 39],
        events: [1, 1, 1, 1, 0],
        entries: [2, 5, 10, 11, 14],
        clusters: [5, 5, 1, 1, 4],
      }),
      0.5,
    );
    expect(estimate).toEqual({ value: 7 });
    expect([lower, upper]).toEqual([
      { value: null, reason: "no-variance" },
      { value: null, reason: "no-variance" },
    ]);
  });

  it("an incidence that comes to 1: its error is 0, where rounding had left 4e-9", () => {
    const [only] = cumulativeIncidence({
      times: [28, 91, 7, 28, 7, 35, 7, 56, 21, 35, 126, 7],
      causes: [0, 0, 1, 1, 0, 0, 1, 0, 1, 1, 1, 1],
    }).causes;
    expect(only?.incidence.at(-1)).toBeCloseTo(1, 14);
    expect(only?.standardError.at(-1)).toBe(0);
    expect(only?.standardError.at(-2)).toBeGreaterThan(0.1);
  });
});

describe("robust tests with as many coefficients as clusters", () => {
  const columns = {
    times: [2, 3, 4, 5, 6, 7, 8, 9],
    events: [1, 1, 0, 1, 1, 0, 1, 1],
    covariates: {
      names: ["a", "b"],
      columns: [
        [1.2, 0.4, 2.2, 1.9, 0.3, 2.8, 1.1, 0.7],
        [0, 1, 1, 0, 1, 0, 0, 1],
      ],
    },
  };
  const none = { statistic: null, p: null, reason: "too-few-rows" };

  it("two clusters: none, where the score statistic is 2 whatever the data", () => {
    const fit = hazardsRegression({ ...columns, clusters: [1, 1, 1, 1, 2, 2, 2, 2] });
    expect(fit.robustWald).toMatchObject(none);
    expect(fit.robustScore).toMatchObject(none);
    expect(fit.wald.statistic).toBeGreaterThan(0);
  });

  it("a third cluster that is censored before every event does not count", () => {
    const fit = hazardsRegression({
      times: [...columns.times, 1],
      events: [...columns.events, 0],
      covariates: { ...columns.covariates, columns: columns.covariates.columns.map((x) => [...x, 1]) },
      clusters: [1, 1, 1, 1, 2, 2, 2, 2, 3],
    });
    expect(fit.robustWald).toMatchObject(none);
    expect(fit.robustScore).toMatchObject(none);
  });

  it("three clusters: tests of both", () => {
    const fit = hazardsRegression({ ...columns, clusters: [1, 1, 1, 2, 2, 3, 3, 3] });
    expect(fit.robustWald).toMatchObject({ df: 2, reason: null });
    expect(fit.robustScore).toMatchObject({ df: 2, reason: null });
  });
});
