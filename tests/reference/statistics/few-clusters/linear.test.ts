import { describe, expect, it } from "vitest";
import { type LinearFit, linearRegression } from "../../../../src/statistics/index.js";
import { type Expected, expectAllClose } from "../reference-data.js";
import { casesOf, finger } from "./few-clusters.js";

const change = finger("after").map((after, at) => after - finger("before")[at]!);
const person = finger("person");
const sets = {
  "change by group": { response: change, names: ["group"], clusters: person },
  "baseline and group": { response: finger("after"), names: ["before", "group"], clusters: person },
  "baseline and group, six large clusters": {
    response: finger("after"),
    names: ["before", "group"],
    clusters: person.map((one) => Math.ceil(one / 5)),
  },
  "mean change": { response: change, names: [], clusters: person },
  "rows by themselves": {
    response: finger("after"),
    names: ["before", "group"],
    clusters: person.map((_, row) => row),
  },
} as const;

const fitOf = ({ response, names, clusters }: (typeof sets)[keyof typeof sets]): LinearFit =>
  linearRegression(
    { response, covariates: { names, columns: names.map(finger) }, clusters },
    { variance: "reduced-bias" },
  );

describe("bias-reduced clustered variance with Satterthwaite's degrees of freedom, against the full matrices in base R 4.2.2", () => {
  it.each(casesOf("linears"))("$id", (wanted: Expected) => {
    const fit = fitOf(sets[wanted.id as keyof typeof sets]);
    const flat = (value: Expected): Expected[] => [value].flat(2);
    const pairs = [
      ["coefficient", fit.coefficients, wanted.coef],
      ["error", fit.standardErrors, wanted.se],
      ["degrees of freedom", fit.termDf, wanted.df],
      ["lower", fit.lower, wanted.lower],
      ["upper", fit.upper, wanted.upper],
      ["p", fit.p, wanted.p],
      ["covariance", fit.covariance.flat(), wanted.covariance],
    ] as const;
    for (const [what, found, value] of pairs) expectAllClose(found, flat(value), { rel: 1e-8, what });
    expect(fit.reason).toBeNull();
  });
});
