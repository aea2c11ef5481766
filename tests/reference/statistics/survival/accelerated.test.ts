import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import {
  type AcceleratedColumns,
  acceleratedModel,
  acceleratedPrediction,
  compareLaws,
  type TimeLaw,
} from "../../../../src/statistics/survival/accelerated/index.js";
import {
  type Expected,
  expectAllClose,
  expectClose,
  numbers,
  type Row,
  referenceCase,
  referenceRows,
} from "../reference-data.js";

const laws: Readonly<Record<string, TimeLaw>> = {
  exponential: "exponential",
  weibull: "weibull",
  lognormal: "log-normal",
  loglogistic: "log-logistic",
};

const covariatesOf = (rows: readonly Row[], names: readonly string[]) => ({
  names,
  columns: names.map((name) => numbers(rows, name)),
});
const rightCensored = (rows: readonly Row[], time: string, event: string) => {
  const times = numbers(rows, time);
  return { left: times, right: times.map((value, at) => (rows[at]?.[event] === "1" ? value : null)) };
};
const intervals = (rows: readonly Row[], left: string, right: string) => ({
  left: numbers(rows, left),
  right: rows.map((row) => (row[right] === "" || row[right] === "NA" ? null : Number(row[right]))),
});
const flag = (value: boolean): string => String(Number(value));

const lung = referenceRows("aft", "lung.csv").filter((row) => row.ecog !== "" && row.ecog !== "NA");
const ovarian = referenceRows("aft", "ovarian.csv");
const larynx = referenceRows("aft", "larynx.csv").map((row) => ({
  ...row,
  s2: flag(row.stage === "2"),
  s3: flag(row.stage === "3"),
  s4: flag(row.stage === "4"),
}));
const cosmesis = referenceRows("aft", "breast_cosmesis.csv").map((row) => ({
  ...row,
  chemo: flag(row.treatment === "radio+chemo"),
}));
const cohort = referenceRows("synthetic_cohort", "cohort.csv").map((row) => ({
  ...row,
  ev: flag(row.outcome === "1"),
  ring: flag(row.treatment === "ring"),
  surg: flag(row.treatment === "surgery"),
}));
const cohortCovariates = covariatesOf(cohort, ["age", "male", "grade", "ring", "surg"]);

const cases: { source: string; topic: string; id: string; columns: AcceleratedColumns }[] = [
  {
    source: "advanced lung cancer, Loprinzi et al. 1994, J Clin Oncol 12:601",
    topic: "aft",
    id: "lung",
    columns: {
      ...rightCensored(lung, "time", "status"),
      covariates: covariatesOf(lung, ["age", "sex", "ecog"]),
    },
  },
  {
    source: "ovarian cancer, Edmonson et al. 1979, Cancer Treat Rep 63:241",
    topic: "aft",
    id: "ovarian",
    columns: {
      ...rightCensored(ovarian, "time", "status"),
      covariates: covariatesOf(ovarian, ["ecog_ps", "rx"]),
    },
  },
  {
    source: "larynx cancer, Klein & Moeschberger 2003, Survival Analysis",
    topic: "aft",
    id: "larynx",
    columns: {
      ...rightCensored(larynx, "time", "death"),
      covariates: covariatesOf(larynx, ["s2", "s3", "s4", "age"]),
    },
  },
  {
    source: "interval-censored: breast cosmesis, Finkelstein & Wolfe 1985, Biometrics 41:933",
    topic: "aft",
    id: "breast_cosmesis_interval",
    columns: { ...intervals(cosmesis, "left", "right"), covariates: covariatesOf(cosmesis, ["chemo"]) },
  },
  {
    source: "SYNTHETIC cohort, right-censored",
    topic: "synthetic_cohort",
    id: "aft",
    columns: { ...rightCensored(cohort, "days", "ev"), covariates: cohortCovariates },
  },
  {
    source: "SYNTHETIC cohort, interval-censored",
    topic: "synthetic_cohort",
    id: "aft_interval",
    columns: { ...intervals(cohort, "visit_left", "visit_right"), covariates: cohortCovariates },
  },
];

