import { describe, expect, it } from "vitest";
import {
  type AcceleratedColumns,
  acceleratedModel,
  acceleratedPrediction,
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
  weibull: "weibull",
  lognormal: "log-normal",
  loglogistic: "log-logistic",
  gengamma: "generalised-gamma",
};

const lung = referenceRows("aft", "lung.csv").filter((row) => row.ecog !== "" && row.ecog !== "NA");
const cosmesis = referenceRows("aft", "breast_cosmesis.csv");
const visits = referenceRows("visits", "visits.csv");
const end = (row: Row, column: string) =>
  row[column] === "" || row[column] === "NA" ? null : Number(row[column]);
const named = (rows: readonly Row[], names: readonly string[]) => ({
  names,
  columns: names.map((name) => numbers(rows, name)),
});

const times = numbers(lung, "time");
const ofLung: AcceleratedColumns = {
  left: times,
  right: times.map((time, at) => (lung[at]?.status === "1" ? time : null)),
  covariates: named(lung, ["age", "sex", "ecog"]),
};
const ofCosmesis: AcceleratedColumns = {
  left: numbers(cosmesis, "left"),
  right: cosmesis.map((row) => end(row, "right")),
  covariates: {
    names: ["chemo"],
    columns: [cosmesis.map((row) => Number(row.treatment === "radio+chemo"))],
  },
};
const ofVisits: AcceleratedColumns = {
  left: numbers(visits, "left"),
  right: visits.map((row) => (row.end === "1" ? end(row, "right") : null)),
  covariates: named(visits, ["group", "grade"]),
};
const late = { entries: numbers(visits, "entry"), clusters: numbers(visits, "person") };

function expectMaximum(
  columns: AcceleratedColumns,
  expected: Expected,
  how: { law: TimeLaw; at: number[] },
): void {
  const fit = acceleratedModel(columns, { law: how.law });
  expect(fit.status).toBe("ok");
  const found = [
    fit.intercept,
    ...fit.coefficients,
    fit.logScale,
    ...(fit.shape === null ? [] : [fit.shape]),
  ];
  const close = { rel: 1e-5, abs: 1e-6 };
  expectAllClose(found, expected.estimates, { ...close, what: "estimates" });
  expectClose(fit.logLikelihood, expected.log_likelihood, { rel: 1e-9, abs: 1e-9, what: "log-likelihood" });
  expectClose(fit.aic, expected.aic, { rel: 1e-9, abs: 1e-9, what: "AIC" });
  expectAllClose(fit.covariance.flat(), expected.covariance.flat(), { ...close, what: "covariance" });
  if (expected.robust)
    expectAllClose(fit.robustCovariance!.flat(), expected.robust.flat(), { ...close, what: "robust" });
  const [prediction] = acceleratedPrediction(fit, { covariates: [how.at], times: expected.shares.at });
  const { shares, quantiles } = prediction!;
  expectAllClose(
    shares.map((s) => s.notYet),
    expected.shares.not_yet,
    { ...close, what: "shares" },
  );
  expectAllClose(
    shares.map((s) => s.standardError),
    expected.shares.se,
    { ...close, what: "their errors" },
  );
  expectAllClose(
    quantiles.map((q) => q.time),
    expected.quantiles.times,
    { ...close, what: "times" },
  );
  expectAllClose(
    quantiles.map((q) => q.standardError),
    expected.quantiles.se,
    { ...close, what: "their errors" },
  );
}

describe("generalised gamma law, by direct maximisation in R", () => {
  it("exact and right-censored times: advanced lung cancer, Loprinzi et al. 1994, J Clin Oncol 12:601", () => {
    const { expected } = referenceCase("visits", "generalised_gamma_lung");
    expectMaximum(ofLung, expected, { law: "generalised-gamma", at: [60, 1, 1] });
  });
  it("intervals: breast cosmesis, Finkelstein & Wolfe 1985, Biometrics 41:933", () => {
    const { expected } = referenceCase("visits", "generalised_gamma_cosmesis");
    expectMaximum(ofCosmesis, expected, { law: "generalised-gamma", at: [1] });
  });
  it("exact times and intervals mixed, SYNTHETIC visits", () => {
    const { expected } = referenceCase("visits", "generalised_gamma_visits");
    expectMaximum(ofVisits, expected.gengamma, { law: "generalised-gamma", at: [0, 3] });
  });
});

describe("late entry and several injuries a person, by direct maximisation in R, SYNTHETIC visits", () => {
  it.each(Object.entries(laws))("%s", (name, law) => {
    const { expected } = referenceCase("visits", "late_entry");
    expectMaximum({ ...ofVisits, ...late }, expected[name], { law, at: [1, 2] });
  });
});
