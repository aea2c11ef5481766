import { describe, expect, it } from "vitest";
import {
  analysisOfVariance,
  meanInterval,
  pairedMeanChange,
  permutationOfMeans,
  rankSum,
  rankTestOfGroups,
  sampleQuantile,
  signedRank,
  standardisedChange,
  standardisedMeanDifference,
  studentT,
  varianceInterval,
} from "../../../../src/statistics/continuous/index.js";
import {
  codes,
  type Expected,
  expectAllClose,
  expectClose,
  numbers,
  referenceCase,
  referenceRows,
} from "../reference-data.js";

const rel = 1e-9;
const table = (file: string) => referenceRows("continuous", file);
const valuesOf = (file: string, where: { column: string; word: string; value: string }): number[] =>
  numbers(
    table(file).filter((row) => row[where.column] === where.word),
    where.value,
  );
const cohort = referenceRows("continuous_synthetic", "week6.csv");
const week6 = (treatment: string): number[] =>
  numbers(
    cohort.filter((row) => row.treatment === treatment),
    "mm_week6",
  );
const membrane = {
  a: valuesOf("membrane.csv", { column: "group", word: "term", value: "value" }),
  b: valuesOf("membrane.csv", { column: "group", word: "early", value: "value" }),
};
const ozone = {
  a: valuesOf("ozone_ties.csv", { column: "month", word: "5", value: "ozone" }),
  b: valuesOf("ozone_ties.csv", { column: "month", word: "8", value: "ozone" }),
};
const sleep = { a: numbers(table("sleep.csv"), "drug1"), b: numbers(table("sleep.csv"), "drug2") };
const synthetic = { a: week6("surgery"), b: week6("tape") };
const syntheticCase = referenceCase("continuous_synthetic", "continuous").expected;

describe("two means, equal variances, and standardised differences against R 4.2.2", () => {
  it.each([
    { source: "sleep data, Student 1908", data: sleep, of: referenceCase("continuous", "sleep_independent") },
    {
      source: "membrane, Hollander & Wolfe 1973",
      data: membrane,
      of: referenceCase("continuous", "membrane_means"),
    },
    { source: "New York ozone 1973", data: ozone, of: referenceCase("continuous", "ozone_means") },
    { source: "SYNTHETIC cohort", data: synthetic, of: { expected: syntheticCase.week6_surgery_minus_tape } },
  ])("$source", ({ data, of: { expected } }) => {
    const found = studentT(data);
    const { se, t, df, p, ci95 } = expected.equal_variance;
    expectClose(found.difference, expected.difference, { rel, what: "difference" });
    expectAllClose(
      [found.standardError, found.t, found.df, found.p, found.lower, found.upper],
      [se, t, df, p, ...ci95],
      { rel, abs: 1e-15, what: "equal variances" },
    );
    const g = standardisedMeanDifference(data);
    const s = expected.standardised;
    expectAllClose(
      [g.d, g.correction, g.approximateCorrection, g.g, g.variance, ...(g.normal ?? [])],
      [s.d, s.J_exact, s.J_approx, s.hedges_g, s.variance_g, ...s.ci95_g_normal],
      { rel, what: "standardised" },
    );
    expectClose(g.approximateCorrection! * g.d!, s.hedges_g_approx_J, {
      rel,
      what: "g",
    });
    // the limits in the file are good to about 1e-7 (its README)
    expectAllClose(
      [...(g.exactOfD ?? []), ...(g.exactOfG ?? [])],
      [...s.ci95_d_noncentral_t, ...s.ci95_g_noncentral_t],
      { rel: 1e-6, abs: 1e-7, what: "by t with a shift" },
    );
  });
});

describe("paired changes against R 4.2.2", () => {
  it.each([
    { id: "sleep_paired", file: "sleep.csv", after: "drug1", before: "drug2" },
    { id: "depression_paired", file: "depression_scores.csv", after: "first", before: "second" },
    { id: "paired_ties_zeros", file: "paired_ties_zeros.csv", after: "after", before: "before" },
  ])("$id", ({ id, file, after, before }) => {
    const { expected } = referenceCase("continuous", id);
    const pairs = { before: numbers(table(file), before), after: numbers(table(file), after) };
    const differences = pairs.after.map((value, row) => value - pairs.before[row]!);
    expectClose(pairedMeanChange(pairs).t, expected.t, { rel, what: "t" });
    const change = standardisedChange(pairs);
    expectAllClose(
      [change.byChange, change.byAverage, change.correction, change.correlation],
      [expected.d_z, expected.d_average_sd, expected.J_exact, expected.correlation],
      { rel, what: "standardised change" },
    );
    const { variance: spread } = { variance: varianceInterval(differences).estimate };
    expectClose(Math.sqrt(spread!), expected.sd_difference, { rel, what: "sd" });
    const interval = meanInterval(differences);
    expectAllClose([interval.lower, interval.upper], expected.ci95, { rel, what: "limits" });
    expectSignedRank(differences, expected.signed_rank);
  });
});