function expectFit(columns: AcceleratedColumns, expected: Expected, law: TimeLaw): void {
  const how = { rel: 1e-9, abs: 1e-12 };
  const fit = acceleratedModel(columns, { law });
  const { names } = fit;
  const inOrder = (byName: Expected): number[] => names.map((name) => byName[name] ?? byName);
  expect(fit.status).toBe("ok");
  expect(fit.n - fit.rows.uninformative).toBe(expected.n);
  expectClose(fit.intercept, expected.coef["(Intercept)"], { ...how, what: "intercept" });
  expectClose(fit.interceptStandardError, expected.se["(Intercept)"], { ...how, what: "its error" });
  expectAllClose(fit.coefficients, inOrder(expected.coef), { ...how, what: "coefficients" });
  expectAllClose(fit.standardErrors, inOrder(expected.se), { ...how, what: "errors" });
  expectClose(fit.scale, expected.scale, { ...how, what: "scale" });
  if (law !== "exponential") {
    expectClose(fit.logScale, expected.log_scale, { ...how, what: "log scale" });
    expectClose(fit.logScaleStandardError, expected.se_log_scale, { ...how, what: "its error" });
  }
  expectAllClose(fit.covariance.flat(), expected.covariance.flat(), { ...how, what: "covariance" });
  expectAllClose(
    fit.timeRatios.map((ratio) => ratio.estimate),
    inOrder(expected.time_ratio),
    { ...how, what: "time ratios" },
  );
  expectAllClose(
    fit.timeRatios.map((ratio) => ratio.p),
    inOrder(expected.p),
    { ...how, what: "p" },
  );
  names.forEach((name, at) => {
    const limits = [fit.timeRatios[at]?.lower, fit.timeRatios[at]?.upper].map((v) => Math.log(v!));
    expectAllClose(limits, expected.ci95[name], { ...how, abs: 1e-10, what: `limits of ${name}` });
  });
  if (expected.hazard_ratio) {
    expectAllClose(
      (fit.hazardRatios ?? []).map((ratio) => ratio.estimate),
      inOrder(expected.hazard_ratio),
      { ...how, what: "hazard ratios" },
    );
    expectAllClose(
      (fit.hazardRatios ?? []).map((ratio) => ratio.standardError),
      inOrder(expected.se_log_hazard_ratio),
      { ...how, what: "their errors" },
    );
  }
  if (expected.odds_ratio_of_event)
    expectAllClose(
      (fit.oddsRatios ?? []).map((ratio) => ratio.estimate),
      inOrder(expected.odds_ratio_of_event),
      { ...how, what: "odds ratios" },
    );
  expectClose(fit.logLikelihood, expected.log_likelihood, { ...how, what: "log-likelihood" });
  expectClose(fit.logLikelihoodNull, expected.log_likelihood_intercept_only, { ...how, what: "null" });
  expectClose(fit.likelihoodRatio.statistic, expected.lr_chisq, { ...how, what: "likelihood ratio" });
  expect(fit.likelihoodRatio.df).toBe(expected.df);
  expectClose(fit.aic, expected.aic, { ...how, what: "AIC" });
  for (const wanted of expected.predicted ?? []) {
    const [prediction] = acceleratedPrediction(fit, {
      covariates: [names.map((name) => wanted.covariates[name])],
      shares: wanted.probability_of_event,
      times: wanted.at,
    });
    const quantiles = prediction?.quantiles ?? [];
    expectAllClose(
      quantiles.map((one) => one.time),
      wanted.time,
      { ...how, what: "predicted times" },
    );
    expectAllClose(
      quantiles.map((one) => one.standardError),
      wanted.se_time,
      { ...how, what: "their errors" },
    );
    expectAllClose(
      (prediction?.shares ?? []).map((one) => one.notYet),
      wanted.survival,
      { ...how, what: "predicted shares" },
    );
  }
}

describe("accelerated failure-time models, R package survival 3.5.3", () => {
  for (const { source, topic, id, columns } of cases) {
    const { expected } = referenceCase(topic, id);
    it.each(Object.keys(expected))(`${source}: %s`, (name) => {
      expectFit(columns, expected[name], laws[name]!);
    });
  }

  it("clustered variance, made-up log-normal times, R package survival 3.5.3", () => {
    // exact and right-censored rows, unweighted: there that package's scores sum to 0 (its scores of the scale of interval-censored rows do not)
    const { times, events, clusters, x, robust } = JSON.parse(
      readFileSync(new URL("../../data/aft/clusters.json", import.meta.url), "utf8"),
    );
    const fit = acceleratedModel(
      {
        left: times,
        right: times.map((time: number, at: number) => (events[at] === 1 ? time : null)),
        clusters,
        covariates: { names: ["x"], columns: [x] },
      },
      { law: "log-normal" },
    );
    expectAllClose((fit.robustCovariance ?? []).flat(), robust, { rel: 1e-9, what: "robust covariance" });
  });
});

describe("closed forms", () => {
  const none = { names: [], columns: [] };

  it("exponential: events over time, by hand: 3 events in 30 days", () => {
    const fit = acceleratedModel(
      { left: [4, 6, 9, 11], right: [4, 6, null, 11], covariates: none },
      { law: "exponential" },
    );
    expectClose(fit.intercept, Math.log(10), { rel: 1e-12, what: "log mean" });
    expectClose(fit.interceptStandardError, 1 / Math.sqrt(3), { rel: 1e-12, what: "its error" });
    expectClose(fit.logLikelihood, -3 * Math.log(10) - 3, { rel: 1e-12, what: "log-likelihood" });
  });

  it("log-normal without censoring: mean and standard deviation (divisor n) of the logarithms", () => {
    const times = [3, 5, 8, 13, 21];
    const logs = times.map(Math.log);
    const mean = logs.reduce((sum, log) => sum + log, 0) / 5;
    const scale = Math.sqrt(logs.reduce((sum, log) => sum + (log - mean) ** 2, 0) / 5);
    const fit = acceleratedModel({ left: times, right: times, covariates: none }, { law: "log-normal" });
    expectClose(fit.intercept, mean, { rel: 1e-12, what: "mean" });
    expectClose(fit.scale, scale, { rel: 1e-12, what: "scale" });
    const [prediction] = acceleratedPrediction(fit, {
      covariates: [[]],
      shares: [0.5],
      times: [Math.exp(mean)],
    });
    expectClose(prediction?.quantiles[0]?.time, Math.exp(mean), { rel: 1e-12, what: "median" });
    expectClose(prediction?.shares[0]?.notYet, 0.5, { rel: 1e-12, what: "share at the median" });
  });

  it("comparison: the four laws in order of AIC", () => {
    const compared = compareLaws(cases[0]!.columns!, {
      laws: Object.values(laws),
    });
    const { expected } = referenceCase("aft", "lung");
    const order = Object.keys(expected).sort((a, b) => expected[a].aic - expected[b].aic);
    expect(compared.map(({ fit }) => fit.law)).toEqual(order.map((name) => laws[name]));
    expectAllClose(
      compared.map(({ aicDifference }) => aicDifference),
      order.map((name) => expected[name].aic - expected[order[0]!].aic),
      { rel: 1e-9, abs: 1e-9, what: "differences" },
    );
  });
});
