import type { Reason } from "../shared/figure.js";
import { checkColumnNames, confidenceLevel, number, type OptionsOf, readOptions } from "../shared/options.js";
import { agreementForms, formWithout, type IntraclassPair, ratioForms } from "./intraclass-forms.js";
import { checkRatings, type MeanSquares, meanSquaresOf, type Ratings, ratingsNames } from "./mean-squares.js";

export interface IntraclassCorrelation {
  readonly subjects: number;
  readonly raters: number;
  readonly meanSquares: MeanSquares | null;
  /** Raters drawn anew for each subject, ICC(1,1) and ICC(1,k). */
  readonly oneWay: IntraclassPair;
  /** Absolute agreement with any rater of the kind, ICC(2,1) and ICC(2,k): a rater who always reads high lowers it. */
  readonly agreement: IntraclassPair;
  /** Consistency among these very raters, ICC(3,1) and ICC(3,k): a rater who always reads high does not matter. */
  readonly consistency: IntraclassPair;
  readonly level: number;
  readonly against: number;
  readonly reason: Reason | null;
}

export const intraclassOptions = {
  /** Of the intervals. Default 0.95. */
  level: confidenceLevel,
  /** Correlation that the tests are against, 0 or more and below 1. Default 0. */
  against: number("share below one", 0),
};

export interface IntraclassOptions extends OptionsOf<typeof intraclassOptions> {}

/**
 * Intraclass correlation of a complete table of subjects by raters, in the six classical forms, with intervals and F tests.
 *
 * With mean squares B (subjects), W (within), J (raters), E (residual), n subjects, k raters:
 * one-way (B - W) / (B + (k-1) W); agreement (B - E) / (B + (k-1) E + k (J - E) / n); consistency (B - E) / (B + (k-1) E);
 * for the mean of k: (B - W) / B, (B - E) / (B + (J - E) / n), (B - E) / B. Intervals of one-way and consistency are exact
 * under normality, from F = B/W and B/E; those of agreement use Satterthwaite's degrees of freedom, those of its average
 * the Spearman-Brown step. Estimates and limits may be negative and are not cut at 0.
 *
 * @param ratings one column a rater, equally long, row by row the same subject; missing readings: see `raterComponents`
 * @returns nulls with `no-rows`; `too-few-rows` for one subject or one rater; `no-variance` where all readings are equal.
 *   Raters who agree to the last digit give 1 without interval or test (`no-variance`)
 * @throws ArgumentError naming the rater's column and index of a value at fault, a level or null value out of range
 * @source Shrout & Fleiss 1979, Psychol Bull 86:420; tests against other values than 0: McGraw & Wong 1996, Psychol Methods 1:30
 * @example
 * intraclassCorrelation({ raters: [[1, 2, 3], [2, 3, 4]] }).consistency.single.estimate // => 1
 * intraclassCorrelation({ raters: [[1, 2, 3], [2, 3, 4]] }).agreement.single.estimate // => 2/3
 */
export function intraclassCorrelation(
  ratings: Ratings,
  options: IntraclassOptions = {},
): IntraclassCorrelation {
  checkColumnNames(ratingsNames, { ratings });
  const { level, against } = readOptions(intraclassOptions, options);
  checkRatings(ratings);
  const raters = ratings.raters.length;
  const subjects = ratings.raters[0]!.length;
  const common = { subjects, raters, level, against };
  if (subjects < 2 || raters < 2) {
    const reason = subjects === 0 ? "no-rows" : "too-few-rows";
    const pair = { single: formWithout(reason), average: formWithout(reason) };
    return { ...common, meanSquares: null, oneWay: pair, agreement: pair, consistency: pair, reason };
  }
  const table = meanSquaresOf(ratings);
  const setting = { table, against, upperShare: (1 + level) / 2 };
  const { betweenSubjects: b, withinSubjects: w, residual: e } = table;
  return {
    ...common,
    meanSquares: table,
    oneWay: ratioForms(setting, { error: w, errorDf: subjects * (raters - 1) }),
    agreement: agreementForms(setting),
    consistency: ratioForms(setting, { error: e, errorDf: (subjects - 1) * (raters - 1) }),
    reason: b === 0 && w === 0 ? "no-variance" : null,
  };
}
