import { describe, expect, it } from "vitest";
import {
  differencesOfShares,
  logMedians,
  logOddsOfShares,
  pooledShare,
} from "../../../../src/statistics/pooling/index.js";
import { type Expected, expectAllClose, expectClose, referenceCase } from "../reference-data.js";

const { expected: shares } = referenceCase("pooling_more", "shares");
const names = Object.keys(shares);

describe("shares by exact counts against R 4.2.2, the likelihood summed on a grid", () => {
  it.each(
    names.flatMap((name) => [
      { name, spread: "restricted-likelihood", key: "restricted" } as const,
      { name, spread: "likelihood", key: "likelihood" } as const,
    ]),
  )("$name, $spread", ({ name, spread, key }) => {
    const { events, sizes, [key]: wanted } = shares[name] as Expected;
    const found = pooledShare({ events, sizes }, { spread });
    // the reference finds the top by value, and so tau to the root of what its value is good to
    expectClose(found.spread.tau, wanted.tau, { rel: 3e-6, abs: 1e-6, what: "tau" });
    expectClose(found.spread.logLikelihood, wanted.log_likelihood, { rel: 1e-9, what: "log likelihood" });
    expectClose(found.logOdds, wanted.log_odds, { rel: 3e-6, what: "log odds" });
    expectClose(found.standardError, wanted.se, { rel: 1e-5, what: "error" });
    expectClose(found.estimate, wanted.share, { rel: 3e-6, what: "share" });
    expectAllClose([found.lower, found.upper], wanted.ci95, { rel: 5e-5, what: "limits" });
    if (sizes.length > 2)
      expectAllClose([found.prediction.lower, found.prediction.upper], wanted.prediction95, {
        rel: 1e-5,
        what: "prediction",
      });
    else expect(found.prediction.reason).toBe("too-few-sites");
  });

  it("events that miss the size by rounding are all of them: there is no slope to follow without end", () => {
    const found = pooledShare({ events: [10, 12, 18 - 2e-15], sizes: [10, 12, 18] });
    expect(found.reason).toBe("all-returned");
    expect(found.estimate).toBe(1);
    expect(pooledShare({ events: [1e-16, 0, 0], sizes: [10, 12, 18] }).reason).toBe("no-events");
  });

  it("half an event added at every site: metafor 3.8.1", () => {
    const { expected } = referenceCase("pooling_more", "log_odds");
    const { events, sizes } = shares.edges;
    const found = logOddsOfShares({ events, sizes });
    expectAllClose(found.estimates, expected.yi, { rel: 1e-12, what: "log odds" });
    expectAllClose(found.variances, expected.vi, { rel: 1e-12, what: "variance" });
  });
});

describe("differences of shares", () => {
  it("with an event added on both sides of each share for the variance: Agresti & Caffo 2000, by hand", () => {
    const { estimates, variances } = differencesOfShares({
      a: { events: [6, 5, null], sizes: [6, 10, 4] },
      b: { events: [2, 3, 1], sizes: [4, 12, 3] },
    });
    expectAllClose(estimates, [1 - 0.5, 0.5 - 0.25, null], { rel: 1e-14, what: "difference" });
    const part = (p: number, m: number) => (p * (1 - p)) / m;
    const wanted = [part(7 / 8, 8) + part(3 / 6, 6), part(6 / 12, 12) + part(4 / 14, 14), null];
    expectAllClose(variances, wanted, { rel: 1e-14, what: "variance" });
  });
});

describe("medians of sites", () => {
  it("the variance is that of which the limits are a multiple: by hand", () => {
    const { estimates, variances } = logMedians({ medians: [80, null], lower: [60, 50], upper: [110, null] });
    expectClose(estimates[0], Math.log(80), { rel: 1e-12, what: "log median" });
    expectClose(Math.sqrt(variances[0]!), Math.log(110 / 60) / (2 * 1.959963984540054), {
      rel: 1e-12,
      what: "error",
    });
    expect([estimates[1], variances[1]]).toEqual([null, null]);
  });
});
