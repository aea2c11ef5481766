import { describe, expect, it } from "vitest";
import { benjaminiHochberg, holm } from "../../../../src/statistics/comparison/multiplicity.js";
import {
  analysisOfVariance,
  meanInterval,
  permutationOfMeans,
  rankSum,
  rankTestOfGroups,
  sampleQuantile,
  signedRank,
  standardisedMeanDifference,
  studentT,
} from "../../../../src/statistics/continuous/index.js";
import {
  conditionalOddsRatio,
  fisher,
  fourCellsChiSquare,
  oddsRatio,
  pairedDifference,
  pairedOddsRatio,
  pairedTest,
  proportionInterval,
  proportionsTest,
  proportionTrend,
  riskDifference,
  riskRatio,
} from "../../../../src/statistics/proportions/index.js";
import {
  bootstrap,
  bootstrapLogHazardRatio,
  bootstrapQuantileTime,
  bootstrapRestrictedMean,
  bootstrapShare,
  permutationTest,
} from "../../../../src/statistics/resampling/index.js";

const seed = 1;
const replicates = 40;

/** Every function of two samples, on what it is given. */
const ofSamples = (a: readonly number[], b: readonly number[]) => ({
  t: studentT({ a, b }),
  g: standardisedMeanDifference({ a, b }),
  ranks: rankSum({ a, b }),
  choices: permutationOfMeans({ a, b }, { seed, draws: 20 }),
  anova: analysisOfVariance(
    { values: [...a, ...b], groups: [...a.map(() => 0), ...b.map(() => 1)] },
    { variances: "equal" },
  ),
  groups: rankTestOfGroups({ values: [...a, ...b], groups: [...a.map(() => 0), ...b.map(() => 1)] }),
});
const ofTable = (a: number, b: number, c: number, d: number) => ({
  difference: riskDifference({ a, b, c, d }),
  risk: riskRatio({ a, b, c, d }),
  odds: oddsRatio({ a, b, c, d }),
  conditional: conditionalOddsRatio({ a, b, c, d }),
  chi: fourCellsChiSquare({ a, b, c, d }).plain,
  exact: fisher({ a, b, c, d }),
  groups: proportionsTest({ events: [a, c], n: [a + b, c + d] }),
  trend: proportionTrend({ events: [a, c], n: [a + b, c + d] }),
  pairs: pairedTest({ both: a, firstOnly: b, secondOnly: c, neither: d }),
  pairedDifference: pairedDifference({ both: a, firstOnly: b, secondOnly: c, neither: d }),
  pairedOdds: pairedOddsRatio({ both: a, firstOnly: b, secondOnly: c, neither: d }),
});
const ofTimes = (times: readonly number[], events: readonly number[]) => ({
  mean: bootstrapRestrictedMean({ times, events }, { seed, replicates, horizon: 10 }),
  share: bootstrapShare({ times, events }, { seed, replicates, time: 5 }),
  median: bootstrapQuantileTime({ times, events }, { seed, replicates, p: 0.5 }),
  ratio: bootstrapLogHazardRatio(
    { times, events, covariate: times.map((_, row) => row % 2) },
    { seed, replicates },
  ),
});

const reasons = (found: Record<string, object & { readonly reason?: string | null }>) =>
  Object.fromEntries(Object.entries(found).map(([name, { reason }]) => [name, reason]));

/** No NaN and no infinity anywhere in a result. */
function numbersIn(found: unknown): number[] {
  if (typeof found === "number") return [found];
  if (found !== null && typeof found === "object") return Object.values(found).flatMap(numbersIn);
  return [];
}
const expectNumbers = (found: unknown) =>
  expect(numbersIn(found).filter((x) => !Number.isFinite(x))).toEqual([]);

describe("two samples", () => {
  it("all values equal: no test says anything, p is 1", () => {
    const { ranks, choices } = ofSamples([4, 4, 4], [4, 4]);
    expect([ranks.p, ranks.normal?.reason, choices.p, choices.difference]).toEqual([1, "no-variance", 1, 0]);
  });
});

