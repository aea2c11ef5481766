import { describe, expect, it } from "vitest";
import { furtherSite, furtherSiteShare } from "../../../../src/statistics/pooling/index.js";
import { tCritical } from "../../../../src/statistics/shared/distributions.js";
import { type Expected, expectAllClose, expectClose, referenceCase } from "../reference-data.js";

const { expected: estimates } = referenceCase("pooling_further_site", "estimates");
const { expected: counts } = referenceCase("pooling_further_site", "counts");

describe("a further site, the spread integrated out, against R 4.2.2's own quadrature", () => {
  it.each(Object.keys(estimates))("estimates with errors: %s", (name) => {
    const { limits, ...columns } = estimates[name] as Expected;
    const { lower, upper } = furtherSite(columns as Parameters<typeof furtherSite>[0]);
    expectAllClose([lower, upper], limits, { rel: 1e-6, abs: 1e-7, what: "limits" });
  });

  it.each(Object.keys(counts))("counts: %s", (name) => {
    const { limits, ...columns } = counts[name] as Expected;
    const { lower, upper } = furtherSiteShare(columns as Parameters<typeof furtherSiteShare>[0]);
    // the reference lays the likelihood through splines
    expectAllClose([lower, upper], limits, { rel: 1e-4, abs: 1e-6, what: "limits" });
  });
});

describe("a further site where errors within sites are nothing beside the spread", () => {
  it.each([{ sample: [1, 2, 6] }, { sample: [3, 1, 4, 1, 5, 9, 2, 6] }])(
    "is the prediction interval of the normal sample $sample, t with k - 1: Hahn 1969, J Qual Technol 1:168",
    ({ sample }) => {
      const k = sample.length;
      const mean = sample.reduce((sum, value) => sum + value, 0) / k;
      const squares = sample.reduce((sum, value) => sum + (value - mean) ** 2, 0);
      const half = tCritical(0.95, k - 1) * Math.sqrt((squares / (k - 1)) * (1 + 1 / k));
      const { lower, upper } = furtherSite({ estimates: sample, variances: sample.map(() => 1e-10) });
      expectClose(lower, mean - half, { rel: 1e-6, what: "lower" });
      expectClose(upper, mean + half, { rel: 1e-6, what: "upper" });
    },
  );

  it("two sites foretell nothing", () => {
    expect(furtherSite({ estimates: [1, 2], variances: [1, 1] }).reason).toBe("too-few-sites");
    expect(furtherSiteShare({ events: [1, 2, 3], sizes: [1, 2, 3] }).reason).toBe("all-returned");
  });
});
