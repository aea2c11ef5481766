import { describe, expect, it } from "vitest";
import { clusteredAccuracy, clusteredKappa, kappa } from "../../../../src/statistics/agreement/index.js";
import { tCritical } from "../../../../src/statistics/index.js";
import { type Expected, expectClose } from "../reference-data.js";
import { casesOf, finger } from "./few-clusters.js";

const clusters = finger("person");
const categories = ["0", "1", "2"];
const ratings = { first: finger("first"), second: finger("second") };

describe("kappa with clusters, against numerical derivatives by the weight of each person in base R 4.2.2", () => {
  it.each(casesOf("kappas"))("$id", (wanted: Expected) => {
    const options = { categories, weights: wanted.id };
    const found = clusteredKappa({ ...ratings, clusters }, options);
    expectClose(found.kappa, wanted.kappa, { rel: 1e-12, what: "kappa" });
    // derivatives by differences
    expectClose(found.standardError, wanted.se, { rel: 1e-8, what: "error" });
    expect(found.df).toBe(wanted.df);
    const half = tCritical(0.95, wanted.df) * wanted.se;
    expectClose(found.lower, wanted.kappa - half, { rel: 1e-8, what: "lower" });
    expectClose(found.upper, wanted.kappa + half, { rel: 1e-8, what: "upper" });
  });

  it("each subject by itself: the usual variance times n / (n - 1), Fleiss, Cohen & Everitt 1969, Psychol Bull 72:323", () => {
    const n = clusters.length;
    const own = clusteredKappa({ ...ratings, clusters: clusters.map((_, row) => row) }, { categories });
    const usual = kappa(ratings, { categories });
    expectClose(own.standardError, usual.standardError! * Math.sqrt(n / (n - 1)), {
      rel: 1e-12,
      what: "error",
    });
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
