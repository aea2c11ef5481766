import { describe, expect, it } from "vitest";
import {
  commonEffect,
  heterogeneity,
  leaveOneOut,
  type RandomEffectsOptions,
  randomEffects,
} from "../../../../src/statistics/pooling/index.js";
import { type Expected, expectAllClose, expectClose, referenceCase } from "../reference-data.js";

const rel = 1e-9;
const ids = [
  "bcg_log_risk_ratio",
  "bcg_log_odds_ratio",
  "bcg_risk_difference",
  "hospital_stay_mean_difference",
  "hospital_stay_hedges_g",
  "proportions_logit",
] as const;
const methods = {
  DL: "dersimonian-laird",
  REML: "restricted-likelihood",
  ML: "likelihood",
  PM: "paule-mandel",
} as const;
type Method = keyof typeof methods;
const each = ids.flatMap((id) => (Object.keys(methods) as Method[]).map((method) => [id, method] as const));

const of = (id: string) => {
  const { expected } = referenceCase("pooling", id);
  return { expected, columns: { estimates: expected.yi, variances: expected.vi } };
};

describe("common effect against R 4.2.2 and metafor 3.8.1", () => {
  it.each(ids)("%s", (id) => {
    const { expected, columns } = of(id);
    const found = commonEffect(columns);
    expectClose(found.estimate, expected.fixed.estimate, { rel, what: "estimate" });
    expectClose(found.standardError, expected.fixed.se, { rel, what: "error" });
    expectClose(found.z, expected.fixed.z, { rel, what: "z" });
    expectClose(found.p, expected.fixed.p, { rel, abs: 0, what: "p" });
    expectAllClose([found.lower, found.upper], expected.fixed.ci95, { rel, what: "limits" });
    expectAllClose(
      found.weights.map((weight) => 100 * weight),
      expected.fixed.weights_percent,
      { rel, what: "weights" },
    );
  });
});

describe("random effects against R 4.2.2 and metafor 3.8.1", () => {
  const pooled = (id: string, { method, ...options }: RandomEffectsOptions & { method: Method }) =>
    randomEffects(of(id).columns, { spread: methods[method], ...options });

  it.each(each)("%s, %s", (id, method) => {
    const expected = of(id).expected.random[method];
    const normal = pooled(id, { method, interval: "normal" });
    expectClose(normal.spread.tauSquared, expected.tau2, { rel, what: "tau squared" });
    expect(normal.spread.converged).toBe(true);
    expectClose(normal.estimate, expected.estimate, { rel, what: "estimate" });
    expectClose(normal.standardError, expected.se, { rel, what: "error" });
    expectClose(normal.p, expected.p, { rel: 1e-8, abs: 0, what: "p" });
    expectAllClose([normal.lower, normal.upper], expected.ci95, { rel, what: "limits" });
    expectAllClose(
      normal.weights.map((weight) => 100 * weight),
      expected.weights_percent,
      { rel, what: "weights" },
    );
    const prediction = [normal.prediction.lower, normal.prediction.upper];
    expectAllClose(prediction, expected.prediction95.t_k_minus_2, { rel, what: "prediction" });
  });

  it.each(each)("%s, %s: Hartung and Knapp, plain and never narrower", (id, method) => {
    const expected = of(id).expected.random[method];
    const plain = pooled(id, { method, interval: "hartung-knapp", predictionDfLess: 1 });
    expectClose(plain.standardError, expected.hartung_knapp.se, { rel, what: "error" });
    expectClose(plain.statistic, expected.hartung_knapp.t, { rel, what: "t" });
    expectClose(plain.p, expected.hartung_knapp.p, { rel: 1e-8, abs: 0, what: "p" });
    expect(plain.df).toBe(expected.hartung_knapp.df);
    expectAllClose([plain.lower, plain.upper], expected.hartung_knapp.ci95, { rel, what: "limits" });
    expectAllClose(
      [plain.prediction.lower, plain.prediction.upper],
      expected.prediction95.t_k_minus_1_hartung_knapp_se,
      { rel, what: "prediction" },
    );
    const floored = pooled(id, { method });
    expectAllClose([floored.lower, floored.upper], expected.hartung_knapp.ci95_never_narrower, {
      rel,
      what: "never narrower",
    });
  });

  it.each(each)("%s, %s: I-squared by the spread", (id, method) => {
    const { i2_from_tau2 } = of(id).expected.heterogeneity;
    expectClose(100 * (pooled(id, { method }).spread.iSquared ?? 0), i2_from_tau2[method], {
      rel,
      what: "I-squared",
    });
  });
});

