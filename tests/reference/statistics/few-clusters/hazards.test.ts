import { describe, expect, it } from "vitest";
import { clusteredHazardRatios } from "../../../../src/statistics/hazards/clusters/clustered-ratios.js";
import { type Expected, expectAllClose, numbers, referenceRows } from "../reference-data.js";
import { casesOf, finger } from "./few-clusters.js";

const kidney = referenceRows("cox", "kidney_catheter.csv");
const lung = referenceRows("cox", "lung.csv").filter(({ inst }) => inst !== "");
const back = { times: finger("time"), events: finger("cause").map((cause) => (cause === 1 ? 1 : 0)) };
const clusters = finger("person");
const group = { names: ["group"], columns: [finger("group")] };
const groupAndBefore = { names: ["group", "before"], columns: [finger("group"), finger("before")] };
const ageAndSex = (rows: typeof kidney) => ({
  times: numbers(rows, "time"),
  events: numbers(rows, "status"),
  covariates: { names: ["age", "sex"], columns: [numbers(rows, "age"), numbers(rows, "sex")] },
});

const fits = {
  "kidney catheters, age and sex, persons": () =>
    clusteredHazardRatios({ ...ageAndSex(kidney), clusters: numbers(kidney, "id") }),
  "fingers, group within grades, persons": () =>
    clusteredHazardRatios({ ...back, clusters, strata: finger("grade"), covariates: group }),
  "fingers, group and baseline within grades, late entry, Breslow": () =>
    clusteredHazardRatios(
      { ...back, clusters, entries: finger("entry"), strata: finger("grade"), covariates: groupAndBefore },
      { ties: "breslow" },
    ),
  "fingers, group and baseline, late entry, Efron": () =>
    clusteredHazardRatios({ ...back, clusters, entries: finger("entry"), covariates: groupAndBefore }),
  "fingers, weights, Breslow": () =>
    clusteredHazardRatios(
      { ...back, clusters, weights: finger("weight"), covariates: groupAndBefore },
      { ties: "breslow" },
    ),
  "lung, age and sex, institutions": () =>
    clusteredHazardRatios({ ...ageAndSex(lung), clusters: numbers(lung, "inst") }),
} as const;

const list = (value: Expected): Expected[] => (Array.isArray(value) ? value : [value]);

describe("bias-reduced sandwich with Student's t, against R package survival 3.5.3: dfbeta by cluster times one Newton step without the cluster", () => {
  it.each(casesOf("hazards"))("$id", (wanted: Expected) => {
    const found = fits[wanted.id as keyof typeof fits]();
    const how = { rel: 1e-6 };
    expect(found.correction).toBe("deletion");
    expect(found.df).toBe(wanted.df);
    expectAllClose(found.fit.coefficients, list(wanted.coef), { ...how, what: "coefficient" });
    expectAllClose(found.fit.robustStandardErrors ?? [], list(wanted.sandwich_se), {
      ...how,
      what: "large-sample error",
    });
    const ratios = found.hazardRatios;
    expectAllClose(
      ratios.map(({ standardError }) => standardError),
      list(wanted.se),
      { ...how, what: "error" },
    );
    expectAllClose(
      ratios.map(({ lower }) => lower),
      list(wanted.lower),
      { ...how, what: "lower" },
    );
    expectAllClose(
      ratios.map(({ upper }) => upper),
      list(wanted.upper),
      { ...how, what: "upper" },
    );
    expectAllClose(
      ratios.map(({ p }) => p),
      list(wanted.p),
      { ...how, what: "p" },
    );
    expectAllClose(found.covariance.flat(), wanted.covariance.flat(), { ...how, what: "covariance" });
  });
});
