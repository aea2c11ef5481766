import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  hazardsRegression,
  productLimit,
  quantileTime,
  restrictedMean,
  shareAt,
} from "../../../src/statistics/index.js";
import {
  bootstrap,
  bootstrapReplicates,
  bootstrapRestrictedMean,
  countedLogHazardRatio,
  countedQuantileTime,
  countedRestrictedMean,
  countedShare,
  permutationTest,
  type Statistic,
} from "../../../src/statistics/resampling/index.js";
import { cohort, columns, largeCohort, near, settings } from "./cohorts.js";

/** How often each row counts, drawn beside the rows. */
const countsFor = (n: number, draws: readonly number[]) =>
  Array.from({ length: n }, (_, row) => draws[row % draws.length]!);
const draws = fc.array(fc.integer({ min: 0, max: 3 }), { minLength: 5, maxLength: 13 });
const repeated = <T>(rows: readonly T[], counts: readonly number[]): T[] =>
  rows.flatMap((row, at) => Array.from({ length: counts[at]! }, () => row));

describe("counting once-sorted rows gives what repeating the rows gives", () => {
  test("restricted mean, share and quantile of the curve", () => {
    fc.assert(
      fc.property(cohort, draws, (rows, drawn) => {
        const counts = countsFor(rows.length, drawn);
        const written = columns(repeated(rows, counts));
        if (written.times.length === 0)
          return countedRestrictedMean(columns(rows), { horizon: 20 })(counts) === null;
        const curve = productLimit(written);
        const median = countedQuantileTime(columns(rows), { p: 0.5 })(counts);
        return (
          near(
            countedRestrictedMean(columns(rows), { horizon: 20 })(counts),
            restrictedMean(written, { horizon: 20 }).estimate,
          ) &&
          near(countedShare(columns(rows), { time: 15 })(counts), shareAt(curve, 15).notYet) &&
          near(median, quantileTime(curve, 0.5).estimate.value)
        );
      }),
      settings,
    );
  });

  test("log hazard ratio and its error, both ways with ties, within strata", () => {
    fc.assert(
      fc.property(largeCohort, draws, fc.constantFrom("efron", "breslow" as const), (rows, drawn, ties) => {
        const counts = countsFor(rows.length, drawn);
        const written = repeated(rows, counts);
        const whole = hazardsRegression(
          {
            ...columns(written),
            strata: written.map((one) => one.stratum),
            covariates: { names: ["x"], columns: [written.map((one) => one.x)] },
          },
          { ties: ties as "efron" },
        );
        const found = countedLogHazardRatio(
          { ...columns(rows), covariate: rows.map((one) => one.x), strata: rows.map((one) => one.stratum) },
          { ties: ties as "efron" },
        )(counts);
        if (whole.status !== "ok") return true;
        return (
          near(found.estimate, whole.coefficients[0], 1e-7) &&
          near(found.standardError, whole.standardErrors[0], 1e-5)
        );
      }),
      settings,
    );
  });
});

const values = [3, 5, 8, 13, 21, 34, 55, 89];
const meanOf: Statistic = {
  ofCounts: (counts) => {
    let [sum, n] = [0, 0];
    for (let row = 0; row < counts.length; row++) {
      sum += counts[row]! * values[row]!;
      n += counts[row]!;
    }
    return sum / n;
  },
};
const meanOfRows: Statistic = {
  ofRows: (rows) => rows.reduce((sum, row) => sum + values[row]!, 0) / rows.length,
};

describe("resampling", () => {
  test("spans of resamples put together are the resamples in one go, whatever the statistic is given", () => {
    const all = bootstrapReplicates({ n: 8, statistic: meanOf }, { seed: 5, from: 0, to: 40 }).estimates;
    const late = bootstrapReplicates(
      { n: 8, statistic: meanOfRows },
      { seed: 5, from: 25, to: 40 },
    ).estimates;
    const early = bootstrapReplicates(
      { n: 8, statistic: meanOfRows },
      { seed: 5, from: 0, to: 25 },
    ).estimates;
    [...early, ...late].forEach((value, at) => {
      expect(value).toBeCloseTo(all[at]!, 12);
    });
  });

  test("rows of a person come together; each stratum keeps its size", () => {
    const clusters = [1, 1, 2, 2, 2, 3, 4, 4];
    const strata = [0, 0, 0, 0, 0, 1, 1, 1];
    const seen: number[][] = [];
    const statistic: Statistic = { ofCounts: (counts) => seen.push(Array.from(counts)) };
    bootstrapReplicates({ n: 8, clusters, strata, statistic }, { seed: 1, from: 0, to: 30 });
    expect(seen).toHaveLength(30);
    for (const counts of seen) {
      expect([counts[0], counts[2], counts[3], counts[6]]).toEqual([
        counts[1],
        counts[3],
        counts[4],
        counts[7],
      ]);
      // two persons a stratum, drawn twice
      expect([counts[0]! + counts[2]!, counts[5]! + counts[6]!]).toEqual([2, 2]);
    }
    expect(new Set(seen.map(String)).size).toBeGreaterThan(4);
  });

  test("the standard error of a mean is that of the formula within its Monte Carlo error", () => {
    const found = bootstrap({ n: 8, statistic: meanOf }, { seed: 11, replicates: 4000 });
    const mean = 28.5;
    const exact = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / 64);
    // relative error of a standard deviation over 4,000 draws: 1 / sqrt(8000) = 0.011
    expect(Math.abs(found.intervals!.standardError! / exact - 1)).toBeLessThan(0.045);
    expect(found.estimate).toBe(mean);
  });

  test("moving the clock of everybody's horizon and times by a factor scales the interval", () => {
    const data = { times: [2, 4, 4, 7, 9, 12, 15, 20], events: [1, 1, 0, 1, 1, 0, 1, 1] };
    const days = bootstrapRestrictedMean(data, { seed: 2, replicates: 200, horizon: 14 });
    const weeks = bootstrapRestrictedMean(
      { ...data, times: data.times.map((time) => time * 7) },
      { seed: 2, replicates: 200, horizon: 98 },
    );
    expect(weeks.intervals?.bca?.limits?.[0]).toBeCloseTo(7 * days.intervals!.bca!.limits![0]!, 8);
    expect(weeks.intervals?.percentile?.[1]).toBeCloseTo(7 * days.intervals!.percentile![1]!, 8);
  });

  test("a permutation p is never 0, and labels that are all alike give 1", () => {
    const difference = (labels: Float64Array) =>
      labels.reduce((sum, label, row) => sum + (label === 1 ? 1 : -1) * values[row]!, 0);
    const far = permutationTest(
      { labels: [0, 0, 0, 0, 1, 1, 1, 1], statistic: difference },
      { seed: 4, draws: 199 },
    );
    expect(far.greater).toBeGreaterThanOrEqual(1 / 200);
    expect(far.greater).toBeLessThan(0.1);
    const alike = permutationTest(
      { labels: [1, 1, 1, 1, 1, 1, 1, 1], statistic: difference },
      { seed: 4, draws: 50 },
    );
    expect([alike.less, alike.greater, alike.twoSided]).toEqual([1, 1, 1]);
  });
});