function expectSignedRank(differences: number[], expected: Expected): void {
  const found = signedRank(differences);
  expect([found.n, found.zeros, found.used, found.v, found.vNegative, found.hasTies]).toEqual([
    expected.n,
    expected.zeros,
    expected.n_used,
    expected.v,
    expected.v_negative,
    expected.has_ties,
  ]);
  expectNormal(found.normal, expected.normal);
  expectClose(found.exact?.twoSided, expected.exact.p_doubling, { rel, what: "exact" });
  expectClose(found.exact?.less, expected.exact.p_less, { rel, what: "less" });
  expectClose(found.exact?.greater, expected.exact.p_greater, { rel, what: "greater" });
  expectClose(found.middle?.estimate, expected.pseudomedian, { rel, what: "middle" });
  if (expected.exact.ci95) {
    const exact = found.middle?.exact;
    expectAllClose([exact?.lower ?? null, exact?.upper ?? null], expected.exact.ci95, {
      rel,
      what: "limits",
    });
    expectClose(exact?.achieved, expected.exact.achieved_confidence, { rel, what: "achieved" });
  } else expect(found.middle?.exact).toBeNull();
  const kept = signedRank(differences, { zeros: "rank-then-drop", method: "normal", continuity: "none" });
  const { v, z, p } = expected.zeros_ranked_then_dropped;
  expectAllClose([kept.v, kept.normal?.z ?? null, kept.p], [v, z, p], { rel, what: "zeros ranked" });
  expectClose(kept.middle?.estimate, expected.pseudomedian_with_zeros_kept, {
    rel,
    what: "middle, zeros kept",
  });
}

function expectNormal(found: ReturnType<typeof rankSum>["normal"], expected: Expected): void {
  expectAllClose(
    [found?.variance, found?.z, found?.p, found?.zCorrected, found?.pCorrected].map((value) => value ?? null),
    [expected.variance, expected.z, expected.p, expected.z_continuity, expected.p_continuity],
    { rel, abs: 1e-15, what: "normal approximation" },
  );
}

describe("rank-sum test and shift against R 4.2.2, exact with ties by its full permutation distribution", () => {
  it.each([
    {
      source: "membrane, Hollander & Wolfe 1973, p. 69",
      data: membrane,
      expected: referenceCase("continuous", "membrane_rank_sum").expected,
    },
    {
      source: "New York ozone 1973, ties",
      data: ozone,
      expected: referenceCase("continuous", "ozone_ties_rank_sum").expected,
    },
    { source: "SYNTHETIC cohort, 239 and 810", data: synthetic, expected: syntheticCase.rank_sum },
  ])("$source", ({ data, expected }) => {
    const found = rankSum(data);
    expect([found.u, found.uOther, found.rankSum, found.hasTies]).toEqual([
      expected.u,
      expected.u_other,
      expected.rank_sum,
      expected.has_ties,
    ]);
    expectClose(found.probabilityAGreater, expected.probability_x_greater, { rel, what: "share" });
    expectNormal(found.normal, expected.normal);
    expectClose(found.shift?.estimate, expected.shift_median_of_differences, { rel, what: "shift" });
    const near = expected.normal_ci_order;
    const { approximate, exact } = found.shift ?? {};
    expectClose(approximate?.position, near.k_unrounded, { rel, what: "position" });
    expect([approximate?.outward.rank, approximate?.nearest.rank]).toEqual([near.k_floor, near.k_round]);
    expectAllClose(
      [approximate?.outward.lower ?? null, approximate?.outward.upper ?? null],
      near.ci95_floor,
      { rel, what: "outward" },
    );
    expectAllClose(
      [approximate?.nearest.lower ?? null, approximate?.nearest.upper ?? null],
      near.ci95_round,
      { rel, what: "nearest" },
    );
    expect(found.method).toBe(expected.exact ? "exact" : "normal");
    if (expected.exact) {
      const { p_doubling, p_distance, p_less, p_greater } = expected.exact;
      const tails = found.exact;
      expectAllClose(
        [tails?.twoSided, tails?.byDistance, tails?.less, tails?.greater].map((value) => value ?? null),
        [p_doubling, p_distance, p_less, p_greater],
        { rel, abs: 1e-15, what: "exact" },
      );
    }
    if (expected.exact?.ci95_shift) {
      expectAllClose([exact?.lower ?? null, exact?.upper ?? null], expected.exact.ci95_shift, {
        rel,
        what: "limits",
      });
      expect(exact?.rank).toBe(expected.exact.rank_of_limits[0]);
      expectClose(exact?.achieved, expected.exact.achieved_confidence, { rel, what: "achieved" });
    } else expect(exact).toBeNull();
  });
});