describe("heterogeneity against R 4.2.2 and metafor 3.8.1", () => {
  const limits = ({ lower, upper }: { lower: number | null; upper: number | null }, times = 1) => [
    times * lower!,
    times * upper!,
  ];

  it.each(ids)("%s", (id) => {
    const { expected, columns } = of(id);
    const wanted = expected.heterogeneity;
    const found = heterogeneity(columns);
    expectClose(found.q, wanted.q, { rel, what: "Q" });
    expect(found.df).toBe(wanted.df);
    expectClose(found.p, wanted.p, { rel, abs: 0, what: "p" });
    expectClose(100 * found.iSquared!, wanted.i2_from_q, { rel, what: "I-squared" });
    expectClose(found.h, wanted.h, { rel, what: "H" });
    expectAllClose(limits(found.hLimits), wanted.h_ci95_test_based, { rel, what: "limits of H" });
    expectAllClose(limits(found.iSquaredLimits, 100), wanted.i2_ci95_test_based, {
      rel,
      what: "of I-squared",
    });
    expectClose(found.typicalVariance, wanted.typical_variance, { rel, what: "typical variance" });
    expectAllClose(limits(found.tauSquaredLimits), wanted.tau2_ci95_q_profile, {
      rel,
      what: "of tau squared",
    });
    expectAllClose(limits(found.iSquaredOfSpreadLimits, 100), wanted.i2_ci95_from_q_profile, {
      rel,
      what: "of I-squared by the spread",
    });
  });
});

describe("one site left out in turn against R 4.2.2", () => {
  it.each(ids.flatMap((id) => (["DL", "REML"] as const).map((method) => [id, method] as const)))(
    "%s, %s",
    (id, method) => {
      const { expected, columns } = of(id);
      const wanted = expected.leave_one_out[method] as Expected;
      const found = leaveOneOut(columns, { spread: methods[method], interval: "normal" });
      const column = (of: (one: (typeof found)[number]["pooled"]) => number | null) =>
        found.map(({ pooled }) => of(pooled));
      expectAllClose(
        column(({ estimate }) => estimate),
        wanted.estimate,
        { rel, what: "estimate" },
      );
      expectAllClose(
        column(({ standardError }) => standardError),
        wanted.se,
        { rel, what: "error" },
      );
      expectAllClose(
        column(({ spread }) => spread.tauSquared),
        wanted.tau2,
        { rel, what: "tau squared" },
      );
      expectAllClose(
        column(({ heterogeneity }) => heterogeneity.q),
        wanted.q,
        { rel, what: "Q" },
      );
      expect(found.map(({ site }) => site)).toEqual(columns.estimates.map((_: number, i: number) => i));
    },
  );
});

describe("figures in print", () => {
  // Viechtbauer 2010, J Stat Softw 36(3), vaccine trials, log risk ratio (from memory, as in expected.json)
  it("thirteen vaccine trials: restricted likelihood", () => {
    const { estimate, standardError, spread, heterogeneity } = randomEffects(
      of("bcg_log_risk_ratio").columns,
      {
        interval: "normal",
      },
    );
    const rounded = [estimate, standardError, spread.tauSquared, heterogeneity.q].map((x) => x!.toFixed(4));
    expect(rounded).toEqual(["-0.7145", "0.1798", "0.3132", "152.2330"]);
    expect((100 * spread.iSquared!).toFixed(2)).toBe("92.22");
    expect(spread.limits.lower!.toFixed(4)).toBe("0.1197");
    expect(spread.limits.upper!.toFixed(4)).toBe("1.1115");
  });
});
