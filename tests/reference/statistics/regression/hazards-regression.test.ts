import { describe, expect, it } from "vitest";
import {
  type HazardColumns,
  type HazardFit,
  hazardsRegression,
  proportionalityTest,
  type SummedTies,
} from "../../../../src/statistics/index.js";
import {
  from,
  hand,
  hazardCases,
  heartModel1,
  indicator,
  larynxColumns,
  lungEcog,
  named,
  ovarian,
  timeStatus,
  veteranColumns,
} from "../hazards/cases.js";
import {
  type Expected,
  expectAllClose,
  expectClose,
  numbers,
  referenceCase,
  referenceRows,
} from "../reference-data.js";

// iterative, but converged quadratically: the closed-form tolerance holds
const rel = 1e-9;

function expectFit(fit: HazardFit, expected: Expected): void {
  const values = (by: Record<string, Expected>) => fit.names.map((name) => by[name]);
  expect(fit.status).toBe("ok");
  expect(fit.n).toBe(expected.n);
  expect(fit.events).toBe(expected.events);
  expectAllClose(fit.coefficients, values(expected.coef), { rel, what: "coefficients" });
  expectAllClose(fit.standardErrors, values(expected.se), { rel, what: "standard errors" });
  expectAllClose(fit.covariance.flat(), expected.covariance.flat(), { rel, what: "covariance" });
  expectClose(fit.logLikelihoodNull, expected.log_likelihood_null, { rel, what: "null log-likelihood" });
  expectClose(fit.logLikelihood, expected.log_likelihood, { rel, what: "log-likelihood" });
  expectClose(fit.likelihoodRatio.statistic, expected.lr_chisq, { rel, what: "likelihood ratio" });
  expectClose(fit.wald.statistic, expected.wald_chisq, { rel, what: "Wald" });
  expectClose(fit.score.statistic, expected.score_chisq, { rel, what: "score" });
  expect(fit.likelihoodRatio.df).toBe(expected.df);
  const robust = expected.robust_se !== undefined;
  if (robust) {
    expectAllClose(fit.robustStandardErrors ?? [], values(expected.robust_se), {
      rel,
      what: "robust errors",
    });
    expectAllClose(fit.robustCovariance?.flat() ?? [], expected.robust_covariance.flat(), {
      rel,
      what: "robust covariance",
    });
    expectClose(fit.robustWald?.statistic, expected.robust_wald_chisq, { rel, what: "robust Wald" });
    expectClose(fit.robustScore?.statistic, [expected.robust_score_chisq].flat(2)[0], {
      rel,
      what: "robust score",
    });
  } else expect(fit.robustStandardErrors).toBeNull();
  fit.hazardRatios.forEach((ratio) => {
    const limits = (robust ? expected.robust_ci95 : expected.ci95)[ratio.name];
    expectClose(ratio.estimate, expected.hazard_ratio[ratio.name], { rel, what: `ratio of ${ratio.name}` });
    expectAllClose([ratio.lower, ratio.upper], limits, { rel, what: `limits of ${ratio.name}` });
    expectClose(ratio.z, (robust ? expected.robust_z : expected.z)[ratio.name], {
      rel,
      what: `z of ${ratio.name}`,
    });
    expectClose(ratio.p, (robust ? expected.robust_p : expected.p)[ratio.name], {
      rel,
      what: `p of ${ratio.name}`,
    });
  });
}

describe("proportional-hazards regression against R package survival 3.5.3", () => {
  it.each(hazardCases)("$source", ({ id, part, ties = "efron", columns }) => {
    const { expected } = referenceCase("cox", id);
    expectFit(hazardsRegression(columns, { ties }), part === undefined ? expected : expected[part]);
  });

  it.each([1, 2])(
    "bone marrow transplant, Klein & Moeschberger 2003: hazard of cause %s, others censored",
    (cause) => {
      const rows = referenceRows("competing", "bmt.csv");
      const { [`cause_${cause}`]: wanted } = referenceCase("competing", "bmt_cause_specific").expected;
      const fit = hazardsRegression({
        times: numbers(rows, "t_dfs"),
        events: numbers(rows, "cause").map((code) => (code === cause ? 1 : 0)),
        covariates: named({
          aml_low: indicator(rows, "group", "AML-low"),
          aml_high: indicator(rows, "group", "AML-high"),
          age: numbers(rows, "age"),
        }),
      });
      expectAllClose(fit.coefficients, Object.values(wanted.coef), { rel, what: "coefficients" });
      expectAllClose(fit.standardErrors, Object.values(wanted.se), { rel, what: "standard errors" });
      expectClose(fit.logLikelihood, wanted.log_partial_likelihood, { rel, what: "log-likelihood" });
    },
  );

  it("six subjects, Therneau & Grambsch 2000, Appendix E: the closed forms", () => {
    const columns = { ...timeStatus(hand), covariates: from(hand, "x") };
    const breslow = hazardsRegression(columns, { ties: "breslow" }).hazardRatios[0]?.estimate;
    expectClose(breslow, (3 + Math.sqrt(33)) / 2, { rel: 1e-12, what: "Breslow" });
    const efron = hazardsRegression(columns).hazardRatios[0]?.estimate;
    const root = 2 * Math.sqrt(23 / 3) * Math.cos(Math.acos((45 / 23) * Math.sqrt(3 / 23)) / 3);
    expectClose(efron, root, { rel: 1e-12, what: "Efron" });
  });

  it.each(["group_without_events_ordinary_one_covariate", "group_without_events_ordinary_two_covariates"])(
    "a group without events (made up): limits of the likelihood, %s",
    (id) => {
      const rows = referenceRows("infinite_hazard", "group_without_events.csv");
      const { expected } = referenceCase("infinite_hazard", id);
      const names = id.endsWith("two_covariates") ? ["group", "age"] : ["group"];
      const fit = hazardsRegression({ ...timeStatus(rows), covariates: from(rows, ...names) });
      expect(fit.status).toBe("monotone-likelihood");
      expect(fit.coefficients[0]).toBeNull();
      expect(fit.hazardRatios[0]).toMatchObject({
        estimate: null,
        reason: "monotone-likelihood",
        limit: "zero",
      });
      expectClose(fit.logLikelihoodNull, expected.log_likelihood_null, { rel, what: "null log-likelihood" });
      expectClose(fit.score.statistic, expected.score_chisq, { rel, what: "score" });
      // the limit is approached, not reached
      expectClose(fit.logLikelihood, expected.log_likelihood_limit, { rel: 1e-6, what: "log-likelihood" });
      expectClose(fit.likelihoodRatio.statistic, expected.lr_chisq_limit, {
        rel: 1e-6,
        what: "likelihood ratio",
      });
      expect(fit.wald).toMatchObject({ statistic: null, reason: "monotone-likelihood" });
      if (expected.other_coef_limit !== null)
        expectClose(fit.coefficients[1], expected.other_coef_limit.age, { rel: 1e-6, what: "age" });
    },
  );
});

