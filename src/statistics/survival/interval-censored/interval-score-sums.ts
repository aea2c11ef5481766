import { type Factor, factorSymmetric } from "../../linear/symmetric.js";
import { checkColumn, checkSameLength } from "../../shared/arguments.js";
import { rowsByIndex } from "../../shared/clusters.js";
import { indexOfCodes } from "../../shared/codes.js";
import type { Reason } from "../../shared/figure.js";
import { type NamesOf, readOptions } from "../../shared/options.js";
import { fitIntervals, intervalCurveOptions } from "./interval-curve.js";
import { type IntervalColumns, intervalsOf } from "./interval-data.js";
import { type IntervalScores, scoresOfRows } from "./interval-scores.js";

/** Rows as in IntervalColumns, unweighted, with the group of each and, where the comparison is within strata, its stratum. */
export interface GroupedIntervals extends Omit<IntervalColumns, "weights"> {
  /** Whole numbers. */
  readonly groups: ArrayLike<number>;
  /** Whole numbers. */
  readonly strata?: ArrayLike<number>;
}

export const groupedIntervalsNames: NamesOf<GroupedIntervals> = {
  groups: true,
  strata: true,
  left: true,
  right: true,
};

/** Scores and what a test needs of them. */
export interface ScoreSums {
  readonly groups: readonly number[];
  readonly group: Int32Array;
  readonly scores: Float64Array;
  readonly variance: Float64Array;
  readonly factor: Factor;
  readonly silence: Reason;
  readonly converged: boolean;
}

function checkGroups(columns: GroupedIntervals): void {
  const left = { name: "left", values: { length: columns.left.length } };
  const strata = columns.strata === undefined ? [] : [["strata", columns.strata] as const];
  for (const [name, values] of [["groups", columns.groups] as const, ...strata]) {
    checkSameLength({ name, values }, left);
    checkColumn({ name, values }, "code");
  }
}

/** Adds the permutation covariance of one stratum's sums of scores. */
function addVariance(
  variance: Float64Array,
  stratum: { readonly rows: Int32Array; readonly group: Int32Array; readonly scores: Float64Array },
): void {
  const { rows, group, scores } = stratum;
  const n = rows.length;
  const size = Math.sqrt(variance.length);
  if (n < 2) return;
  const counts = new Float64Array(size);
  let squares = 0;
  for (const row of rows) {
    counts[group[row]!]!++;
    squares += scores[row]! ** 2;
  }
  // scores that differ by the rounding of the masses only are equal
  if (squares <= negligible * n) return;
  for (let g = 0; g < size; g++)
    for (let h = 0; h < size; h++)
      variance[g * size + h]! +=
        (squares / (n - 1)) * ((g === h ? counts[g]! : 0) - (counts[g]! * counts[h]!) / n);
}

const negligible = 1e-18;

/** Scores of each row from the curve of its stratum, all groups together, and their covariance. */
export function sumsOf(columns: GroupedIntervals, kind: IntervalScores): ScoreSums {
  const all = intervalsOf({ left: columns.left, right: columns.right });
  checkGroups(columns);
  const { codes: groups, index: group } = indexOfCodes(columns.groups);
  const strata = indexOfCodes(columns.strata ?? new Int32Array(all.left.length));
  const ordered = rowsByIndex(strata.index, strata.codes.length);
  const scores = new Float64Array(all.left.length);
  const variance = new Float64Array(groups.length ** 2);
  let converged = true;
  for (let s = 0; s < strata.codes.length; s++) {
    const rows = ordered.rows.subarray(ordered.start[s], ordered.start[s + 1]);
    const picked = (values: Float64Array): Float64Array => Float64Array.from(rows, (row) => values[row]!);
    const intervals = {
      left: picked(all.left),
      right: picked(all.right),
      weights: picked(all.weights),
      total: rows.length,
    };
    const fit = fitIntervals(intervals, readOptions(intervalCurveOptions, {}));
    converged &&= fit.maximum.converged;
    const own = scoresOfRows(fit, kind);
    rows.forEach((row, i) => {
      scores[row] = own[i]!;
    });
    addVariance(variance, { rows, group, scores });
  }
  const factor = factorSymmetric(variance, { size: groups.length, tolerance: 1e-10 });
  return { groups, group, scores, variance, factor, silence: reasonForNoTest(all.right, groups), converged };
}

/** Why no comparison is possible. */
function reasonForNoTest(right: Float64Array, groups: readonly number[]): Reason {
  if (right.length === 0) return "no-rows";
  if (groups.length < 2) return "one-group";
  return right.some(Number.isFinite) ? "no-variance" : "no-events";
}

/** Sum of the scores of each group. */
export function sumsByGroup(scores: Float64Array, group: ArrayLike<number>, size: number): Float64Array {
  const sums = new Float64Array(size);
  for (let row = 0; row < scores.length; row++) sums[group[row]!]! += scores[row]!;
  return sums;
}
