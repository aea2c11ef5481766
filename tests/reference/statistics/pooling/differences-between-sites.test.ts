import { describe, expect, it } from "vitest";
import { metaRegression, smallStudyAsymmetry, subgroups } from "../../../../src/statistics/pooling/index.js";
import { type Expected, expectAllClose, expectClose, referenceCase } from "../reference-data.js";

const spreads = {
  REML: "restricted-likelihood",
  ML: "likelihood",
  DL: "dersimonian-laird",
  PM: "paule-mandel",
} as const;
type Method = keyof typeof spreads;
// metafor stops its iterations a little early
const rel = 1e-6;

describe("regression on what describes sites against metafor 3.8.1", () => {
  const { expected } = referenceCase("pooling_more", "regression");
  const columns = {
    estimates: expected.yi,
    variances: expected.vi,
    covariates: { names: ["latitude", "year"], columns: [expected.latitude, expected.year] },
  };
  const pairs = (Object.values(expected.fits) as Expected[]).flatMap((fit) => [
    { method: fit.method as Method, interval: "normal", wanted: fit.normal } as const,
    { method: fit.method as Method, interval: "hartung-knapp", wanted: fit.hartung_knapp } as const,
  ]);

  it.each(pairs)("$method, $interval", ({ method, interval, wanted }) => {
    const found = metaRegression(columns, { spread: spreads[method], interval });
    expectClose(found.tauSquared, wanted.tau2, { rel, what: "tau squared" });
    expectAllClose(found.coefficients, wanted.coef, { rel, what: "coefficient" });
    expectAllClose(found.standardErrors, wanted.se, { rel, what: "error" });
    expectAllClose(found.lower, wanted.lower, { rel: 1e-5, what: "lower" });
    expectAllClose(found.upper, wanted.upper, { rel: 1e-5, what: "upper" });
    expectAllClose(found.p, wanted.p, { rel: 1e-5, what: "p" });
    expectClose(found.residual.statistic, wanted.qe, { rel: 1e-9, what: "Q about the line" });
    expectClose(found.residual.p, wanted.qe_p, { rel: 1e-8, what: "its p" });
    expectClose(found.together.statistic, wanted.qm, { rel: 1e-5, what: "together" });
    expectClose(found.together.p, wanted.qm_p, { rel: 1e-4, what: "its p" });
    expect([found.sites, found.sitesPerCovariate, found.converged]).toEqual([13, 6.5, true]);
  });

  it("on latitude alone, converged values", () => {
    const { expected: wanted } = referenceCase("pooling", "bcg_on_latitude");
    const alone = { ...columns, covariates: { names: ["latitude"], columns: [expected.latitude] } };
    const found = metaRegression(alone, { interval: "normal" });
    expectClose(found.tauSquared, wanted.tau2, { rel: 1e-9, what: "tau squared" });
    expectAllClose(found.coefficients, Object.values(wanted.coef), { rel: 1e-9, what: "coefficient" });
    expectAllClose(found.standardErrors, Object.values(wanted.se), { rel: 1e-9, what: "error" });
    expectClose(found.together.statistic, wanted.qm, { rel: 1e-9, what: "together" });
    const widened = metaRegression(alone, { interval: "hartung-knapp" });
    expectAllClose(widened.standardErrors, Object.values(wanted.hartung_knapp_se), {
      rel: 1e-9,
      what: "error",
    });
  });
});

describe("groups of sites against metafor 3.8.1", () => {
  const { expected } = referenceCase("pooling_more", "groups");
  const { expected: all } = referenceCase("pooling_more", "regression");

  it("three bands of latitude with one spread", () => {
    const found = subgroups(
      { estimates: all.yi, variances: all.vi, groups: expected.group },
      { interval: "hartung-knapp" },
    );
    expectClose(found.tauSquared, expected.tau2, { rel, what: "tau squared" });
    expectAllClose(
      found.groups.map(({ estimate }) => estimate),
      expected.estimates,
      { rel, what: "estimate" },
    );
    expectAllClose(
      found.groups.map(({ lower }) => lower),
      expected.lower,
      { rel, what: "lower" },
    );
    expectAllClose(
      found.groups.map(({ upper }) => upper),
      expected.upper,
      { rel, what: "upper" },
    );
    expectClose(found.between.statistic, expected.f, { rel: 1e-5, what: "F" });
    expectClose(found.between.p, expected.p, { rel: 1e-5, what: "p" });
  });
});

describe("asymmetry of small sites against R 4.2.2", () => {
  it.each(["bcg_log_risk_ratio", "bcg_log_odds_ratio", "bcg_risk_difference", "proportions_logit"])(
    "%s",
    (id) => {
      const { expected } = referenceCase("pooling", id);
      const wanted = expected.small_study;
      const found = smallStudyAsymmetry({ estimates: expected.yi, variances: expected.vi });
      expectClose(found.estimate, wanted.egger_intercept, { rel: 1e-9, what: "slope on the error" });
      expectClose(found.standardError, wanted.se, { rel: 1e-9, what: "error" });
      expectClose(found.t, wanted.t, { rel: 1e-9, what: "t" });
      expectClose(found.p, wanted.p, { rel: 1e-9, what: "p" });
      expect(found.df).toBe(wanted.df);
    },
  );

  it("nine studies are too few", () => {
    const { expected } = referenceCase("pooling", "hospital_stay_mean_difference");
    const found = smallStudyAsymmetry({ estimates: expected.yi, variances: expected.vi });
    expect(found).toMatchObject({ estimate: null, p: null, sites: 9, reason: "too-few-sites" });
  });
});
