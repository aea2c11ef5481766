import { describe, expect, it } from "vitest";
import { ArgumentError } from "../../../../src/statistics/index.js";
import {
  acceleratedModel,
  acceleratedPrediction,
  compareLaws,
} from "../../../../src/statistics/survival/accelerated/index.js";
import {
  equalPrecisionCritical,
  hallWellnerCritical,
  simultaneousBand,
} from "../../../../src/statistics/survival/bands/index.js";
import { cumulativeHazard } from "../../../../src/statistics/survival/cumulative-hazard.js";
import {
  intervalCurve,
  intervalPermutationTest,
  intervalQuantile,
  intervalScoreTest,
  intervalShares,
} from "../../../../src/statistics/survival/interval-censored/index.js";

const none = { names: [], columns: [] };
const one = (x: readonly number[]) => ({ names: ["x"], columns: [x] });

/** No NaN and no infinity anywhere in a result. */
function expectClean(result: unknown): void {
  const text = JSON.stringify(result, (_, value) =>
    typeof value === "number" && !Number.isFinite(value) ? "not a number" : value,
  );
  expect(text).not.toContain("not a number");
}

describe("bands on degenerate cohorts", () => {
  it.each([
    { name: "no rows", times: [], events: [], reason: "no-rows", band: 0 },
    { name: "all censored", times: [3, 5], events: [0, 0], reason: "no-events", band: 0 },
    { name: "one row with the event", times: [5], events: [1], reason: "all-returned", band: 0 },
    { name: "all at one time", times: [5, 5, 5], events: [1, 1, 1], reason: "all-returned", band: 0 },
    { name: "one event, one time of band", times: [3, 5, 5], events: [1, 0, 0], reason: null, band: 1 },
    { name: "event at time 0", times: [0, 4, 7], events: [1, 1, 1], reason: null, band: 2 },
  ])("$name", ({ times, events, reason, band }) => {
    for (const kind of ["equal-precision", "hall-wellner"] as const)
      for (const scale of ["plain", "log-log", "arcsine", "log", "logit"] as const) {
        const result = simultaneousBand({ times, events }, { kind, scale });
        expect(result.reason).toBe(reason);
        expect(result.times).toHaveLength(band);
        expectClean(result);
      }
    expectClean(cumulativeHazard({ times, events }));
  });

  it("ranges before, between and after events", () => {
    const columns = { times: [10, 20, 30, 40], events: [1, 0, 1, 0] };
    expect(simultaneousBand(columns, { to: 5 }).reason).toBe("no-events");
    expect(simultaneousBand(columns, { from: 0 }).times).toEqual([10, 20, 30]);
    expect(simultaneousBand(columns, { from: 12, to: 25 }).times).toEqual([20]);
    expect(simultaneousBand(columns, { from: 12, to: 15 })).toMatchObject({ times: [], reason: null });
    expect(simultaneousBand(columns, { from: 90, to: 95 }).times).toEqual([]);
    expect(simultaneousBand(columns, { to: 1000 }).times).toEqual([10, 20, 30, 40]);
  });

  it("a million repeat counts stay in bounds", () => {
    const band = simultaneousBand({ times: [1, 2, 3], events: [1, 1, 1], weights: [1e6, 1e6, 1e6] });
    expect(band.lower.every((lower, at) => lower < band.upper[at]!)).toBe(true);
    expectClean(band);
  });

  it.each([
    ["level", () => simultaneousBand({ times: [1], events: [1] }, { level: 1 })],
    ["to", () => simultaneousBand({ times: [1], events: [1] }, { from: 9, to: 3 })],
    ["from", () => simultaneousBand({ times: [1], events: [1] }, { from: Number.NaN })],
    ["times[0]", () => simultaneousBand({ times: [-1], events: [1] })],
    ["events", () => cumulativeHazard({ times: [1, 2], events: [1] })],
    ["range.from", () => equalPrecisionCritical({ from: 0, to: 0.5 })],
    ["range.to", () => hallWellnerCritical({ from: 0.5, to: 1 })],
    ["range.to", () => hallWellnerCritical({ from: 0, to: 0 })],
  ])("%s is named", (argument, call) => {
    expect(call).toThrow(ArgumentError);
    expect(call).toThrow(argument);
  });
});

