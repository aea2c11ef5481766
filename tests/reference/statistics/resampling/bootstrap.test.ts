import { describe, expect, it } from "vitest";
import { bootstrapIntervals, countedRestrictedMean } from "../../../../src/statistics/resampling/index.js";
import { expectAllClose, expectClose, numbers, referenceCase, referenceRows } from "../reference-data.js";

const rel = 1e-9;

/** Row numbers of each resample, from 0. */
const resamples = (file: string): number[][] =>
  referenceRows("bootstrap", file).map((row) => Object.values(row).map((place) => Number(place) - 1));

const skewed = numbers(referenceRows("bootstrap", "skewed.csv"), "value");
const groups = referenceRows("bootstrap", "two_groups.csv");
const six = referenceRows("bootstrap", "six_mp.csv");
const restricted = countedRestrictedMean(
  { times: numbers(six, "weeks"), events: numbers(six, "relapse") },
  { horizon: 20 },
);

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
const median = (values: readonly number[]): number => {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length / 2;
  return (sorted[Math.ceil(half) - 1]! + sorted[Math.floor(half)]!) / 2;
};
const deviation = (values: readonly number[]): number =>
  Math.sqrt(values.reduce((sum, value) => sum + (value - mean(values)) ** 2, 0) / (values.length - 1));
const of = (values: readonly number[], rows: readonly number[]) => rows.map((row) => values[row]!);
const groupMean = (rows: readonly number[], group: string): number =>
  mean(rows.filter((row) => groups[row]?.group === group).map((row) => Number(groups[row]?.value)));
const countsOf = (rows: readonly number[]): number[] =>
  six.map((_, row) => rows.filter((drawn) => drawn === row).length);

describe("bootstrap intervals from given resamples, Davison & Hinkley 1997, against R 4.2.2 and boot 1.3.28.1", () => {
  it.each([
    { id: "mean", n: 20, file: "skewed_resamples.csv", figure: (rows: number[]) => mean(of(skewed, rows)) },
    {
      id: "median",
      n: 20,
      file: "skewed_resamples.csv",
      figure: (rows: number[]) => median(of(skewed, rows)),
    },
    {
      id: "standard_deviation",
      n: 20,
      file: "skewed_resamples.csv",
      figure: (rows: number[]) => deviation(of(skewed, rows)),
    },
    {
      id: "restricted_mean_20",
      n: 21,
      file: "six_mp_resamples.csv",
      figure: (rows: number[]) => restricted(countsOf(rows))!,
    },
    {
      id: "mean_difference",
      n: 20,
      file: "two_groups_resamples.csv",
      figure: (rows: number[]) => groupMean(rows, "1") - groupMean(rows, "0"),
    },
  ])("$id", ({ id, n, file, figure }) => {
    const { expected } = referenceCase("bootstrap", id);
    const every = Array.from({ length: n }, (_, row) => row);
    const material = {
      estimate: figure(every),
      replicates: resamples(file).map(figure),
      jackknife: every.map((left) => figure(every.filter((row) => row !== left))),
    };
    expectAllClose(
      [...material.replicates].sort((a, b) => a - b),
      expected.sorted_replicates,
      { rel, what: "replicates" },
    );
    for (const [quantile, name] of [
      ["type-7", "linear_type7"],
      ["type-6", "type6"],
      ["normal-scale", "normal_scale_interpolation"],
    ] as const)
      for (const [ties, bca] of [
        ["not-below", "bca_strict"],
        ["half", "bca_ties_half"],
      ] as const) {
        const found = bootstrapIntervals(material, { quantile, ties });
        const how = { rel, what: `${id}, ${name}, ${bca}` };
        expect([found.used, found.failed, found.tied]).toEqual([
          expected.replicates,
          0,
          expected.ties_with_estimate,
        ]);
        expectAllClose(
          [found.estimate, found.mean, found.bias, found.standardError],
          [expected.estimate, expected.mean_of_replicates, expected.bias, expected.se],
          how,
        );
        expectAllClose(found.percentile ?? [], expected.percentile[name], how);
        expectAllClose(found.basic ?? [], expected.basic[name], how);
        expectAllClose(found.normal ?? [], expected.normal, how);
        expectAllClose(found.normalWithoutBias ?? [], expected.normal_without_bias, how);
        expectClose(found.bca?.acceleration, expected.acceleration_jackknife, how);
        expectClose(found.bca?.biasCorrection, expected[bca].z0, how);
        expectAllClose(found.bca?.shares ?? [], expected[bca].adjusted_probabilities, how);
        expectAllClose(found.bca?.limits ?? [], expected[bca].interval[name], how);
      }
  });

  it("studentised by hand: pivots -1, 0, 1 at their quartiles of type 7 give 10 -+ 2 x 0.5", () => {
    const found = bootstrapIntervals(
      { estimate: 10, standardError: 2, replicates: [9, 10, 13], standardErrors: [1, 4, 3] },
      { level: 0.5, quantile: "type-7" },
    );
    expectAllClose(found.studentised ?? [], [9, 11], { rel: 1e-12, what: "studentised" });
  });
});
