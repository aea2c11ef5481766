import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { benjaminiHochberg, holm } from "../../../src/statistics/comparison/multiplicity.js";
import {
  analysisOfVariance,
  permutationOfMeans,
  rankSum,
  rankTestOfGroups,
  sampleQuantile,
  signedRank,
  standardisedMeanDifference,
  studentT,
} from "../../../src/statistics/continuous/index.js";
import {
  conditionalOddsRatio,
  fisher,
  oddsRatio,
  pairedDifference,
  pairedTest,
  proportionInterval,
  proportionsTest,
  proportionTrend,
  riskDifference,
} from "../../../src/statistics/proportions/index.js";
import { allNear, near, settings } from "./cohorts.js";

const value = fc.integer({ min: -8, max: 8 });
const values = fc.array(value, { minLength: 1, maxLength: 9 });
const samples = fc.record({ a: values, b: values });
const count = fc.integer({ min: 0, max: 25 });
const table = fc.record({ a: count, b: count, c: count, d: count });

describe("two samples", () => {
  test("swapping the groups turns t, shift and tails round and leaves the p-value", () => {
    fc.assert(
      fc.property(samples, ({ a, b }) => {
        const [one, two] = [rankSum({ a, b }), rankSum({ a: b, b: a })];
        const [t, turned] = [studentT({ a, b }), studentT({ a: b, b: a })];
        return (
          near(one.p, two.p) &&
          near(one.exact?.less, two.exact?.greater) &&
          near(one.shift?.estimate, -(two.shift?.estimate ?? 0)) &&
          near(t.difference, -(turned.difference ?? 0)) &&
          near(t.p, turned.p)
        );
      }),
      settings,
    );
  });

  test("rank tests do not change under a rising transformation, and Fisher's choices are all C(n, m)", () => {
    fc.assert(
      fc.property(samples, ({ a, b }) => {
        const cube = (list: number[]) => list.map((x) => x ** 3 + x);
        return (
          near(rankSum({ a, b }).p, rankSum({ a: cube(a), b: cube(b) }).p) &&
          permutationOfMeans({ a, b }, { method: "exact" }).choices === choose(a.length + b.length, a.length)
        );
      }),
      settings,
    );
  });

  test("the shift is the median of the differences written out, its limits are ordered differences", () => {
    fc.assert(
      fc.property(samples, ({ a, b }) => {
        const all = a.flatMap((x) => b.map((y) => x - y)).sort((one, two) => one - two);
        const half = all.length / 2;
        const median = (all[Math.ceil(half) - 1]! + all[Math.floor(half)]!) / 2;
        const found = rankSum({ a, b }).shift;
        const { rank, lower, upper } = found?.approximate.outward ?? { rank: 0, lower: null, upper: null };
        const limits = rank < 1 ? [null, null] : [all[rank - 1]!, all[all.length - rank]!];
        return near(found?.estimate, median) && allNear([lower, upper], limits);
      }),
      settings,
    );
  });

  test("two groups: F is the square of t, and the rank test the square of z without correction", () => {
    fc.assert(
      fc.property(samples, ({ a, b }) => {
        const rows = { values: [...a, ...b], groups: [...a.map(() => 0), ...b.map(() => 1)] };
        const { t } = studentT({ a, b });
        const { f } = analysisOfVariance(rows, { variances: "equal" });
        const z = rankSum({ a, b }).normal?.z ?? null;
        const h = rankTestOfGroups(rows).statistic;
        return near(f, t === null ? null : t * t) && near(h, z === null ? null : z * z);
      }),
      settings,
    );
  });

  test("a wider level gives limits of the standardised difference that hold the narrower ones", () => {
    fc.assert(
      fc.property(samples, (data) => {
        const [narrow, wide] = [0.8, 0.95].map(
          (level) => standardisedMeanDifference(data, { level }).exactOfD,
        );
        if (!narrow || !wide) return narrow === wide;
        return wide[0] < narrow[0] && narrow[1] < wide[1];
      }),
      settings,
    );
  });
});

function choose(n: number, m: number): number {
  return m === 0 ? 1 : Math.round((choose(n - 1, m - 1) * n) / m);
}

describe("one sample", () => {
  test("turning the signs swaps the tails of the signed-rank test; the exact p is that of all signs written out", () => {
    fc.assert(
      fc.property(values, (differences) => {
        const found = signedRank(differences);
        const turned = signedRank(differences.map((d) => -d));
        const used = differences.filter((d) => d !== 0);
        if (used.length === 0) return found.p === 1 && found.exact === null;
        const sizes = used.map(Math.abs);
        const rankOf = (size: number) =>
          (sizes.filter((s) => s < size).length + 1 + sizes.filter((s) => s <= size).length) / 2;
        let atMost = 0;
        for (let signs = 0; signs < 2 ** used.length; signs++) {
          const sum = sizes.reduce((total, size, at) => total + ((signs >> at) & 1) * rankOf(size), 0);
          if (sum <= found.v!) atMost++;
        }
        return (
          near(found.exact?.less, atMost / 2 ** used.length) && near(found.exact?.less, turned.exact?.greater)
        );
      }),
      settings,
    );
  });

  test("quantiles rise with the share and lie within the values, for every type", () => {
    fc.assert(
      fc.property(values, fc.integer({ min: 1, max: 9 }), (list, type) => {
        const found = [0.05, 0.25, 0.5, 0.75, 0.95].map(
          (share) => sampleQuantile(list, { share, type: type as 1 }).estimate!,
        );
        return (
          found.every((q, at) => at === 0 || q >= found[at - 1]! - 1e-12) &&
          found.every((q) => q >= Math.min(...list) - 1e-12 && q <= Math.max(...list) + 1e-12)
        );
      }),
      settings,
    );
  });
});