describe("several groups", () => {
  it("anorexia, change in three groups, Hand et al. 1994, against R 4.2.2", () => {
    const rows = table("anorexia.csv");
    const before = numbers(rows, "pre");
    const grouped = {
      // weights have one decimal: rounded, changes that are equal on paper share a rank
      values: numbers(rows, "post").map((after, row) => Math.round((after - before[row]!) * 100) / 100),
      groups: codes(rows, "treatment", ["Cont", "CBT", "FT"]),
    };
    const { rank_test, analysis_of_variance } = referenceCase("continuous", "anorexia_k_groups").expected;
    const ranks = rankTestOfGroups(grouped);
    expectAllClose([ranks.statistic, ranks.df, ranks.p], [rank_test.h, rank_test.df, rank_test.p], {
      rel,
      what: "ranks",
    });
    const { f, df1, df2, p, welch_f, welch_df2, welch_p } = analysis_of_variance;
    const equal = analysisOfVariance(grouped, { variances: "equal" });
    expectAllClose([equal.f, equal.df, equal.dfWithin, equal.p], [f, df1, df2, p], { rel, what: "equal" });
    const unequal = analysisOfVariance(grouped);
    expectAllClose([unequal.f, unequal.dfWithin, unequal.p], [welch_f, welch_df2, welch_p], {
      rel,
      what: "Welch",
    });
  });

  it.each(["SiRstv", "SmLs01", "SmLs04", "SmLs07"])(
    "%s, NIST Statistical Reference Datasets, in the digits that doubles can carry",
    (id) => {
      const rows = referenceRows("nist", `${id}.csv`);
      const names = Object.keys(rows[0] as object);
      const group = names.find((name) => name !== "y")!;
      const { expected, tolerance } = referenceCase("nist", id);
      const words = [...new Set(rows.map((row) => row[group]!))];
      const found = analysisOfVariance(
        { values: numbers(rows, "y"), groups: codes(rows, group, words) },
        { variances: "equal" },
      );
      expectClose(found.f, expected.from_doubles.f, { rel: Math.max(1e-12, tolerance.rel), what: "F" });
    },
  );
});

describe("quantiles", () => {
  // R 4.2.2, quantile(c(1.5, 2, 3.25, 7, 11, 13, 20, 21.5), c(.1, .25, .5, .9), type = 1 to 9)
  const values = [13, 2, 7, 20, 1.5, 3.25, 21.5, 11];
  it.each([
    [1, [1.5, 2, 7, 21.5]],
    [2, [1.5, 2.625, 9, 21.5]],
    [3, [1.5, 2, 7, 20]],
    [4, [1.5, 2, 7, 20.3]],
    [5, [1.65, 2.625, 9, 21.05]],
    [6, [1.5, 2.3125, 9, 21.5]],
    [7, [1.85, 2.9375, 9, 20.45]],
    [8, [1.58333333333333, 2.52083333333333, 9, 21.25]],
    [9, [1.6, 2.546875, 9, 21.2]],
  ] as const)("type %i of Hyndman & Fan 1996 against R 4.2.2", (type, expected) => {
    const found = [0.1, 0.25, 0.5, 0.9].map((share) => sampleQuantile(values, { share, type }).estimate);
    expectAllClose(found, expected, { rel: 1e-11, what: `type ${type}` });
  });

  it("limits of a median of 10 by hand: 2nd and 9th value, confidence 1 - 2 (1 + 10) / 1024", () => {
    const found = sampleQuantile([1, 2, 3, 4, 5, 6, 7, 8, 9, 10], { share: 0.5 });
    expect([found.lower, found.upper, found.ranks]).toEqual([2, 9, [2, 9]]);
    expectClose(found.achieved, 1 - 22 / 1024, { rel: 1e-12, what: "achieved" });
  });

  it("five values cannot bound their median at 0.95: 1 - 2/32 is all there is", () => {
    const found = sampleQuantile([1, 2, 3, 4, 5], { share: 0.5 });
    expect([found.lower, found.upper, found.reason]).toEqual([null, null, "too-few-rows"]);
  });
});

describe("permutation of means", () => {
  it("four values by hand: 1 of 6 choices as small, 2 of 6 as far", () => {
    const found = permutationOfMeans({ a: [1, 2], b: [3, 4] });
    expect(found).toMatchObject({ difference: -2, choices: 6, method: "exact", monteCarloError: 0 });
    expectAllClose([found.less, found.greater, found.p], [1 / 6, 1, 1 / 3], { rel: 1e-12, what: "shares" });
  });

  it("random choices come within four of their errors of all choices, sleep data, Student 1908", () => {
    const all = permutationOfMeans(sleep);
    const some = permutationOfMeans(sleep, { method: "random", seed: 3, draws: 4000 });
    expect(all.choices).toBe(184756);
    expect(Math.abs(some.p! - all.p!)).toBeLessThan(4 * some.monteCarloError!);
  });
});
