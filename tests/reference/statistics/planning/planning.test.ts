import { describe, expect, it } from "vitest";
import {
  eventsForRatio,
  powerOfEvents,
  powerOfShares,
  recruits,
  shareSeen,
  sizeForIntraclass,
  sizeForShareWidth,
  sizeOfDifference,
  sizeOfMeans,
  sizeOfPairs,
  sizeOfShares,
  widthOfShare,
} from "../../../../src/statistics/planning/index.js";
import { type Expected, expectClose, referenceCase } from "../reference-data.js";

const topic = "sample_size";
const by = (id: string) => {
  const { expected, tolerance } = referenceCase(topic, id);
  return { expected, rel: tolerance.rel } as { expected: Expected; rel: number };
};

/** Cases that stand as columns of equal length. */
const listed = (id: string): { rel: number; rows: Expected[] } => {
  const { expected, rel } = by(id);
  return {
    rel,
    rows: expected.result.map((result: number, i: number) =>
      Object.fromEntries([
        ...Object.entries(expected).map(([name, values]) => [name, (values as number[])[i]]),
        ["result", result],
      ]),
    ),
  };
};

describe("events for a ratio of rates, R 4.2.2 by the published formulas", () => {
  it("Schoenfeld 1983, Biometrics 39:499", () => {
    const { rows, rel } = listed("events_schoenfeld");
    expect(rows.length).toBe(48);
    for (const { hr, alpha, power, p, result } of rows) {
      const found = eventsForRatio({ hazardRatio: hr, level: 1 - alpha, power, ratio: (1 - p) / p });
      expectClose(found, result, { rel: Math.max(rel, 1e-11), what: `ratio ${hr}` });
    }
  });

  it("Freedman 1982, Stat Med 1:121", () => {
    const { rows } = listed("events_freedman");
    for (const { hr, alpha, power, ratio, result } of rows) {
      const found = eventsForRatio({ hazardRatio: hr, level: 1 - alpha, power, ratio, formula: "freedman" });
      expectClose(found, result, { rel: 1e-11, what: `ratio ${hr}` });
    }
  });

  it("power of so many events", () => {
    const { rows, rel } = listed("power_from_events");
    for (const { events, hr, result } of rows)
      expectClose(powerOfEvents({ events, hazardRatio: hr }), result, { rel, what: `${events} events` });
  });

  it("people from events, exponential times and even accrual", () => {
    const { expected: e } = by("subjects_exponential");
    const rate = Math.log(2) / e.median_control;
    const seen = (one: number) => shareSeen({ rate: one, accrual: e.accrual, followUp: e.follow_up });
    const [control, treated] = [seen(rate), seen(rate * e.hr)];
    expectClose(control, e.probability_control, { rel: 1e-12, what: "control" });
    expectClose(treated, e.probability_treated, { rel: 1e-12, what: "treated" });
    const people = eventsForRatio({ hazardRatio: e.hr }) / ((control + treated) / 2);
    expectClose(people, e.total_subjects, { rel: 1e-11, what: "people" });
  });

  it("returns seen beside losses and other ends, by integration", () => {
    const { expected, rel } = by("returns_seen");
    for (const { rate, other, accrual, follow, result } of expected)
      expectClose(shareSeen({ rate, accrual, followUp: follow, otherEnds: other }), result, {
        rel,
        what: "part",
      });
  });
});