describe("test of proportional hazards against R package survival 3.5.3 (score test)", () => {
  const transforms = { km: "product-limit", rank: "rank", identity: "identity", log: "log" } as const;
  const questions: { source: string; columns: HazardColumns; expected: Expected; ties?: SummedTies }[] = [
    {
      source: "ovarian cancer, Edmunson et al. 1979",
      columns: { ...timeStatus(ovarian), covariates: from(ovarian, "age", "ecog_ps") },
      expected: referenceCase("cox", "ovarian_age_ecog").expected.proportionality,
    },
    {
      source: "advanced lung cancer, Loprinzi et al. 1994",
      columns: { ...timeStatus(lungEcog), covariates: from(lungEcog, "age", "sex", "ecog") },
      expected: referenceCase("cox", "lung_age_sex_ecog").expected.proportionality,
    },
    {
      source: "larynx cancer, Kardaun 1983, Efron",
      columns: larynxColumns,
      expected: referenceCase("cox", "larynx_stage_age").expected.efron.proportionality,
    },
    {
      source: "larynx cancer, Kardaun 1983, Breslow",
      columns: larynxColumns,
      ties: "breslow",
      expected: referenceCase("cox", "larynx_stage_age").expected.breslow.proportionality,
    },
    {
      source: "veterans' lung cancer, Kalbfleisch & Prentice 1980",
      columns: veteranColumns,
      expected: referenceCase("cox", "veteran_full").expected.proportionality,
    },
    {
      source: "heart transplants, Crowley & Hu 1977, start-stop rows",
      columns: heartModel1,
      ties: "breslow",
      expected: referenceCase("cox", "heart_transplant").expected.m1_proportionality,
    },
  ];
  const rows = questions.flatMap((question) =>
    Object.keys(question.expected).map((name) => ({ ...question, name: name as keyof typeof transforms })),
  );

  it.each(rows)("$source: $name", ({ columns, expected, ties = "efron", name }) => {
    const found = proportionalityTest(columns, { ties, transform: transforms[name] });
    const wanted = expected[name];
    found.names.forEach((covariate, j) => {
      expectClose(found.covariates[j]?.statistic, wanted.chisq[covariate], { rel, what: covariate });
      expectClose(found.covariates[j]?.p, wanted.p[covariate], { rel, what: `p of ${covariate}` });
    });
    expectClose(found.global.statistic, wanted.chisq.GLOBAL, { rel, what: "global" });
    expectClose(found.global.p, wanted.p.GLOBAL, { rel, what: "p, global" });
  });

  it.each(rows)(
    "the approximation of Grambsch & Therneau 1994, $source: $name",
    ({ columns, expected, ties = "efron", name }) => {
      const found = proportionalityTest(columns, {
        ties,
        transform: transforms[name],
        method: "approximation-1994",
      });
      const wanted = expected[name];
      found.names.forEach((covariate, j) => {
        expectClose(found.covariates[j]?.statistic, wanted.approx1994_chisq[covariate], {
          rel,
          what: covariate,
        });
        expectClose(found.covariates[j]?.p, wanted.approx1994_p[covariate], {
          rel,
          what: `p of ${covariate}`,
        });
      });
      expectClose(found.global.statistic, wanted.approx1994_chisq.GLOBAL, { rel, what: "global" });
      expectClose(found.global.p, wanted.approx1994_p.GLOBAL, { rel, what: "p, global" });
    },
  );

  it.each(["breslow", "efron"] as const)(
    "six subjects by hand, Therneau & Grambsch 2000, Appendix E, %s",
    (ties) => {
      const { proportionality_chisq: wanted } = referenceCase("cox", "hand_worked_1").expected[ties];
      for (const transform of ["identity", "log"] as const) {
        const found = proportionalityTest(
          { ...timeStatus(hand), covariates: from(hand, "x") },
          { ties, transform },
        );
        expectClose(found.covariates[0]?.statistic, wanted[transform], { rel, what: transform });
      }
    },
  );
});