describe("interval-censored curve on degenerate data", () => {
  it.each([
    { name: "no rows", left: [], right: [], from: [], to: [] },
    { name: "one exact time", left: [5], right: [5], from: [5], to: [5] },
    { name: "one exact time 0", left: [0], right: [0], from: [0], to: [0] },
    { name: "one right-censored", left: [5], right: [null], from: [5], to: [null] },
    { name: "all right-censored", left: [5, 9, 2], right: [null, null, null], from: [9], to: [null] },
    { name: "all left-censored", left: [0, 0], right: [5, 3], from: [0], to: [3] },
    { name: "nothing known", left: [0, 0], right: [null, null], from: [0], to: [null] },
    { name: "all the same interval", left: [3, 3, 3], right: [4, 4, 4], from: [3], to: [4] },
    { name: "nested", left: [0, 2, 3], right: [9, 8, 4], from: [3], to: [4] },
    { name: "a null left end is 0", left: [null], right: [4], from: [0], to: [4] },
  ])("$name", ({ left, right, from, to }) => {
    const curve = intervalCurve({ left, right });
    expect([curve.from, curve.to]).toEqual([from, to]);
    expect(curve.converged).toBe(true);
    expectClean([curve, intervalShares(curve, [0, 4, 100]), intervalQuantile(curve, 0.5)]);
  });

  it("rows of weight 0 do not count, huge and tiny weights together converge", () => {
    const left = [9, 6, 3, 1];
    const right = [null, 8, null, 2];
    expect(intervalCurve({ left, right, weights: [0, 0, 0, 0] }).reason).toBe("no-rows");
    const curve = intervalCurve({ left, right, weights: [1e-4, 4480, 0, 1e6] });
    expect(curve.converged).toBe(true);
    expectClean(curve);
  });

  it("says so when the iterations run out", () => {
    const curve = intervalCurve({ left: [0, 2, 4, 0], right: [3, 5, null, 3] }, { maximumIterations: 0 });
    expect(curve).toMatchObject({ converged: false, reason: "not-converged" });
  });

  it("leaves frozen columns alone", () => {
    const left = Object.freeze([0, 2, 4]);
    const right = Object.freeze([3, 5, null]);
    expect(() => intervalCurve(Object.freeze({ left, right }))).not.toThrow();
  });

  it.each([
    ["right[1]", () => intervalCurve({ left: [1, 5], right: [2, 4] })],
    ["right[0]", () => intervalCurve({ left: [1], right: [Number.NaN] })],
    ["left[0]", () => intervalCurve({ left: [Number.POSITIVE_INFINITY], right: [null] })],
    ["right must", () => intervalCurve({ left: [1, 2], right: [2] })],
    ["weights[0]", () => intervalCurve({ left: [1], right: [2], weights: [-1] })],
    ["tolerance", () => intervalCurve({ left: [1], right: [2] }, { tolerance: 0 })],
    ["groups[0]", () => intervalScoreTest({ left: [1], right: [2], groups: [0.5] })],
    ["strata", () => intervalScoreTest({ left: [1], right: [2], groups: [0], strata: [] })],
    ["draws", () => intervalPermutationTest({ left: [1], right: [2], groups: [0] }, { seed: 1, draws: 0 })],
    ["times[0]", () => intervalShares(intervalCurve({ left: [1], right: [2] }), [-1])],
    ["p must", () => intervalQuantile(intervalCurve({ left: [1], right: [2] }), 1)],
  ])("%s is named", (argument, call) => {
    expect(call).toThrow(ArgumentError);
    expect(call).toThrow(argument);
  });

  it.each([
    { name: "no rows", left: [], right: [], groups: [], reason: "no-rows" },
    { name: "one group", left: [1, 2], right: [2, 3], groups: [4, 4], reason: "one-group" },
    { name: "all right-censored", left: [1, 2], right: [null, null], groups: [0, 1], reason: "no-events" },
    { name: "all one interval", left: [1, 1], right: [2, 2], groups: [0, 1], reason: "no-variance" },
    {
      name: "a row a stratum",
      left: [1, 2],
      right: [2, 3],
      groups: [0, 1],
      strata: [0, 1],
      reason: "no-variance",
    },
  ])("score test: $name", ({ name: _, reason, ...data }) => {
    const test = intervalPermutationTest(data, { seed: 1, draws: 20 });
    expect(test).toMatchObject({ chiSquare: null, p: null, permutationP: null, reason });
    expectClean(test);
  });
});