describe("two means and pairs, R 4.2.2: exact noncentral t, both tails", () => {
  it("two groups of one size; Cohen 1988, from memory: 63.77 for half a deviation", () => {
    const { expected, rel } = by("two_sample_t");
    for (const { d, alpha, power, result } of expected) {
      const { first, second } = sizeOfMeans({ difference: -d, deviation: 1, level: 1 - alpha, power });
      expectClose(first, result.n_per_group_exact, { rel, what: `d ${d}` });
      expect(second).toBe(first);
    }
    expect(sizeOfMeans({ difference: 0.5, deviation: 1 }).first).toBeCloseTo(63.766, 3);
  });

  it("groups of unequal size, the power turned round", () => {
    const { expected, rel } = by("unequal_means");
    for (const { d, ratio, power, result } of expected)
      expectClose(sizeOfMeans({ difference: 3 * d, deviation: 3, ratio, power }).first, result, {
        rel,
        what: `d ${d}, ratio ${ratio}`,
      });
  });

  it("pairs", () => {
    const { expected, rel } = by("paired_t");
    for (const { d, alpha, power, result } of expected)
      expectClose(
        sizeOfPairs({ difference: d, deviation: 1, level: 1 - alpha, power }),
        result.n_pairs_exact,
        {
          rel,
          what: `d ${d}`,
        },
      );
  });

  it("figures with normal errors (restricted means), the power of a z-test turned round", () => {
    const { expected, rel } = by("difference_of_means");
    for (const { d, s1, s2, ratio, power, result } of expected) {
      const asked = { difference: d, deviation: s1, otherDeviation: s2, ratio, power };
      expectClose(sizeOfDifference(asked).first, result, { rel, what: `${d} days` });
    }
  });
});

describe("two shares, R 4.2.2", () => {
  it("groups of one size, pooled and unpooled variance", () => {
    const { expected, rel } = by("two_proportions");
    for (const { p1, p2, alpha, power, result } of expected)
      for (const formula of ["pooled", "unpooled"] as const) {
        const asked = { one: p1, other: p2, formula, level: 1 - alpha };
        const { first } = sizeOfShares({ ...asked, power });
        expectClose(first, result[formula === "pooled" ? "pooled_variance" : "unpooled"], {
          rel,
          what: formula,
        });
        expectClose(powerOfShares({ ...asked, first, second: first }), power, { rel: 1e-9, what: "power" });
      }
  });

  it("groups of unequal size, the power turned round", () => {
    const { expected, rel } = by("unequal_shares");
    for (const { p1, p2, ratio, power, result } of expected) {
      const { first, second } = sizeOfShares({ one: p1, other: p2, ratio, power });
      expectClose(first, result, { rel, what: `ratio ${ratio}` });
      expectClose(second, ratio * result, { rel, what: `ratio ${ratio}` });
    }
  });
});

describe("widths and clusters, R 4.2.2", () => {
  it("score interval of a share", () => {
    const { expected, rel } = by("wilson_precision");
    for (const { p, width, result } of expected) {
      expectClose(sizeForShareWidth({ share: p, width }), result.n_exact, { rel, what: `width ${width}` });
      expectClose(widthOfShare({ share: p, size: result.n }), result.width_at_n, {
        rel,
        what: `n ${result.n}`,
      });
    }
  });

  it("intraclass correlation, Bonett 2002, Stat Med 21:1331 (formula only)", () => {
    const { expected, rel } = by("intraclass_precision");
    for (const { r, k, w, result } of expected)
      expectClose(sizeForIntraclass({ intraclass: r, raters: k, width: w }), result, { rel, what: `r ${r}` });
  });

  it("design effect of people with unlike numbers of injuries, from the variance of their mean", () => {
    const { expected } = by("design_effect");
    const sizes: number[] = expected.sizes;
    const mean = sizes.reduce((sum, one) => sum + one, 0) / sizes.length;
    const spread = Math.sqrt(sizes.reduce((sum, one) => sum + (one - mean) ** 2, 0) / sizes.length);
    expected.intraclass.forEach((intraclass: number, i: number) => {
      const found = recruits({ size: 80, perCluster: mean, variation: spread / mean, intraclass, loss: 0.2 });
      expectClose(found.designEffect, expected.result[i], { rel: 1e-12, what: `r ${intraclass}` });
      expectClose(found.injuries, 100 * expected.result[i], { rel: 1e-12, what: "injuries" });
    });
  });
});
