import { describe, expect, it } from "vitest";
import {
  accuracyAt,
  accuracyOfCounts,
  agreementShares,
  chooseThreshold,
  intraclassCorrelation,
  kappa,
  kappaOfTable,
  limitsOfAgreement,
  limitsOfRepeatedPairs,
  limitsOfReplicates,
  measurementError,
  raterComponents,
  repeatability,
  rocArea,
  severalRatersKappa,
} from "../../../../src/statistics/agreement/index.js";
import { cutsOf } from "../../../../src/statistics/agreement/threshold-cuts.js";
import { bestCut, replicateChoices } from "../../../../src/statistics/agreement/threshold-replicates.js";
import { ArgumentError } from "../../../../src/statistics/index.js";
import { prepareResampling } from "../../../../src/statistics/resampling/plan.js";

describe("readings and ratings", () => {
  it("raters who differ by a constant: perfect consistency without interval, agreement with one", () => {
    const found = intraclassCorrelation({
      raters: [
        [2.1, 3.3, 1.4, 5.2],
        [2.8, 4, 2.1, 5.9],
      ],
    });
    expect(found.consistency.single).toMatchObject({ estimate: 1, lower: null, reason: "no-variance" });
    expect(found.agreement.single.estimate).toBeLessThan(1);
    expect(found.agreement.single.lower).not.toBeNull();
  });

  it("tables with nobody, zeros and counts of nine digits", () => {
    const categories = ["2", "3", "4a"];
    expect(
      kappaOfTable({
        categories,
        counts: [
          [0, 0, 0],
          [0, 0, 0],
          [0, 0, 0],
        ],
      }).reason,
    ).toBe("no-rows");
    const many = [
      [4e8, 1e8, 0],
      [1e8, 4e8, 0],
      [0, 0, 0],
    ];
    expect(kappaOfTable({ categories, counts: many }).kappa).toBeCloseTo(0.6, 12);
    expect(agreementShares({ categories, counts: many }).byCategory[2]?.share.value).toBeNull();
  });

  it("likelihood ratios: nobody falsely positive, nobody truly positive, nobody at all", () => {
    const sure = accuracyOfCounts({ truePositive: 5, falsePositive: 0, falseNegative: 2, trueNegative: 9 });
    expect(sure.positiveRatio).toMatchObject({ estimate: null, reason: "not-positive" });
    const useless = accuracyOfCounts({
      truePositive: 0,
      falsePositive: 3,
      falseNegative: 2,
      trueNegative: 9,
    });
    expect(useless.positiveRatio).toMatchObject({ estimate: 0, lower: null, reason: "not-positive" });
    const nobody = accuracyOfCounts({ truePositive: 0, falsePositive: 0, falseNegative: 0, trueNegative: 0 });
    expect(nobody.sensitivity.reason).toBe("no-rows");
    expect(nobody.negativeRatio.reason).toBe("no-rows");
    const huge = accuracyOfCounts({
      truePositive: 4e9,
      falsePositive: 1e9,
      falseNegative: 1e9,
      trueNegative: 4e9,
    });
    expect(huge.positiveRatio.estimate).toBeCloseTo(4, 12);
  });

  it("a reading at the threshold itself, by each of the four rules", () => {
    const columns = { values: [1, 2, 2, 3], states: [0, 0, 1, 1] };
    const positives = (["at or above", "above", "at or below", "below"] as const).map((positiveWhen) => {
      const { counts } = accuracyAt(columns, { threshold: 2, positiveWhen });
      return [counts.truePositive, counts.falsePositive];
    });
    expect(positives).toEqual([
      [2, 1],
      [1, 0],
      [1, 2],
      [0, 1],
    ]);
  });

  it("two thresholds with one index: the one with the higher sensitivity, and both are counted", () => {
    // at 4: 1 of 2 and 0 of 2; at 2: 2 of 2 and 1 of 2
    const found = chooseThreshold({ values: [1, 2, 3, 4], states: [0, 1, 0, 1] }, { seed: 1, replicates: 0 });
    expect(found).toMatchObject({ threshold: 2, tied: 2 });
  });

  it("a reading that a replicate does not hold is not a threshold of it", () => {
    const counts = { affectedAt: Float64Array.of(2, 0, 0), healthyAt: Float64Array.of(0, 0, 2) };
    expect(bestCut(counts, { affected: 2, healthy: 2 })).toMatchObject({ at: 0, tied: 1 });
  });

  it("the interval of the threshold: order statistics 4 and 36 of 39 at level 0.8", () => {
    const values = Array.from({ length: 30 }, (_, at) => (at * 11) % 17);
    const columns = { values, states: values.map((value, at) => (value + (at % 5) * 3 > 14 ? 1 : 0)) };
    const found = chooseThreshold(columns, { seed: 99, replicates: 39, level: 0.8 });
    const cuts = cutsOf(columns, "high");
    const plan = prepareResampling({ n: 30, strata: columns.states });
    const { chosen } = replicateChoices({ plan, cuts, states: columns.states }, { seed: 99, replicates: 39 });
    const ordered = chosen.map((at) => cuts.thresholds[at]!).sort((a, b) => a - b);
    expect([found.thresholdLower, found.thresholdUpper]).toEqual([ordered[3], ordered[35]]);
    expect(new Set(ordered).size).toBeGreaterThan(3);
  });

  it("no replicates: the threshold alone, nothing corrected", () => {
    const found = chooseThreshold({ values: [1, 2, 3, 4], states: [0, 0, 1, 1] }, { seed: 1, replicates: 0 });
    expect(found).toMatchObject({ threshold: 3, negativeNeighbour: 2, youden: null, reason: null });
  });

  it("each reading by a rater of its own: raters and residual cannot be told apart", () => {
    const found = raterComponents({ values: [1, 2, 4, 3], subjects: [1, 1, 2, 2], raters: [1, 2, 3, 4] });
    expect(found.reason).toBe("too-few-rows");
  });

  it("a rater for each subject: raters and subjects cannot be told apart", () => {
    const found = raterComponents({
      values: [1, 1.2, 3, 3.3, 2, 2.1, 5, 5.2],
      subjects: [1, 1, 2, 2, 3, 3, 4, 4],
      raters: [1, 1, 2, 2, 3, 3, 4, 4],
    });
    expect(found).toMatchObject({ variances: null, reason: "collinear" });
  });
});

