import { normalCritical } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import { checkColumnNames, confidenceLevel, type OptionsOf, readOptions } from "../shared/options.js";
import { checkRatings, type MeanSquares, meanSquaresOf, type Ratings, ratingsNames } from "./mean-squares.js";
import { deviationInterval } from "./variance-interval.js";

/** Error of one reading, in the unit of the readings, and the change between two readings that it can explain. */
export interface ErrorOfReading {
  /** Standard error of measurement. */
  readonly sem: number;
  /** Degrees of freedom behind it, whole or by Satterthwaite's formula. */
  readonly df: number;
  readonly semLower: number | null;
  readonly semUpper: number | null;
  /** A change below this is no more than two readings of an unchanged subject differ by, at the level of the change. */
  readonly minimalDetectableChange: number;
  readonly changeLower: number | null;
  readonly changeUpper: number | null;
  /** `no-variance`: readings that agree exactly have no limits. */
  readonly reason: "no-variance" | null;
}

export interface MeasurementError {
  readonly subjects: number;
  readonly raters: number;
  /** The same rater reads before and after: sqrt(E). */
  readonly consistency: ErrorOfReading | null;
  /** Any rater reads before, any after: sqrt(E + rater variance). */
  readonly agreement: ErrorOfReading | null;
  /** Raters not told apart: sqrt(W). */
  readonly oneWay: ErrorOfReading | null;
  /**
   * SD of all readings times sqrt(1 - ICC(2,1)), as older papers give it; too small, given for comparison, no interval.
   * Null where all readings are equal.
   */
  readonly fromTotalDeviation: { readonly sem: number; readonly minimalDetectableChange: number } | null;
  readonly level: number;
  readonly changeLevel: number;
  readonly reason: Reason | null;
}

export const measurementErrorOptions = {
  /** Of the intervals. Default 0.95. */
  level: confidenceLevel,
  /** Share of unchanged subjects whose two readings differ by less. Default 0.95, factor 1.96. */
  changeLevel: confidenceLevel,
};

export interface MeasurementErrorOptions extends OptionsOf<typeof measurementErrorOptions> {}

/**
 * Standard error of measurement and minimal detectable change, z sqrt(2) SEM, of a complete table of subjects by raters.
 *
 * SEM^2 is E with (n-1)(k-1) degrees of freedom, W with n (k-1), or E + max(0, (J - E) / n) with Satterthwaite's
 * (J/n + (n-1) E/n)^2 / ((J/n)^2 / (k-1) + ((n-1) E/n)^2 / ((n-1)(k-1))); where J < E the raters add nothing and E's are used.
 * Intervals: df SEM^2 / chi-square. With few raters the interval of the agreement form is wide, and rightly so.
 *
 * @param ratings one column a rater (or a reading), equally long, row by row the same subject
 * @returns nulls with `no-rows`, or `too-few-rows` for one subject or rater; readings that agree exactly give 0 without limits (`no-variance`)
 * @throws ArgumentError naming the rater's column and index of a value at fault, or a level out of range
 * @source Shrout & Fleiss 1979, Psychol Bull 86:420; Weir 2005, J Strength Cond Res 19:231; Satterthwaite 1946, Biometrics 2:110
 * @example
 * measurementError({ raters: [[2, 4, 6], [3, 5, 7]] }).consistency?.sem // => 0
 */
export function measurementError(ratings: Ratings, options: MeasurementErrorOptions = {}): MeasurementError {
  checkColumnNames(ratingsNames, { ratings });
  const { level, changeLevel } = readOptions(measurementErrorOptions, options);
  checkRatings(ratings);
  const factor = normalCritical(changeLevel) * Math.SQRT2;
  const raters = ratings.raters.length;
  const subjects = ratings.raters[0]!.length;
  const common = { subjects, raters, level, changeLevel };
  if (subjects < 2 || raters < 2) {
    const none = { consistency: null, agreement: null, oneWay: null, fromTotalDeviation: null };
    return { ...common, ...none, reason: subjects === 0 ? "no-rows" : "too-few-rows" };
  }
  const table = meanSquaresOf(ratings);
  const errorOf = (estimated: { variance: number; df: number }): ErrorOfReading =>
    errorOfReading(estimated, { level, factor });
  const older = semFromTotal(table);
  return {
    ...common,
    consistency: errorOf({ variance: table.residual, df: (subjects - 1) * (raters - 1) }),
    agreement: errorOf(agreementVariance(table)),
    oneWay: errorOf({ variance: table.withinSubjects, df: subjects * (raters - 1) }),
    fromTotalDeviation: older === null ? null : { sem: older, minimalDetectableChange: factor * older },
    reason: null,
  };
}

/** SEM, change and limits from a variance; factor turns a SEM into a change. */
export function errorOfReading(
  estimated: { readonly variance: number; readonly df: number },
  { level, factor }: { readonly level: number; readonly factor: number },
): ErrorOfReading {
  const { estimate, df, lower, upper, reason } = deviationInterval(estimated, level);
  return {
    sem: estimate,
    df,
    semLower: lower,
    semUpper: upper,
    minimalDetectableChange: factor * estimate,
    changeLower: lower === null ? null : factor * lower,
    changeUpper: upper === null ? null : factor * upper,
    reason,
  };
}

function agreementVariance(table: MeanSquares): { variance: number; df: number } {
  const { subjects: n, raters: k, betweenRaters, residual } = table;
  const residualDf = (n - 1) * (k - 1);
  if (betweenRaters <= residual) return { variance: residual, df: residualDf };
  const fromRaters = betweenRaters / n;
  const fromResidual = ((n - 1) * residual) / n;
  const variance = fromRaters + fromResidual;
  return { variance, df: variance ** 2 / (fromRaters ** 2 / (k - 1) + fromResidual ** 2 / residualDf) };
}

function semFromTotal(table: MeanSquares): number | null {
  const { subjects: n, raters: k, betweenSubjects: b, betweenRaters: j, residual: e } = table;
  const all = b + (k - 1) * e + (k * (j - e)) / n;
  return all > 0 ? table.totalDeviation * Math.sqrt(Math.max(0, 1 - (b - e) / all)) : null;
}
