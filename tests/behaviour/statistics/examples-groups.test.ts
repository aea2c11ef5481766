import { describe, expect, it } from "vitest";
import { benjaminiHochberg, holm } from "../../../src/statistics/comparison/multiplicity.js";
import {
  permutationOfMeans,
  rankSum,
  sampleQuantile,
  signedRank,
  studentT,
} from "../../../src/statistics/continuous/index.js";
import {
  fisher,
  pairedTest,
  proportionInterval,
  riskDifference,
} from "../../../src/statistics/proportions/index.js";
import { bootstrap, countedRestrictedMean } from "../../../src/statistics/resampling/index.js";

describe("the examples in the comments are what comes out", () => {
  it.each<[string, number | null | undefined, number]>([
    ["studentT", studentT({ a: [1, 2, 3], b: [2, 3, 4] }).t, -1.224744871391589],
    ["rankSum", rankSum({ a: [1, 4, 6], b: [2, 3, 5] }).u, 5],
    ["signedRank", signedRank([1, -2, 3, 4]).v, 8],
    ["sampleQuantile", sampleQuantile([3, 1, 2, 10], { share: 0.5 }).estimate, 2.5],
    ["permutationOfMeans", permutationOfMeans({ a: [1, 2], b: [3, 4] }).p, 1 / 3],
    [
      "proportionInterval",
      proportionInterval({ successes: 0, n: 20 }, { method: "exact" }).upper,
      0.1684334709830854,
    ],
    ["riskDifference", riskDifference({ a: 56, b: 14, c: 48, d: 32 }).lower, 0.0524314724023649],
    ["fisher", fisher({ a: 3, b: 1, c: 1, d: 3 }).twoSided, 0.4857142857142857],
    ["pairedTest", pairedTest({ both: 5, firstOnly: 6, secondOnly: 1, neither: 8 }).exact, 0.125],
    [
      "countedRestrictedMean",
      countedRestrictedMean({ times: [2, 4, 6, 8], events: [1, 1, 1, 1] }, { horizon: 8 })([1, 1, 1, 1]),
      5,
    ],
  ])("%s", (_, found, wanted) => {
    expect(found).toBeCloseTo(wanted, 14);
  });

  it("bootstrap", () => {
    const values = [3, 5, 8, 13];
    const mean = (counts: Float64Array) =>
      counts.reduce((sum, count, row) => sum + count * values[row]!, 0) / 4;
    expect(bootstrap({ n: 4, statistic: { ofCounts: mean } }, { seed: 1 }).estimate).toBe(7.25);
  });

  it("holm and benjaminiHochberg", () => {
    expect(holm([0.01, 0.04, null, 0.03])).toEqual([0.03, 0.06, null, 0.06]);
    expect(benjaminiHochberg([0.01, 0.04, null, 0.03])).toEqual([0.03, 0.04, null, 0.04]);
  });
});
