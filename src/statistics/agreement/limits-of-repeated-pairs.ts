import { spreadIsRounding } from "../continuous/spread-is-rounding.js";
import { clusterIndex } from "../shared/clusters.js";
import { checkColumnNames, type NamesOf, readOptions } from "../shared/options.js";
import { checkPairs, differencesOf, type PairedReadings } from "./paired-readings.js";
import { withinVariance } from "./repeatability.js";
import {
  checkSubjects,
  type RepeatedLimits,
  type RepeatedLimitsOptions,
  repeatedLimitsOptions,
  withLimits,
  withoutLimits,
} from "./repeated-limits.js";

const limitsOfRepeatedPairsNames: NamesOf<Parameters<typeof limitsOfRepeatedPairs>[0]> = {
  first: true,
  second: true,
  subjects: true,
};

/**
 * Limits of agreement from several pairs a subject, both methods read together each time, the true value free to change
 * between pairs.
 *
 * One-way analysis of variance of the differences by subject, mean squares B and W: variance B / m0 + (1 - 1/m0) W, with
 * m0 = ((sum m)^2 - sum m^2) / ((n - 1) sum m); `variances.between` is (B - W) / m0 and may be negative, `withinFirst` W.
 * Bias: mean of all pairs, variance max(0, between) sum m^2 / N^2 + W / N. Intervals: see `RepeatedLimit`.
 *
 * @param columns first, second and the subject (whole number) of each pair
 * @returns nulls with `no-rows` or `too-few-rows` (one subject); limits at the bias with `no-variance` where all differences are
 *   equal; without any repeat the limits are those of `limitsOfAgreement`
 * @throws ArgumentError naming the column and index of a value at fault
 * @source Bland & Altman 2007, J Biopharm Stat 17:571; intervals: Zou 2013, Stat Methods Med Res 22:630
 */
export function limitsOfRepeatedPairs(
  columns: PairedReadings & { readonly subjects: ArrayLike<number> },
  options: RepeatedLimitsOptions = {},
): RepeatedLimits {
  checkColumnNames(limitsOfRepeatedPairsNames, { columns });
  const settings = readOptions(repeatedLimitsOptions, options);
  checkPairs(columns);
  checkSubjects("subjects", columns.subjects, { name: "first", values: columns.first });
  const differences = differencesOf(columns);
  const groups = clusterIndex({ times: columns.subjects, clusters: columns.subjects });
  const n = groups.count;
  const counted = { subjects: n, subjectsUnpaired: 0, observations: differences.length };
  if (n < 2) return withoutLimits(counted, settings);
  const { variance: within, df, counts, means } = withinVariance(differences, groups);
  const total = differences.length;
  const bias = differences.reduce((sum, d) => sum + d / total, 0);
  let squaredCounts = 0;
  let squares = 0;
  for (let i = 0; i < n; i++) {
    const m = counts[i]!;
    squaredCounts += m * m;
    squares += m * (means[i]! - bias) ** 2;
  }
  const ofMeans = squares / (n - 1);
  const m0 = (total * total - squaredCounts) / ((n - 1) * total);
  const between = (ofMeans - (within ?? 0)) / m0;
  const parts = [
    { factor: 1 / m0, variance: ofMeans, df: n - 1 },
    { factor: within === null ? 0 : 1 - 1 / m0, variance: within ?? 0, df },
  ];
  const biasVariance = (Math.max(0, between) * squaredCounts) / total ** 2 + (within ?? 0) / total;
  return withLimits(counted, settings, {
    bias,
    biasVariance,
    parts: spreadIsRounding(Math.sqrt(squares / total + (within ?? 0)), columns) ? [] : parts,
    variances: { between, withinFirst: within, withinSecond: null },
  });
}
