import { describe, expect, it } from "vitest";
import { linearRegression } from "../../../../src/statistics/index.js";

/**
 * Five rows in two clusters, four coefficients: what the clusters pull on x2 nearly cancels. Expected: the same formula in exact fractions
 * (Python 3.11, fractions.Fraction, of the doubles nearest to these decimals), square root at the end.
 */
const exact = [1.886982770128078, 0.4461726292101817, 0.007925013306178843, 0.07753519653266447];

describe("clustered errors of a linear regression where sums over clusters cancel", () => {
  it("against exact fractions", () => {
    const { standardErrors } = linearRegression({
      response: [3.833, 1.657, 3.206, 2.713, 2.257],
      covariates: {
        names: ["x1", "x2", "x3"],
        columns: [
          [-1.21, -0.56, -0.87, 1.21, -1.02],
          [1, 1, 1, 0, 1],
          [13.9, 21.8, 37.4, 31.3, 26.4],
        ],
      },
      clusters: [3, 1, 1, 3, 3],
    });
    standardErrors.forEach((error, at) => {
      expect(Math.abs(error! / exact[at]! - 1)).toBeLessThan(1e-10);
    });
  });
});
