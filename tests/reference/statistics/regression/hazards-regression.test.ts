import { describe, expect, it } from "vitest";
import {
  type HazardColumns,
  type HazardFit,
  hazardsRegression,
  proportionalityTest,
  type Ties,
  type TimeToEvent,
} from "../../../../src/statistics/index.js";
import {
  codes,
  type Expected,
  expectAllClose,
  expectClose,
  numbers,
  type Row,
  referenceCase,
  referenceRows,
} from "../reference-data.js";

// iterative, but converged quadratically: the closed-form tolerance holds
const rel = 1e-9;

const table = (file: string): Row[] => referenceRows("cox", file);
const hand = table("hand_worked_1.csv");
const freireich = table("freireich.csv");
const ovarian = table("ovarian.csv");
const lung = table("lung.csv");
const larynx = table("larynx.csv");
const veteran = table("veteran.csv");
const heart = table("heart_transplant.csv");
const bladder = table("bladder_recurrences.csv");
const kidney = table("kidney_catheter.csv");
const aml = table("aml_weights.csv");

const timeStatus = (rows: readonly Row[]): TimeToEvent => ({
  times: numbers(rows, "time"),
  events: numbers(rows, "status"),
});
const startStop = (rows: readonly Row[]): TimeToEvent => ({
  times: numbers(rows, "stop"),
  events: numbers(rows, "event"),
  entries: numbers(rows, "start"),
});
const named = (columns: Record<string, ArrayLike<number>>): HazardColumns["covariates"] => ({
  names: Object.keys(columns),
  columns: Object.values(columns),
});
const from = (rows: readonly Row[], ...names: string[]): HazardColumns["covariates"] =>
  named(Object.fromEntries(names.map((name) => [name, numbers(rows, name)])));
const indicator = (rows: readonly Row[], name: string, word: string): number[] =>
  rows.map((row) => (row[name] === word ? 1 : 0));

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

const stages = named({
  s2: indicator(larynx, "stage", "2"),
  s3: indicator(larynx, "stage", "3"),
  s4: indicator(larynx, "stage", "4"),
  age: numbers(larynx, "age"),
});
const larynxColumns: HazardColumns = {
  times: numbers(larynx, "time"),
  events: numbers(larynx, "death"),
  covariates: stages,
};
const remission: HazardColumns = {
  times: numbers(freireich, "weeks"),
  events: numbers(freireich, "relapse"),
  covariates: named({ mp: indicator(freireich, "group", "6-MP") }),
};
const lungEcog = lung.filter((row) => row.ecog !== "");
const lungInst = lung.filter((row) => row.inst !== "");
const veteranColumns: HazardColumns = {
  ...timeStatus(veteran),
  covariates: named({
    trt: numbers(veteran, "trt"),
    small: indicator(veteran, "celltype", "smallcell"),
    adeno: indicator(veteran, "celltype", "adeno"),
    large: indicator(veteran, "celltype", "large"),
    karno: numbers(veteran, "karno"),
    diagtime: numbers(veteran, "diagtime"),
    age: numbers(veteran, "age"),
    prior: numbers(veteran, "prior"),
  }),
};
const times = (a: readonly number[], b: readonly number[]): number[] =>
  a.map((value, at) => value * (b[at] as number));
const transplant = numbers(heart, "transplant");
const heartTerms = {
  age: numbers(heart, "age"),
  surgery: numbers(heart, "surgery"),
  transplant,
  year: numbers(heart, "year"),
  age_tx: times(numbers(heart, "age"), transplant),
  surg_tx: times(numbers(heart, "surgery"), transplant),
  year_tx: times(numbers(heart, "year"), transplant),
};
const heartColumns = (...names: (keyof typeof heartTerms)[]): HazardColumns => ({
  ...startStop(heart),
  covariates: named(Object.fromEntries(names.map((name) => [name, heartTerms[name]]))),
});
const heartModel1 = heartColumns("age", "surgery", "transplant", "age_tx", "surg_tx");
const treated = named({ g: indicator(aml, "group", "Nonmaintain") });
const repeated = aml.flatMap((row) => Array.from({ length: Number(row.weight_int) }, () => row));
const repeatedColumns: HazardColumns = {
  ...timeStatus(repeated),
  covariates: named({ g: indicator(repeated, "group", "Nonmaintain") }),
};
const whole: HazardColumns = { ...timeStatus(aml), weights: numbers(aml, "weight_int"), covariates: treated };
const fractional: HazardColumns = {
  ...timeStatus(aml),
  weights: numbers(aml, "weight_dec"),
  clusters: aml.map((_, row) => row),
  covariates: treated,
};