describe("accelerated failure-time models on degenerate data", () => {
  const laws = ["weibull", "log-normal", "log-logistic"] as const;
  const six = { left: [3, 5, 8, 9, 4, 7], right: [3, 5, 8, null, null, 7] };

  it.each([
    { name: "no rows", left: [], right: [], x: [], status: "no-rows" },
    { name: "nothing known of any", left: [0, 0], right: [null, null], x: [1, 2], status: "no-rows" },
    { name: "all right-censored", left: [5, 6], right: [null, null], x: [1, 2], status: "no-events" },
    { name: "one exact time", left: [5], right: [5], x: [1], status: "scale-to-zero" },
    { name: "all times equal", left: [5, 5, 5], right: [5, 5, 5], x: [1, 2, 3], status: "scale-to-zero" },
    {
      name: "two groups, each with one time",
      left: [3, 3, 8, 8],
      right: [3, 3, 8, 8],
      x: [0, 0, 1, 1],
      status: "scale-to-zero",
    },
    { name: "all one interval", left: [3, 3], right: [5, 5], x: [0, 0], status: "scale-to-zero" },
    {
      name: "everyone with the event early, nobody without it late",
      left: [0, 0, 10, 12],
      right: [9, 8, null, null],
      x: [0, 0, 0, 0],
      status: "scale-to-infinity",
    },
  ])("$name: $status", ({ left, right, x, status }) => {
    for (const law of laws) {
      const fit = acceleratedModel({ left, right, covariates: one(x) }, { law });
      expect(fit.status, law).toBe(status);
      expect(fit.intercept).toBeNull();
      const prediction = acceleratedPrediction(fit, { covariates: [[1]], times: [0, 4] });
      expect(prediction[0]?.quantiles[0]?.time).toBeNull();
      expect(prediction[0]?.reason).not.toBeNull();
      expectClean([fit, prediction]);
    }
    expectClean(compareLaws({ left, right, covariates: one(x) }));
  });

  it.each([
    { name: "a group without events", right: [3, 5, 8, null, null, null], left: six.left, limit: "infinity" },
    {
      name: "a group of left-censored only",
      left: [3, 5, 8, 9, 0, 0],
      right: [3, 5, 8, null, 4, 7],
      limit: "zero",
    },
  ])("monotone likelihood: $name", ({ left, right, limit }) => {
    for (const law of ["exponential", ...laws] as const) {
      const fit = acceleratedModel({ left, right, covariates: one([0, 0, 0, 0, 1, 1]) }, { law });
      expect(fit.status).toBe("monotone-likelihood");
      expect(fit.timeRatios[0]).toMatchObject({ estimate: null, reason: "monotone-likelihood", limit });
      expect(fit.likelihoodRatio.statistic).toBeGreaterThan(0);
      expect(fit.wald.reason).toBe("monotone-likelihood");
      expectClean([fit, acceleratedPrediction(fit, { covariates: [[0]] })]);
    }
  });

  it("constant and doubled covariates are named and left out", () => {
    const x = [1, 2, 3, 1, 2, 4];
    const covariates = { names: ["c", "x", "2x"], columns: [x.map(() => 2), x, x.map((value) => 2 * value)] };
    const fit = acceleratedModel({ ...six, covariates });
    const alone = acceleratedModel({ ...six, covariates: one(x) });
    expect(fit.status).toBe("collinear");
    expect(fit.timeRatios.map((ratio) => ratio.reason)).toEqual(["collinear", null, "collinear"]);
    expect(fit.likelihoodRatio.df).toBe(1);
    expect(fit.coefficients[1]).toBeCloseTo(alone.coefficients[0]!, 12);
    const [a] = acceleratedPrediction(fit, { covariates: [[2, 3, 6]] });
    const [b] = acceleratedPrediction(alone, { covariates: [[3]] });
    expect(a?.quantiles[1]?.upper).toBeCloseTo(b!.quantiles[1]!.upper!, 8);
  });

  it("intervals too narrow for the difference of two tails are exact times, nearly", () => {
    for (const law of laws) {
      const exact = acceleratedModel({ ...six, covariates: none }, { law });
      const narrow = acceleratedModel(
        { left: six.left, right: six.right.map((end) => end && end + 1e-9), covariates: none },
        { law },
      );
      expect(narrow.status).toBe("ok");
      expect(narrow.intercept).toBeCloseTo(exact.intercept!, 7);
      expect(narrow.scale).toBeCloseTo(exact.scale!, 7);
    }
  });

  it.each([1e-9, 1e12])("times in units of %d", (unit) => {
    const fit = acceleratedModel({
      left: six.left.map((time) => time * unit),
      right: six.right.map((time) => time && time * unit),
      covariates: one([1e8, 3e8, 2e8, 1e8, 5e8, 2e8]),
    });
    expect(fit.status).toBe("ok");
    expectClean(fit);
  });

  it("says so when the iterations run out", () => {
    const fit = acceleratedModel({ ...six, covariates: none }, { maximumIterations: 1 });
    expect(fit).toMatchObject({ converged: false, status: "not-converged" });
  });

  it.each([
    ["right[0]", () => acceleratedModel({ left: [0], right: [0], covariates: none })],
    ["right[0]", () => acceleratedModel({ left: [-1], right: [0], covariates: none })],
    [
      'covariate "x"[1]',
      () => acceleratedModel({ left: [1, 2], right: [1, 2], covariates: one([1, Number.NaN]) }),
    ],
    ["clusters", () => acceleratedModel({ left: [1], right: [1], covariates: none, clusters: [] })],
    ["level", () => acceleratedModel({ left: [1], right: [1], covariates: none }, { level: 0 })],
    [
      "covariates[0]",
      () => acceleratedPrediction(acceleratedModel({ ...six, covariates: none }), { covariates: [[1]] }),
    ],
    [
      "covariates must",
      () => acceleratedPrediction(acceleratedModel({ ...six, covariates: none }), { covariates: [] }),
    ],
    [
      "shares[0]",
      () =>
        acceleratedPrediction(acceleratedModel({ ...six, covariates: none }), {
          covariates: [[]],
          shares: [1],
        }),
    ],
  ])("%s is named", (argument, call) => {
    expect(call).toThrow(ArgumentError);
    expect(call).toThrow(argument);
  });

  it("one interval: no law has a maximum of the scale; the log-normal one came out as 0.03 with an error of 1e33", () => {
    for (const law of ["weibull", "log-normal", "log-logistic"] as const)
      for (const right of [1.2, 3, 50]) {
        const fit = acceleratedModel({ left: [1], right: [right], covariates: none }, { law });
        expect(fit.status, `${law}, (1, ${right}]`).toBe("scale-to-zero");
        expect(fit.interceptStandardError).toBeNull();
      }
  });
});
