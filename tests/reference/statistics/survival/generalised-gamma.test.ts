import { describe, expect, it } from "vitest";
import { errorLawOf } from "../../../../src/statistics/survival/accelerated/error-laws.js";
import {
  acceleratedModel,
  acceleratedPrediction,
  chooseLaw,
} from "../../../../src/statistics/survival/accelerated/index.js";
import { expectClose } from "../reference-data.js";

/** Shape, then log P(e > z) at z = -1, 0.5 and 3: pgamma of R 4.2.2. */
const tails = [
  [-2, -0.0212862262956004, -0.516398372856938, -1.74842567781423],
  [-0.5, -0.111473473914115, -0.971381310924308, -4.33571790434431],
  [-0.1, -0.158828682299524, -1.13351072944648, -6.0414057307364],
  [0.1, -0.18760469288818, -1.21910447115324, -7.24926608526045],
  [0.24, -0.21004183514583, -1.2809848559725, -8.30008447857572],
  [0.26, -0.213410171040409, -1.2899655239053, -8.46703615801344],
  [1.5, -0.498011151142798, -1.91447223130217, -42.7601530893447],
] as const;

const left = [20, 35, 42, 42, 60, 0, 84, 84, 90, 101, 130, 70];
const right = [20, 42, 84, 84, 60, 42, 168, null, 90, 101, null, 75];
const none = { names: [], columns: [] };

describe("generalised gamma law", () => {
  it.each(tails)("tails at shape %s: pgamma of R 4.2.2", (shape, ...expected) => {
    const law = errorLawOf("generalised-gamma", shape);
    [-1, 0.5, 3].forEach((z, i) => {
      expectClose(law.logUpperTail(z), expected[i], { rel: 1e-11, what: `at ${z}` });
    });
  });

  it.each([-1e-9, 0, 1e-9])("shape %s is the normal law", (shape) => {
    const [near, normal] = [errorLawOf("generalised-gamma", shape), errorLawOf("log-normal")];
    for (const z of [-7, -1, 0, 0.3, 4, 20, 30])
      expectClose(near.logUpperTail(z), normal.logUpperTail(z), { rel: 1e-7, abs: 1e-14, what: `at ${z}` });
    expectClose(near.quantile(0.9), normal.quantile(0.9), { rel: 1e-8, what: "quantile" });
  });

  it("shape 1 is the Weibull law, of which the log-likelihood is no higher than that of the best shape", () => {
    const [one, weibull] = [errorLawOf("generalised-gamma", 1), errorLawOf("weibull")];
    for (const z of [-9, 0, 2, 6])
      expectClose(one.logUpperTail(z), weibull.logUpperTail(z), { rel: 1e-12, what: `${z}` });
    const best = acceleratedModel({ left, right, covariates: none }, { law: "generalised-gamma" });
    for (const law of ["weibull", "log-normal"] as const) {
      const fit = acceleratedModel({ left, right, covariates: none }, { law });
      expect(best.logLikelihood!).toBeGreaterThanOrEqual(fit.logLikelihood! - 1e-9);
    }
  });

  it("days to weeks: times over seven, shape and scale the same", () => {
    const weeks = (values: readonly (number | null)[]) =>
      values.map((value) => (value === null ? null : value / 7));
    const law = "generalised-gamma";
    const inDays = acceleratedModel({ left, right, covariates: none }, { law });
    const inWeeks = acceleratedModel({ left: weeks(left), right: weeks(right), covariates: none }, { law });
    expect(inDays.status).toBe("ok");
    expectClose(inWeeks.shape, inDays.shape, { rel: 1e-5, what: "shape" });
    expectClose(inWeeks.scale, inDays.scale, { rel: 1e-5, what: "scale" });
    const [days, inSevens] = [inDays, inWeeks].map(
      (fit) => acceleratedPrediction(fit, { covariates: [[]] })[0]!,
    );
    expectClose(inSevens!.quantiles[1]!.time! * 7, days!.quantiles[1]!.time, { rel: 1e-6, what: "median" });
    expectClose(inSevens!.quantiles[1]!.upper! * 7, days!.quantiles[1]!.upper, {
      rel: 1e-4,
      what: "its limit",
    });
  });

  it("the choice names the law with the smallest AIC, and those without a maximum", () => {
    const choice = chooseLaw({ left, right, covariates: none });
    const aics = choice.compared.map(({ fit }) => fit.aic).filter((aic) => aic !== null);
    expect(choice.chosen!.aic).toBe(Math.min(...aics));
    expect(choice.compared).toHaveLength(4);
    const nothing = chooseLaw({ left: [5, 5], right: [5, 5], covariates: none });
    expect(nothing).toMatchObject({ chosen: null, reason: "no-variance" });
    expect(nothing.leftOut.map(({ law }) => law)).toHaveLength(4);
  });
});