const cases: { source: string; id: string; part?: string; ties?: Ties; columns: HazardColumns }[] = [
  ...(["breslow", "efron"] as const).flatMap((ties) => [
    {
      source: `six subjects worked by hand, Therneau & Grambsch 2000, Appendix E, ${ties}`,
      id: "hand_worked_1",
      part: ties,
      ties,
      columns: { ...timeStatus(hand), covariates: from(hand, "x") },
    },
    {
      source: `remission trial, Freireich et al. 1963, Blood 21:699, ${ties}`,
      id: "freireich_ties",
      part: ties,
      ties,
      columns: remission,
    },
    {
      source: `larynx cancer, Kardaun 1983, Stat Neerl 37:103, ${ties}`,
      id: "larynx_stage_age",
      part: ties,
      ties,
      columns: larynxColumns,
    },
    {
      source: `acute myelogenous leukaemia, Miller 1997, whole weights, ${ties}`,
      id: "aml_weights",
      part: `integer_weights_${ties}`,
      ties,
      columns: whole,
    },
    {
      source: `the same, rows repeated, ${ties}`,
      id: "aml_weights",
      part: `rows_repeated_${ties}`,
      ties,
      columns: repeatedColumns,
    },
    {
      source: `the same, fractional weights, robust, ${ties}`,
      id: "aml_weights",
      part: `fractional_weights_${ties}_robust`,
      ties,
      columns: fractional,
    },
  ]),
  {
    source: "ovarian cancer, Edmunson et al. 1979, Cancer Treat Rep 63:241, age and status",
    id: "ovarian_age_ecog",
    columns: { ...timeStatus(ovarian), covariates: from(ovarian, "age", "ecog_ps") },
  },
  {
    source: "the same, four covariates",
    id: "ovarian_four_covariates",
    columns: { ...timeStatus(ovarian), covariates: from(ovarian, "age", "resid_ds", "rx", "ecog_ps") },
  },
  {
    source: "the same, stratified by treatment",
    id: "ovarian_stratified_rx",
    columns: {
      ...timeStatus(ovarian),
      strata: numbers(ovarian, "rx"),
      covariates: from(ovarian, "age", "ecog_ps"),
    },
  },
  {
    source: "the same, age alone",
    id: "ovarian_age",
    columns: { ...timeStatus(ovarian), covariates: from(ovarian, "age") },
  },
  {
    source: "advanced lung cancer, Loprinzi et al. 1994, J Clin Oncol 12:601",
    id: "lung_age_sex_ecog",
    columns: { ...timeStatus(lungEcog), covariates: from(lungEcog, "age", "sex", "ecog") },
  },
  {
    source: "the same within 18 institutions",
    id: "lung_strata_inst",
    columns: {
      ...timeStatus(lungInst),
      strata: numbers(lungInst, "inst"),
      covariates: from(lungInst, "age", "sex"),
    },
  },
  {
    source: "veterans' lung cancer, Kalbfleisch & Prentice 1980",
    id: "veteran_full",
    columns: veteranColumns,
  },
  {
    source: "the same within cell type, Breslow",
    id: "veteran_stratified",
    ties: "breslow",
    columns: {
      ...timeStatus(veteran),
      strata: codes(veteran, "celltype", ["adeno", "large", "smallcell", "squamous"]),
      covariates: from(veteran, "trt", "karno", "age"),
    },
  },
  {
    source: "heart transplants, Crowley & Hu 1977, J Am Stat Assoc 72:27, model 1, start-stop rows",
    id: "heart_transplant",
    part: "m1",
    ties: "breslow",
    columns: heartModel1,
  },
  {
    source: "the same, model 2",
    id: "heart_transplant",
    part: "m2",
    ties: "breslow",
    columns: heartColumns("year", "transplant", "year_tx"),
  },
  {
    source: "the same, model 6",
    id: "heart_transplant",
    part: "m6",
    ties: "breslow",
    columns: heartColumns("age", "transplant", "surgery", "year", "age_tx"),
  },
  {
    source: "the same, robust by subject",
    id: "heart_transplant",
    part: "m1_efron_robust",
    columns: { ...heartColumns("age", "surgery", "transplant"), clusters: numbers(heart, "id") },
  },
  {
    source: "bladder recurrences, Wei, Lin & Weissfeld 1989, J Am Stat Assoc 84:1065, robust by subject",
    id: "bladder_counting_process",
    columns: {
      ...startStop(bladder),
      clusters: numbers(bladder, "id"),
      covariates: from(bladder, "rx", "number", "size"),
    },
  },
  {
    source: "the same, stratified by number of the recurrence",
    id: "bladder_conditional_strata",
    columns: {
      ...startStop(bladder),
      clusters: numbers(bladder, "id"),
      strata: numbers(bladder, "enum"),
      covariates: from(bladder, "rx", "number", "size"),
    },
  },
  {
    source: "kidney catheters, McGilchrist & Aisbett 1991, Biometrics 47:461, two rows a subject",
    id: "kidney_pairs",
    columns: {
      ...timeStatus(kidney),
      clusters: numbers(kidney, "id"),
      covariates: from(kidney, "age", "sex"),
    },
  },
];

describe("proportional-hazards regression against R package survival 3.5.3", () => {
  it.each(cases)("$source", ({ id, part, ties = "efron", columns }) => {
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
  const questions: { source: string; columns: HazardColumns; expected: Expected; ties?: Ties }[] = [
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
});
