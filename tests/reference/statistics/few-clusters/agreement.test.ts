import { describe, expect, it } from "vitest";
import { clusteredAccuracy, clusteredKappa } from "../../../../src/statistics/agreement/index.js";
import { tCritical } from "../../../../src/statistics/index.js";
import { type Expected, expectClose } from "../reference-data.js";
import { casesOf, finger } from "./few-clusters.js";

const clusters = finger("person");
const categories = ["0", "1", "2"];
const ratings = { first: finger("first"), second: finger("second") };

describe("kappa with clusters, against the jackknife over persons in base R 4.2.2", () => {
  it.each(casesOf("kappas"))("$id", (wanted: Expected) => {
    const options = { categories, weights: wanted.id };
    const found = clusteredKappa({ ...ratings, clusters }, options);
    expectClose(found.kappa, wanted.kappa, { rel: 1e-12, what: "kappa" });
    expectClose(found.standardError, wanted.se, { rel: 1e-9, what: "error" });
    expect(found.df).toBe(wanted.df);
    const half = tCritical(0.95, wanted.df) * wanted.se;
    expectClose(found.lower, wanted.kappa - half, { rel: 1e-9, what: "lower" });
    expectClose(found.upper, wanted.kappa + half, { rel: 1e-9, what: "upper" });
  });

  it("it is a little above the error by derivatives, which it comes to with many persons", () => {
    const wide = Array.from({ length: 60 }, (_, copy) => copy);
    const many = {
      first: wide.flatMap(() => ratings.first),
      second: wide.flatMap(() => ratings.second),
      clusters: wide.flatMap((copy) => clusters.map((person) => 100 * copy + person)),
    };
    for (const wanted of casesOf("kappas") as Expected[]) {
      const options = { categories, weights: wanted.id };
      const ratio = clusteredKappa({ ...ratings, clusters }, options).standardError! / wanted.linear_se;
      expect(ratio).toBeGreaterThan(1);
      expect(ratio).toBeLessThan(1.1);
      const spread = clusteredKappa(many, options).standardError! * Math.sqrt(60);
      // without the factor G / (G - 1) of 26 persons, to a part of 60 x 26
      expectClose(spread, wanted.linear_se * Math.sqrt(25 / 26), { rel: 2e-3, what: "error" });
    }
  });
});

describe("shares of a threshold with clusters, against base R 4.2.2", () => {
  const found = clusteredAccuracy(
    { values: finger("reading"), states: finger("torn"), clusters },
    { threshold: 2.5 },
  );
  it.each(casesOf("shares"))("$id", (wanted: Expected) => {
    const share = found[wanted.id as "sensitivity" | "specificity" | "accuracy"];
    const pairs = [
      ["share", share.estimate, wanted.share],
      ["error", share.standardError, wanted.se],
      ["design effect", share.designEffect, wanted.design_effect],
      ["lower", share.lower, wanted.lower],
      ["upper", share.upper, wanted.upper],
    ] as const;
    for (const [what, value, expected] of pairs) expectClose(value, expected, { rel: 1e-9, what });
    expect([share.n, share.clusters]).toEqual([wanted.n, wanted.clusters]);
  });
});
