import { checkColumn, checkNumber, checkSameLength } from "../arguments.js";
import { normalCritical } from "../distributions.js";
import type { Reason } from "../figure.js";
import { groupRows } from "./group-rows.js";
import { checkPairs, differencesOf, type PairedReadings, spreadIsRounding } from "./paired-readings.js";
import { type RepeatedReadings, withinVariance } from "./repeatability.js";
import { limitsFromParts, type RepeatedLimit, type VariancePart } from "./repeated-limit-intervals.js";

/** Limits of agreement for one reading by each method, from several readings a subject. */
export interface RepeatedLimits {
  readonly subjects: number;
  /** In one method's column only; not used. Always 0 for pairs. */
  readonly subjectsUnpaired: number;
  readonly observations: number;
  readonly bias: number | null;
  readonly biasLower: number | null;
  readonly biasUpper: number | null;
  /** Of the difference between two single readings on one subject. */
  readonly standardDeviation: number | null;
  /** What the variance consists of, see the function; a share without repeats is null. */
  readonly variances: {
    readonly between: number | null;
    readonly withinFirst: number | null;
    readonly withinSecond: number | null;
  };
  readonly multiplier: number;
  readonly lower: RepeatedLimit | null;
  readonly upper: RepeatedLimit | null;
  readonly level: number;
  readonly reason: Reason | null;
}

export interface RepeatedLimitsOptions {
  /** Of the intervals. Default 0.95. */
  readonly level?: number;
  /** Default 1.96 (to full precision). */
  readonly multiplier?: number;
}

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
  const settings = checkedOptions(options);
  checkPairs(columns);
  checkSubjects("subjects", columns.subjects, { name: "first", values: columns.first });
  const differences = differencesOf(columns);
  const groups = groupRows(columns.subjects);
  const n = groups.size;
  const counted = { subjects: n, subjectsUnpaired: 0, observations: differences.length };
  if (n < 2) return withoutLimits(counted, settings);
  const { variance: within, df, counts, means } = withinVariance(differences, groups);
  const total = differences.length;
  const bias = differences.reduce((sum, d) => sum + d / total, 0);
  let squaredCounts = 0;
  let squares = 0;
  for (let i = 0; i < n; i++) {
    const m = counts[i] as number;
    squaredCounts += m * m;
    squares += m * ((means[i] as number) - bias) ** 2;
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
  const settings = checkedOptions(options);
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
    first: subjects.map((subject) => first.means.get(subject) as number),
    second: subjects.map((subject) => second.means.get(subject) as number),
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

type Settings = Required<RepeatedLimitsOptions>;
type Counted = Pick<RepeatedLimits, "subjects" | "subjectsUnpaired" | "observations">;

function checkedOptions({
  level = 0.95,
  multiplier = normalCritical(0.95),
}: RepeatedLimitsOptions): Settings {
  normalCritical(level);
  checkNumber({ name: "multiplier", value: multiplier }, "positive");
  return { level, multiplier };
}

function checkSubjects(
  name: string,
  subjects: ArrayLike<number>,
  first: { name: string; values: ArrayLike<number> },
) {
  checkSameLength({ name, values: subjects }, first);
  checkColumn({ name, values: subjects }, "code");
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
  const rows = Array.from(subjects, (_, row) => row).filter((row) => used.has(subjects[row] as number));
  const codes = rows.map((row) => subjects[row] as number);
  const groups = groupRows(codes);
  const { variance, df, counts, means } = withinVariance(
    rows.map((row) => values[row] as number),
    groups,
  );
  const byCode = new Map(codes.map((code, at) => [code, means[groups.of[at] as number] as number]));
  const meanInverse = counts.reduce((sum, m) => sum + 1 / m, 0) / groups.size;
  const factor = variance === null ? 0 : 1 - meanInverse;
  return { readings: rows.length, means: byCode, variance, part: { factor, variance: variance ?? 0, df } };
}

function withoutLimits(counted: Counted, settings: Settings): RepeatedLimits {
  return {
    ...counted,
    ...settings,
    bias: null,
    biasLower: null,
    biasUpper: null,
    standardDeviation: null,
    variances: { between: null, withinFirst: null, withinSecond: null },
    lower: null,
    upper: null,
    reason: counted.subjects === 0 ? "no-rows" : "too-few-rows",
  };
}

/** No parts: nothing varies. */
function withLimits(
  counted: Counted,
  settings: Settings,
  found: {
    readonly bias: number;
    readonly biasVariance: number;
    readonly parts: readonly VariancePart[];
    readonly variances: RepeatedLimits["variances"];
  },
): RepeatedLimits {
  const { bias, biasVariance, parts, variances } = found;
  const common = { ...counted, ...settings, bias, variances };
  if (parts.length === 0) {
    const limit = { estimate: bias, approximate: null, recovered: null };
    const none = { biasLower: null, biasUpper: null, standardDeviation: 0 };
    return { ...common, ...none, lower: limit, upper: limit, reason: "no-variance" };
  }
  const limits = limitsFromParts({ bias, biasVariance, biasDf: counted.subjects - 1, parts }, settings);
  return { ...common, ...limits, reason: null };
}
