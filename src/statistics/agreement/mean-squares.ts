import { ArgumentError, checkColumn, checkSameLength } from "../shared/arguments.js";
import type { NamesOf } from "../shared/options.js";

/** Every rater (or reading) on every subject: one column a rater, row by row the same subject. */
export interface Ratings {
  readonly raters: readonly ArrayLike<number>[];
}

export const ratingsNames: NamesOf<Ratings> = { raters: true };

/** Two-way table of subjects by raters, one reading a cell. */
export interface MeanSquares {
  readonly subjects: number;
  readonly raters: number;
  readonly betweenSubjects: number;
  /** Within subjects, raters not told apart. */
  readonly withinSubjects: number;
  readonly betweenRaters: number;
  readonly residual: number;
  /** Standard deviation of all readings together, n - 1. */
  readonly totalDeviation: number;
}

/**
 * Below this many units of rounding of the largest reading a deviation is rounding: decimals such as 2.1 are not exact,
 * and sums of them are off by a few units.
 */
const roundingUnits = 8;

/** @throws ArgumentError naming the rater's column and the index of a value that is not finite, or a column of another length */
export function checkRatings({ raters }: Ratings): void {
  if (raters.length === 0)
    throw new ArgumentError({ argument: "raters", index: null, expected: "one column or more", found: 0 });
  const first = { name: "raters[0]", values: raters[0]! };
  raters.forEach((values, i) => {
    const column = { name: `raters[${i}]`, values };
    checkSameLength(column, first);
    checkColumn(column, "finite");
  });
}

/**
 * Mean squares of a checked table with two or more subjects and raters.
 *
 * Sums are of deviations, never differences of sums of squares, so that a small residual keeps its digits.
 */
export function meanSquaresOf({ raters }: Ratings): MeanSquares {
  const k = raters.length;
  const n = raters[0]!.length;
  const subjectMeans = new Float64Array(n);
  const raterMeans = new Float64Array(k);
  let largest = 0;
  raters.forEach((column, j) => {
    for (let i = 0; i < n; i++) {
      const value = column[i]!;
      subjectMeans[i]! += value / k;
      raterMeans[j]! += value / n;
      largest = Math.max(largest, Math.abs(value));
    }
  });
  const grand = raterMeans.reduce((sum, mean) => sum + mean / k, 0);
  const sums = { subjects: 0, raters: 0, residual: 0, within: 0, total: 0 };
  for (const mean of subjectMeans) sums.subjects += (mean - grand) ** 2;
  for (const mean of raterMeans) sums.raters += (mean - grand) ** 2;
  raters.forEach((column, j) => {
    const rater = raterMeans[j]! - grand;
    for (let i = 0; i < n; i++) {
      const fromSubject = column[i]! - subjectMeans[i]!;
      sums.within += fromSubject ** 2;
      sums.residual += (fromSubject - rater) ** 2;
      sums.total += (column[i]! - grand) ** 2;
    }
  });
  const rounding = (roundingUnits * Number.EPSILON * largest) ** 2;
  const cleaned = (sum: number, terms: number): number => (sum <= terms * rounding ? 0 : sum);
  return {
    subjects: n,
    raters: k,
    betweenSubjects: (k * cleaned(sums.subjects, n)) / (n - 1),
    withinSubjects: cleaned(sums.within, n * k) / (n * (k - 1)),
    betweenRaters: (n * cleaned(sums.raters, k)) / (k - 1),
    residual: cleaned(sums.residual, n * k) / ((n - 1) * (k - 1)),
    totalDeviation: Math.sqrt(cleaned(sums.total, n * k) / (n * k - 1)),
  };
}
