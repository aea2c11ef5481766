import { checkColumn, checkSameLength } from "../shared/arguments.js";
import { clusterIndex } from "../shared/clusters.js";
import { normalCritical } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import {
  checkColumnNames,
  confidenceLevel,
  type NamesOf,
  number,
  type OptionsOf,
  readOptions,
} from "../shared/options.js";
import { deviationInterval } from "./variance-interval.js";

/** Readings one below the other, any number a subject. */
export interface RepeatedReadings {
  readonly values: ArrayLike<number>;
  /** Whole number of each reading's subject. */
  readonly subjects: ArrayLike<number>;
}

export const repeatedReadingsNames: NamesOf<RepeatedReadings> = { values: true, subjects: true };

export interface Repeatability {
  readonly subjects: number;
  /** Subjects with two readings or more: only they count. */
  readonly subjectsRepeated: number;
  readonly readings: number;
  readonly withinSubjectDeviation: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** s / sqrt(2 df). */
  readonly standardError: number | null;
  readonly df: number;
  /** Two readings of one subject differ by less than this in about 95 % of cases: multiplier sqrt(2) s. */
  readonly coefficient: number | null;
  readonly coefficientLower: number | null;
  readonly coefficientUpper: number | null;
  readonly multiplier: number;
  readonly level: number;
  readonly reason: Reason | null;
}

export const repeatabilityOptions = {
  /** Of the intervals. Default 0.95. */
  level: confidenceLevel,
  /** Default 1.96 (to full precision); papers before 1990 use 2. */
  multiplier: number("positive", normalCritical(0.95)),
};

export interface RepeatabilityOptions extends OptionsOf<typeof repeatabilityOptions> {}

/**
 * Within-subject standard deviation from repeated readings, and the repeatability coefficient.
 *
 * s^2 = sum over subjects of squared deviations from the subject's mean, over df = sum (m_i - 1); for pairs sum d^2 / 2n.
 * Interval: df s^2 / chi-square. Assumes that s does not grow with the size of the reading and that the subject did not change;
 * a shift between first and second reading counts as error.
 *
 * @param columns values and the subject of each, equally long; subjects with one reading are counted and add nothing
 * @returns nulls with `no-rows`, or `too-few-rows` where no subject has two readings; 0 where all repeats agree
 * @throws ArgumentError naming the column and index of a value at fault
 * @source Bland & Altman 1986, Lancet 1:307; Bland & Altman 1996, BMJ 312:1654 (measurement error);
 * Bland & Altman 1996, BMJ 313:744
 * @example
 * repeatability({ values: [3, 5, 6, 8], subjects: [1, 1, 2, 2] }).withinSubjectDeviation // => sqrt(2)
 */
export function repeatability(columns: RepeatedReadings, options: RepeatabilityOptions = {}): Repeatability {
  checkColumnNames(repeatedReadingsNames, { columns });
  const { level, multiplier } = readOptions(repeatabilityOptions, options);
  const values = { name: "values", values: columns.values };
  checkColumn(values, "finite");
  checkSameLength({ name: "subjects", values: columns.subjects }, values);
  checkColumn({ name: "subjects", values: columns.subjects }, "code");
  const groups = clusterIndex({ times: columns.subjects, clusters: columns.subjects });
  const { variance, df, repeated } = withinVariance(columns.values, groups);
  const common = {
    subjects: groups.count,
    subjectsRepeated: repeated,
    readings: columns.values.length,
    df,
    multiplier,
    level,
  };
  if (variance === null) {
    const none = { withinSubjectDeviation: null, lower: null, upper: null, standardError: null };
    const reason = columns.values.length === 0 ? "no-rows" : "too-few-rows";
    return { ...common, ...none, coefficient: null, coefficientLower: null, coefficientUpper: null, reason };
  }
  const { estimate, lower, upper, reason } = deviationInterval({ variance, df }, level);
  const factor = multiplier * Math.SQRT2;
  return {
    ...common,
    withinSubjectDeviation: estimate,
    lower,
    upper,
    standardError: estimate / Math.sqrt(2 * df),
    coefficient: factor * estimate,
    coefficientLower: lower === null ? null : factor * lower,
    coefficientUpper: upper === null ? null : factor * upper,
    reason,
  };
}

/** Pooled variance around each group's mean; null without a repeat. */
export function withinVariance(
  values: ArrayLike<number>,
  groups: { readonly of: Int32Array; readonly count: number },
): { variance: number | null; df: number; repeated: number; counts: Float64Array; means: Float64Array } {
  const counts = new Float64Array(groups.count);
  const means = new Float64Array(groups.count);
  for (let row = 0; row < values.length; row++) {
    counts[groups.of[row]!]! += 1;
    means[groups.of[row]!]! += values[row]!;
  }
  let repeated = 0;
  let df = 0;
  for (let g = 0; g < groups.count; g++) {
    means[g]! /= counts[g]!;
    if (counts[g]! > 1) repeated++;
    df += counts[g]! - 1;
  }
  let squares = 0;
  let largest = 0;
  for (let row = 0; row < values.length; row++) {
    squares += (values[row]! - means[groups.of[row]!]!) ** 2;
    largest = Math.max(largest, Math.abs(values[row]!));
  }
  // the mean of equal readings need not be equal to them to the last bit
  const spread = squares > values.length * (4 * Number.EPSILON * largest) ** 2 ? squares : 0;
  return { variance: df > 0 ? spread / df : null, df, repeated, counts, means };
}