describe("degenerate tables", () => {
  it.each([
    {
      cells: [0, 0, 0, 0],
      difference: "no-rows",
      risk: "no-rows",
      odds: "no-rows",
      conditional: "no-rows",
      chi: "no-rows",
      pairs: "no-rows",
    },
    {
      cells: [3, 4, 0, 0],
      difference: "no-rows",
      risk: "no-rows",
      odds: "no-rows",
      conditional: "no-rows",
      chi: "no-variance",
      pairs: null,
    },
    {
      cells: [0, 5, 0, 7],
      difference: null,
      risk: "not-positive",
      odds: "not-positive",
      conditional: "not-positive",
      chi: "no-variance",
      pairs: null,
    },
    {
      cells: [5, 0, 7, 0],
      difference: null,
      risk: "no-variance",
      odds: "not-positive",
      conditional: "not-positive",
      chi: "no-variance",
      pairs: null,
    },
    {
      cells: [5, 0, 0, 7],
      difference: null,
      risk: "not-positive",
      odds: "not-positive",
      conditional: "not-positive",
      chi: null,
      pairs: "no-variance",
    },
    {
      cells: [1e9, 1e9, 1e9, 1e9],
      difference: null,
      risk: null,
      odds: null,
      conditional: null,
      chi: null,
      pairs: null,
    },
    {
      cells: [1e9, 0, 1, 1e9],
      difference: null,
      risk: null,
      odds: "not-positive",
      conditional: "not-positive",
      chi: null,
      pairs: null,
    },
  ])("$cells", ({ cells, ...wanted }) => {
    const [a, b, c, d] = cells as [number, number, number, number];
    const found = ofTable(a, b, c, d);
    const { exact, ...rest } = found;
    expect(reasons(rest)).toMatchObject(wanted);
    expectNumbers(found);
    expect(exact.twoSided).toBeGreaterThanOrEqual(0);
    expect(exact.twoSided).toBeLessThanOrEqual(1);
  });

  it("nobody of nobody has no interval", () => {
    for (const method of [
      "wilson",
      "wilson-continuity",
      "exact",
      "agresti-coull",
      "jeffreys",
      "wald",
    ] as const)
      expect(proportionInterval({ successes: 0, n: 0 }, { method }).reason).toBe("no-rows");
  });

  it("no groups, one group, everybody at one score", () => {
    expect(proportionsTest({ events: [], n: [] }).reason).toBe("no-rows");
    expect(proportionsTest({ events: [2], n: [5] }).reason).toBe("one-group");
    expect(proportionTrend({ events: [2, 3], n: [5, 5] }, { scores: [1, 1] }).reason).toBe("one-group");
    expect(proportionTrend({ events: [0, 0], n: [5, 5] }).reason).toBe("no-variance");
  });
});

describe("times, resampled", () => {
  it("resamples all alike: no limits, all replicates tied", () => {
    const { mean } = ofTimes([6, 6, 6, 6], [1, 1, 1, 1]);
    expect(mean).toMatchObject({ estimate: 6, reason: "no-variance" });
    expect(mean.intervals).toMatchObject({ percentile: null, bca: null, tied: replicates, standardError: 0 });
  });

  it("a separated covariate has no ratio; resamples without one are counted", () => {
    const apart = bootstrapLogHazardRatio(
      { times: [1, 2, 3, 7, 8, 9], events: [1, 1, 1, 1, 1, 1], covariate: [1, 1, 1, 0, 0, 0] },
      { seed, replicates },
    );
    expect(apart.reason).toBe("too-few-rows");
    const nearly = bootstrapLogHazardRatio(
      { times: [1, 2, 8, 3, 7, 9], events: [1, 1, 1, 1, 1, 1], covariate: [1, 1, 1, 0, 0, 0] },
      { seed, replicates },
    );
    expect(nearly.intervals?.failed).toBeGreaterThan(0);
    expect((nearly.intervals?.failed ?? 0) + (nearly.intervals?.used ?? 0)).toBe(replicates);
  });
});

