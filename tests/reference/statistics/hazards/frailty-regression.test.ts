import { describe, expect, it } from "vitest";
import { frailtyRegression } from "../../../../src/statistics/hazards/index.js";
import { hazardsRegression } from "../../../../src/statistics/index.js";
import { expectAllClose, expectClose, numbers, referenceRows } from "../reference-data.js";
import { from, timeStatus } from "./cases.js";

const rows = referenceRows("cox", "kidney_catheter.csv");
const kidney = { ...timeStatus(rows), groups: numbers(rows, "id"), covariates: from(rows, "age", "sex") };

// R: coxph(Surv(time, status) ~ age + sex + frailty(id, theta = ., sparse = FALSE)), eps 1e-13; the likelihood is the integrated one
// ("I-likelihood", c.loglik); frailties are the first five
const held = [
  {
    ties: "efron",
    theta: 0.4,
    coefficients: [0.0051681664035401363, -1.5756077403056985],
    errors: [0.011608059701131187, 0.44643138026770418],
    logLikelihood: -181.63916463724925,
    frailties: [
      1.4391793335850958, 1.2840110503978144, 1.0937872914181233, 0.57053196139710893, 1.1715285149970904,
    ],
  },
  {
    ties: "efron",
    theta: 1.5,
    coefficients: [0.0099397188968404476, -2.0797634356546597],
    errors: [0.016930342860029517, 0.64019355425608282],
    logLikelihood: -185.68831447192903,
    frailties: [
      1.873354849032937, 1.9515213944683485, 0.94432026902873256, 0.26536338441699336, 1.1458979858353411,
    ],
  },
  {
    ties: "breslow",
    theta: 0.4,
    coefficients: [0.005482584779583812, -1.5590152292443831],
    errors: [0.011596441587644507, 0.44551097792552585],
    logLikelihood: -182.0534241827732,
    frailties: [
      1.4378428523130347, 1.2839522403039079, 1.1019201889793346, 0.5726565705991814, 1.1458348181353197,
    ],
  },
  {
    ties: "breslow",
    theta: 1.5,
    coefficients: [0.010205991094666821, -2.0508575341250435],
    errors: [0.016940853242694259, 0.63776333690204778],
    logLikelihood: -186.22380075927708,
    frailties: [
      1.876656493856258, 1.9493951872117108, 0.96294336913193601, 0.26738496367216186, 1.0929159027458342,
    ],
  },
] as const;

// the same with method = "em", eps = 1e-9: theta is found by a search along the likelihood there, so to about 1e-5
const estimated = [
  {
    ties: "efron",
    theta: 0.4077696,
    logLikelihood: -181.63862652618803,
    logLikelihoodOne: -184.34456813956658,
  },
  { ties: "breslow", theta: 0.39731337, logLikelihood: -182.05335892518127, logLikelihoodOne: null },
] as const;

describe("shared gamma frailty, kidney catheters, McGilchrist & Aisbett 1991, Biometrics 47:461, against R package survival 3.5.3", () => {
  it.each(held)(
    "variance held at $theta, $ties",
    ({ ties, theta, coefficients, errors, logLikelihood, frailties }) => {
      const fit = frailtyRegression(kidney, { ties, theta });
      expectAllClose(fit.coefficients, coefficients, { rel: 1e-8, what: "coefficients" });
      // ours by numerical derivatives of the profile score
      expectAllClose(fit.standardErrors, errors, { rel: 1e-7, what: "standard errors" });
      expectClose(fit.logLikelihood, logLikelihood, { rel: 1e-11, what: "integrated log-likelihood" });
      expectAllClose(fit.frailties.slice(0, 5), frailties, { rel: 1e-8, what: "frailties" });
    },
  );

  it.each(estimated)("variance estimated, $ties", ({ ties, theta, logLikelihood, logLikelihoodOne }) => {
    const fit = frailtyRegression(kidney, { ties });
    expectClose(fit.theta.estimate, theta, { rel: 1e-5, what: "theta" });
    expectClose(fit.logLikelihood, logLikelihood, { rel: 1e-10, what: "integrated log-likelihood" });
    if (logLikelihoodOne !== null)
      expectClose(fit.logLikelihoodNoFrailty, logLikelihoodOne, { rel: 1e-10, what: "without frailty" });
    const { lower, upper } = fit.theta;
    for (const end of [lower, upper]) {
      const there = frailtyRegression(kidney, { ties, theta: end! });
      // 3.841/2 by definition of the interval
      expect(fit.logLikelihood! - there.logLikelihood!).toBeCloseTo(3.841458820694124 / 2, 7);
    }
  });

  it("the same times assigned to pairs that have nothing in common (made up): theta 0, the ordinary fit, p = 1", () => {
    const made = {
      times: [1, 12, 2, 11, 3, 10, 4, 9, 5, 8, 6, 7],
      events: [1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1],
      covariates: { names: ["x"], columns: [[0, 1, 1, 0, 0, 1, 0, 0, 1, 1, 0, 1]] },
    };
    const fit = frailtyRegression({ ...made, groups: made.times.map((_, row) => row >> 1) });
    expect(fit.theta).toMatchObject({ estimate: 0, lower: 0 });
    expect(fit.coefficients).toEqual(hazardsRegression(made).coefficients);
    expect(fit.noFrailty).toMatchObject({ statistic: 0, p: 1 });
  });
});
