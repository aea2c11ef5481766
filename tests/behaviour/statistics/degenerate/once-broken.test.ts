import { describe, expect, it } from "vitest";
import { hazardsRegression, seededGenerator } from "../../../../src/statistics/index.js";

/** Numbers that are no numbers, wherever they stand in a result. */
const holes = (value: unknown): number[] =>
  typeof value === "number"
    ? Number.isFinite(value)
      ? []
      : [value]
    : value !== null && typeof value === "object"
      ? Object.values(value).flatMap(holes)
      : [];

describe("hazards regression: what once came out wrong", () => {
  it("a combination of covariates that orders the events perfectly: was taken for a maximum at coefficients of 500", () => {
    const fit = hazardsRegression({
      times: [9, 8, 9, 9, 2, 6, 1, 9, 2, 6, 12, 7, 7],
      events: [0, 0, 0, 0, 0, 1, 0, 1, 1, 1, 0, 1, 0],
      strata: [0, 0, 0, 1, 0, 1, 1, 0, 1, 1, 0, 1, 1],
      covariates: {
        names: ["a", "b", "c"],
        columns: [
          [1, 0, 0, 0, 1, 1, 0, 1, 1, 0, 0, 1, 1],
          [-0.7, 0.5, -0.7, 0.9, -0.9, -1.2, 0.1, 0.2, 0.4, 0.9, -0.2, 1.2, 0.2],
          [0, 1, 0, 0, 0, 1, 0, 0, 1, 1, 1, 0, 0],
        ],
      },
    });
    expect(fit.status).toBe("monotone-likelihood");
    expect(fit.coefficients).toEqual([null, null, null]);
    expect(fit.wald.statistic).toBeNull();
    expect(holes(fit)).toEqual([]);
  });

  it("a coefficient on which the limit of the likelihood no longer depends: had an error of 100,000 and an infinite limit", () => {
    const fit = hazardsRegression({
      times: [12, 3, 9],
      events: [1, 1, 0],
      covariates: {
        names: ["a", "b", "c"],
        columns: [
          [0, 1, 0],
          [0.6, -0.5, 0.4],
          [0, 0, 1],
        ],
      },
    });
    expect(fit.status).toBe("monotone-likelihood");
    expect(fit.coefficients).toEqual([null, null, null]);
    expect(holes(fit)).toEqual([]);
  });

  it("a likelihood that is highest at 0: the likelihood ratio came out as -1e-16, and its p as no number", () => {
    const fit = hazardsRegression({
      times: [11, 11, 3, 7, 3, 8, 11, 12, 2, 4, 9, 12, 5, 8],
      events: [1, 1, 0, 0, 0, 1, 0, 1, 1, 0, 0, 1, 1, 0],
      entries: [8, 3, 0, 1, 0, 7, 10, 2, 0, 3, 3, 5, 0, 3],
      strata: [1, 0, 0, 1, 1, 0, 1, 1, 0, 1, 1, 0, 0, 0],
      covariates: { names: ["a"], columns: [[0, 0, 0, 1, 1, 0, 1, 0, 0, 0, 1, 0, 1, 0]] },
    });
    expect(fit.likelihoodRatio.p).toBeCloseTo(1, 6);
    expect(holes(fit)).toEqual([]);
  });

  it("2,000 tiny cohorts, with strata, delayed entry, weights and clusters: a finite answer or a reason, always", () => {
    const random = seededGenerator(99, 1);
    for (let draw = 0; draw < 2000; draw++) {
      const n = 3 + random.integer(20);
      const each = (make: (row: number) => number): number[] =>
        Array.from({ length: n }, (_, row) => make(row));
      const times = each(() => 1 + random.integer(12));
      const names = ["a", "b", "c"].slice(0, 1 + random.integer(3));
      const fit = hazardsRegression(
        {
          times,
          events: each(() => random.integer(2)),
          covariates: {
            names,
            columns: names.map((name) => each(() => (name === "b" ? random.normal() : random.integer(2)))),
          },
          ...(random.integer(2) === 1 && { strata: each(() => random.integer(2)) }),
          ...(random.integer(3) === 1 && {
            entries: times.map((time) => Math.floor(random.uniform() * time)),
          }),
          ...(random.integer(2) === 1 && { clusters: each((row) => row >> 1) }),
          ...(random.integer(4) === 1 && { weights: each(() => random.uniform() * 3) }),
        },
        { ties: random.integer(2) === 1 ? "efron" : "breslow" },
      );
      expect(holes(fit), `draw ${draw}`).toEqual([]);
      expect(fit.status, `draw ${draw}`).not.toBe("not-converged");
    }
  });
});
