import { describe, expect, it } from "vitest";
import { lagOneCorrelation } from "../../../src/statistics/continuous/lag-one-correlation.js";
import { solveSymmetric } from "../../../src/statistics/linear/index.js";
import {
  logisticRegression,
  multinomialRegression,
  predictedProbabilities,
} from "../../../src/statistics/regression/logistic/index.js";
import { mixedRegression } from "../../../src/statistics/regression/mixed/index.js";

describe("the examples in the comments of the regressions are what comes out", () => {
  it("logisticRegression and predictedProbabilities", () => {
    const fit = logisticRegression({
      outcome: [0, 0, 0, 1, 0, 1, 1, 1],
      covariates: { names: ["ring"], columns: [[0, 0, 0, 0, 1, 1, 1, 1]] },
    });
    expect(fit.terms[1]?.oddsRatio.estimate).toBeCloseTo(9, 10);
    const { probability } = predictedProbabilities(fit, {
      covariates: { names: ["ring"], columns: [[0, 1]] },
    });
    expect(probability).toEqual([expect.closeTo(0.25, 12), expect.closeTo(0.75, 12)]);
  });

  it("multinomialRegression", () => {
    const { fitted } = multinomialRegression({
      categories: [0, 0, 1, 2, 0, 1, 1, 2],
      covariates: { names: [], columns: [] },
    });
    expect(fitted.map((by) => by[0])).toEqual(
      [3 / 8, 3 / 8, 2 / 8].map((share) => expect.closeTo(share, 12)),
    );
  });

  it("mixedRegression", () => {
    const { coefficients } = mixedRegression({
      response: [1, 3, 5, 7],
      covariates: { names: [], columns: [] },
      groups: [1, 1, 2, 2],
    });
    expect(coefficients).toEqual([expect.closeTo(4, 12)]);
  });

  it("solveSymmetric and lagOneCorrelation", () => {
    expect(solveSymmetric({ matrix: [0, 1, 1, 0], right: [3, 5] }).solution).toEqual([5, 3]);
    expect(lagOneCorrelation([1, 3, 2])).toEqual({ value: -0.5 });
  });
});
