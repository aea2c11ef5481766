import { spreadIsRounding } from "../continuous/spread-is-rounding.js";
import { checkColumn } from "../shared/arguments.js";
import { clusterIndex } from "../shared/clusters.js";
import { checkColumnNames, type NamesOf, readOptions } from "../shared/options.js";
import { differencesOf } from "./paired-readings.js";
import { type RepeatedReadings, withinVariance } from "./repeatability.js";
import type { VariancePart } from "./repeated-limit-intervals.js";
import {
  checkSubjects,
  type RepeatedLimits,
  type RepeatedLimitsOptions,
  repeatedLimitsOptions,
  withLimits,
  withoutLimits,
} from "./repeated-limits.js";

const limitsOfReplicatesNames: NamesOf<Parameters<typeof limitsOfReplicates>[0]> = {
  first: true,
  second: true,
};

/**
 * Limits of agreement for single readings from replicates by each method, the true value the same throughout; numbers of
 * replicates may differ between subjects and methods, and the readings are not paired.
 *
 * Variance s_D^2 + (1 - mean 1/m_1) s_1^2 + (1 - mean 1/m_2) s_2^2: s_D^2 of the differences of subject means (`variances.between`),
 * s_1^2, s_2^2 within subjects by each method; without replicates of a method its term is 0. Bias: mean of the differences of means,
 * variance s_D^2 / n. Intervals: see `RepeatedLimit`.
 *
 * @param columns for each method values and subject (whole number) of each reading
 * @returns nulls with `no-rows` or `too-few-rows` (fewer than two subjects read by both); limits at the bias with `no-variance`
 * @throws ArgumentError naming the column and index of a value at fault
 * @source Bland & Altman 1999, Stat Methods Med Res 8:135, section 5; intervals: Zou 2013, Stat Methods Med Res 22:630
 */
export function limitsOfReplicates(
  columns: { readonly first: RepeatedReadings; readonly second: RepeatedReadings },
  options: RepeatedLimitsOptions = {},
): RepeatedLimits {
  checkColumnNames(limitsOfReplicatesNames, { columns });
  const settings = readOptions(repeatedLimitsOptions, options);
  checkReadings("first", columns.first);
  checkReadings("second", columns.second);
  const inFirst = new Set(Array.from(columns.first.subjects));
  const inBoth = new Set(Array.from(columns.second.subjects).filter((subject) => inFirst.has(subject)));
  const all = new Set([...inFirst, ...Array.from(columns.second.subjects)]);
  const first = summaryOf(columns.first, inBoth);
  const second = summaryOf(columns.second, inBoth);
  const n = inBoth.size;
  const counted = {
    subjects: n,
    subjectsUnpaired: all.size - n,
    observations: first.readings + second.readings,
  };
  if (n < 2) return withoutLimits(counted, settings);
  const subjects = [...inBoth];
  const means = {
    first: subjects.map((subject) => first.means.get(subject)!),
    second: subjects.map((subject) => second.means.get(subject)!),
  };
  const differences = differencesOf(means);
  const bias = differences.reduce((sum, d) => sum + d / n, 0);
  const ofMeans = differences.reduce((sum, d) => sum + (d - bias) ** 2, 0) / (n - 1);
  const parts = [{ factor: 1, variance: ofMeans, df: n - 1 }, first.part, second.part];
  const spread = Math.sqrt(parts.reduce((sum, part) => sum + part.factor * part.variance, 0));
  return withLimits(counted, settings, {
    bias,
    biasVariance: ofMeans / n,
    parts: spreadIsRounding(spread, means) ? [] : parts,
    variances: { between: ofMeans, withinFirst: first.variance, withinSecond: second.variance },
  });
}

function checkReadings(name: string, { values, subjects }: RepeatedReadings): void {
  checkColumn({ name: `${name}.values`, values }, "finite");
  checkSubjects(`${name}.subjects`, subjects, { name: `${name}.values`, values });
}

/** Means a subject and the part of the variance that replicates of one method add to the difference of single readings. */
function summaryOf(
  { values, subjects }: RepeatedReadings,
  used: ReadonlySet<number>,
): { readings: number; means: Map<number, number>; variance: number | null; part: VariancePart } {
  const rows = Array.from(subjects, (_, row) => row).filter((row) => used.has(subjects[row]!));
  const codes = rows.map((row) => subjects[row]!);
  const groups = clusterIndex({ times: codes, clusters: codes });
  const { variance, df, counts, means } = withinVariance(
    rows.map((row) => values[row]!),
    groups,
  );
  const byCode = new Map(codes.map((code, i) => [code, means[groups.of[i]!]!]));
  const meanInverse = counts.reduce((sum, m) => sum + 1 / m, 0) / groups.count;
  const factor = variance === null ? 0 : 1 - meanInverse;
  return { readings: rows.length, means: byCode, variance, part: { factor, variance: variance ?? 0, df } };
}