describe("proportions", () => {
  test("counting the other kind mirrors every interval at one half", () => {
    fc.assert(
      fc.property(count, count, (successes, others) => {
        const n = successes + others;
        return (["wilson", "wilson-continuity", "exact", "agresti-coull", "jeffreys", "wald"] as const).every(
          (method) => {
            const one = proportionInterval({ successes, n }, { method });
            const other = proportionInterval({ successes: others, n }, { method });
            return near(one.lower, other.upper === null ? null : 1 - other.upper, 1e-8);
          },
        );
      }),
      settings,
    );
  });

  test("exact test: the two-sided p is the sum over tables no likelier, written out", () => {
    fc.assert(
      fc.property(table, (cells) => {
        const { a, b, c, d } = cells;
        const [n1, n2, events] = [a + b, c + d, a + c];
        const weights: [number, number][] = [];
        for (let x = Math.max(0, events - n2); x <= Math.min(n1, events); x++)
          weights.push([x, choose(n1, x) * choose(n2, events - x)]);
        const total = weights.reduce((sum, [, w]) => sum + w, 0);
        const own = weights.find(([x]) => x === a)![1];
        const share = (is: (x: number, w: number) => boolean) =>
          weights.reduce((sum, [x, w]) => sum + (is(x, w) ? w / total : 0), 0);
        const found = fisher(cells);
        return (
          near(
            found.twoSided,
            share((_, w) => w <= own * (1 + 1e-7)),
          ) &&
          near(
            found.less,
            share((x) => x <= a),
          ) &&
          near(
            found.greater,
            share((x) => x >= a),
          )
        );
      }),
      settings,
    );
  });

  test("swapping the groups inverts the odds ratios and turns the difference", () => {
    fc.assert(
      fc.property(table, ({ a, b, c, d }) => {
        const one = { a, b, c, d };
        const other = { a: c, b: d, c: a, d: b };
        const inverse = (x: number | null) => (x === null ? null : 1 / x);
        const turned = (x: number | null) => (x === null ? null : -x);
        return (
          near(oddsRatio(one).lower, inverse(oddsRatio(other).upper)) &&
          near(conditionalOddsRatio(one).estimate, inverse(conditionalOddsRatio(other).estimate), 1e-7) &&
          near(riskDifference(one).lower, turned(riskDifference(other).upper))
        );
      }),
      settings,
    );
  });

  test("pairs: swapping the two turns the difference and leaves the tests", () => {
    fc.assert(
      fc.property(table, ({ a, b, c, d }) => {
        const one = { both: a, firstOnly: b, secondOnly: c, neither: d };
        const other = { both: a, firstOnly: c, secondOnly: b, neither: d };
        const upper = pairedDifference(other).upper;
        return (
          near(pairedTest(one).midP, pairedTest(other).midP) &&
          near(pairedDifference(one).lower, upper === null ? null : -upper)
        );
      }),
      settings,
    );
  });

  test("the trend over two groups is their chi-square; scores may be moved and stretched", () => {
    fc.assert(
      fc.property(table, ({ a, b, c, d }) => {
        const groups = { events: [a, c], n: [a + b, c + d] };
        const { z } = proportionTrend(groups);
        const stretched = proportionTrend(groups, { scores: [10, 17] }).z;
        return near(proportionsTest(groups).statistic, z === null ? null : z * z) && near(z, stretched);
      }),
      settings,
    );
  });
});

describe("several p-values", () => {
  const pValues = fc.array(fc.option(fc.double({ min: 0, max: 1, noNaN: true })), { maxLength: 12 });
  test("adjusted ones keep their places and their order, are at least as large, and Holm's at least the others", () => {
    fc.assert(
      fc.property(pValues, (given) => {
        const [strict, mild] = [holm(given), benjaminiHochberg(given)];
        return given.every((p, at) => {
          if (p === null) return strict[at] === null && mild[at] === null;
          const ordered = given.every((q, other) => q === null || q < p || strict[other]! >= strict[at]!);
          return ordered && mild[at]! >= p && strict[at]! >= mild[at]! - 1e-15;
        });
      }),
      settings,
    );
    expect(holm([0.01, 0.04, null, 0.03])).toEqual([0.03, 0.06, null, 0.06]);
  });
});