describe("wrong arguments are named with their place", () => {
  it.each([
    [
      "raters[1][2]",
      () =>
        intraclassCorrelation({
          raters: [
            [1, 2, 3],
            [1, 2, Number.NaN],
          ],
        }),
    ],
    [
      "raters[1]",
      () =>
        intraclassCorrelation({
          raters: [
            [1, 2, 3],
            [1, 2],
          ],
        }),
    ],
    ["raters", () => intraclassCorrelation({ raters: [] })],
    ["against", () => intraclassCorrelation({ raters: [[1], [2]] }, { against: 1 })],
    ["level", () => measurementError({ raters: [[1], [2]] }, { level: 95 })],
    ["subjects[0]", () => repeatability({ values: [1], subjects: [0.5] })],
    ["second[1]", () => limitsOfAgreement({ first: [1, 2], second: [1, Number.POSITIVE_INFINITY] })],
    ["multiplier", () => limitsOfAgreement({ first: [1], second: [1] }, { multiplier: 0 })],
    ["subjects", () => limitsOfRepeatedPairs({ first: [1], second: [1], subjects: [] })],
    [
      "second.values[0]",
      () =>
        limitsOfReplicates({
          first: { values: [1], subjects: [1] },
          second: { values: [Number.NaN], subjects: [1] },
        }),
    ],
    ["first[1]", () => kappa({ first: [0, 2], second: [0, 1] }, { categories: ["a", "b"] })],
    ["categories[1]", () => kappa({ first: [], second: [] }, { categories: ["a", "a"] })],
    ["counts[0]", () => kappaOfTable({ categories: ["a", "b"], counts: [[1], [1, 2]] })],
    [
      "counts[1][0]",
      () =>
        kappaOfTable({
          categories: ["a", "b"],
          counts: [
            [1, 0],
            [-1, 2],
          ],
        }),
    ],
    [
      "counts[1]",
      () =>
        severalRatersKappa({
          categories: ["a", "b"],
          counts: [
            [2, 1],
            [1, 1],
          ],
        }),
    ],
    [
      "truePositive",
      () => accuracyOfCounts({ truePositive: -1, falsePositive: 0, falseNegative: 0, trueNegative: 0 }),
    ],
    ["states[0]", () => rocArea({ values: [1], states: [2] })],
    ["clusters", () => rocArea({ values: [1], states: [1], clusters: [] })],
    ["raters[0]", () => raterComponents({ values: [1], subjects: [1], raters: [1.5] })],
    ["averaged", () => raterComponents({ values: [1], subjects: [1], raters: [1] }, { averaged: 0 })],
    ["replicates", () => chooseThreshold({ values: [], states: [] }, { seed: 1, replicates: -1 })],
    ["threshold", () => accuracyAt({ values: [], states: [] }, { threshold: Number.NaN })],
  ])("%s", (place, run) => {
    let found: unknown;
    try {
      run();
    } catch (error) {
      found = error;
    }
    expect(found).toBeInstanceOf(ArgumentError);
    expect((found as ArgumentError).message.startsWith(`${place} must be `)).toBe(true);
  });
});