describe("wrong questions name the argument and the index", () => {
  const statistic = { ofCounts: () => 1 };
  it.each<[string, () => unknown]>([
    ["a[1] must be a finite number; found NaN", () => rankSum({ a: [1, Number.NaN], b: [1] })],
    [
      "b[0] must be a finite number; found Infinity",
      () => studentT({ a: [1], b: [Number.POSITIVE_INFINITY] }),
    ],
    ["differences[0] must be a finite number; found NaN", () => signedRank([Number.NaN])],
    [
      "groups must be as long as values (2 values); found 1 values",
      () => rankTestOfGroups({ values: [1, 2], groups: [1] }),
    ],
    ["groups[0] must be a whole number; found 0.5", () => analysisOfVariance({ values: [1], groups: [0.5] })],
    [
      "level must be a number between 0 and 1, both excluded; found 95",
      () => meanInterval([1, 2], { level: 95 }),
    ],
    [
      "share must be a number between 0 and 1, both excluded; found 1",
      () => sampleQuantile([1], { share: 1 }),
    ],
    [
      "type must be one of 1, 2, 3, 4, 5, 6, 7, 8 or 9; found 10",
      () => sampleQuantile([1], { share: 0.5, type: 10 as 9 }),
    ],
    [
      "seed must be a whole number; found undefined",
      () => permutationOfMeans({ a: [1], b: [2] }, { method: "random" }),
    ],
    [
      "successes must be at most n, which is 3; found 4",
      () => proportionInterval({ successes: 4, n: 3 }, { method: "exact" }),
    ],
    ["d must be a whole number, 0 or more; found -1", () => fisher({ a: 1, b: 1, c: 1, d: -1 })],
    [
      "firstOnly must be a whole number, 0 or more; found 1.5",
      () => pairedTest({ both: 1, firstOnly: 1.5, secondOnly: 1, neither: 1 }),
    ],
    [
      "events[1] must be at most n[1], which is 2; found 3",
      () => proportionsTest({ events: [1, 3], n: [2, 2] }),
    ],
    [
      "pValues[1] must be a number from 0 to 1, or null where there is none; found 1.2",
      () => holm([0.1, 1.2]),
    ],
    [
      "pValues[0] must be a number from 0 to 1, or null where there is none; found NaN",
      () => benjaminiHochberg([Number.NaN]),
    ],
    [
      "clusters must be as long as rows (3 values); found 2 values",
      () => bootstrap({ n: 3, clusters: [1, 1], statistic }, { seed }),
    ],
    [
      "strata[1] must be 0, as in the other rows of cluster 7; found 1",
      () => bootstrap({ n: 2, clusters: [7, 7], strata: [0, 1], statistic }, { seed }),
    ],
    ["seed must be a whole number; found 0.5", () => bootstrap({ n: 2, statistic }, { seed: 0.5 })],
    [
      "horizon must be a finite number above 0; found 0",
      () => bootstrapRestrictedMean({ times: [1], events: [1] }, { seed, horizon: 0 }),
    ],
    [
      "events[0] must be 0 or 1; found 2",
      () => bootstrapLogHazardRatio({ times: [1], events: [2], covariate: [1] }, { seed }),
    ],
    [
      "statistic must be a number for every permutation of the labels; found NaN",
      () => permutationTest({ labels: [1, 2], statistic: () => Number.NaN }, { seed }),
    ],
    [
      "draws must be a whole number, 1 or more; found 0",
      () => permutationTest({ labels: [1, 2], statistic: () => 1 }, { seed, draws: 0 }),
    ],
  ])("%s", (message, question) => {
    expect(question).toThrow(message);
  });
});
