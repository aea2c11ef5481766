import { describe, expect, it } from "vitest";
import { automaticHazardsRegression } from "../../../../src/statistics/hazards/index.js";
import { hazardsRegression } from "../../../../src/statistics/index.js";

// the rows that compete lie 0.01 apart, the rows of the other stratum 50 from them
const near = { times: [1, 2], events: [1, 0], x: [0.01, 0], z: [0, 0], strata: [1, 1] };
const far = {
  times: [3, 4, 5, 6, 7, 8],
  events: [1, 1, 0, 1, 1, 0],
  x: Array.from({ length: 6 }, () => 50),
  z: [1, 0, 1, 1, 0, 0],
  strata: Array.from({ length: 6 }, () => 2),
};
const both = {
  times: [...near.times, ...far.times],
  events: [...near.events, ...far.events],
  strata: [...near.strata, ...far.strata],
};
const x = [...near.x, ...far.x];
const z = [...near.z, ...far.z];

describe("limit of a likelihood that rises for ever, by hand: what competes lies close together, other rows far away", () => {
  it.each(["efron", "breslow"] as const)("the stratum that decides for certain adds 0, %s", (ties) => {
    const fit = hazardsRegression({ ...both, covariates: { names: ["x"], columns: [x] } }, { ties });
    expect(fit.hazardRatios[0]).toMatchObject({ reason: "monotone-likelihood", limit: "infinity" });
    // the other stratum: one of 6, of 5, of 3, of 2 rows alike
    expect(fit.logLikelihood).toBeCloseTo(-Math.log(6 * 5 * 3 * 2), 11);
    expect(fit.logLikelihoodNull).toBeCloseTo(-Math.log(2 * 6 * 5 * 3 * 2), 11);
    expect(fit.likelihoodRatio.statistic).toBeCloseTo(2 * Math.log(2), 11);
    expect(fit.wald).toMatchObject({ statistic: null, reason: "monotone-likelihood" });
  });

  it("a coefficient that has a maximum is that of the other stratum alone", () => {
    const fit = hazardsRegression({ ...both, covariates: { names: ["x", "z"], columns: [x, z] } });
    const { x: _, z: own, ...rows } = far;
    const alone = hazardsRegression({ ...rows, covariates: { names: ["z"], columns: [own] } });
    expect(fit.coefficients[0]).toBeNull();
    expect(fit.coefficients[1]).toBeCloseTo(alone.coefficients[0]!, 9);
    expect(fit.standardErrors[1]).toBeCloseTo(alone.standardErrors[0]!, 9);
    expect(fit.logLikelihood).toBeCloseTo(alone.logLikelihood!, 10);
  });

  it("late entry: nobody left to compete adds 0; clusters and what is built on the fit stay numbers", () => {
    const columns = {
      times: [2, 3, 9, 9],
      events: [1, 1, 0, 0],
      entries: [0, 1, 0, 4],
      clusters: [1, 2, 3, 4],
      covariates: { names: ["x"], columns: [[5.001, 5, 4.9, -800]] },
    };
    const fit = hazardsRegression(columns);
    // the first event has the largest x of three; the second is the larger of two
    expect(fit.logLikelihoodNull).toBeCloseTo(-Math.log(3 * 2), 12);
    expect(fit.logLikelihood).toBeCloseTo(0, 11);
    expect(fit.robustStandardErrors).toEqual([null]);
    const { clusters: _, ...unclustered } = columns;
    expect(automaticHazardsRegression(unclustered).chosen).toBe("penalised");
  });
});
