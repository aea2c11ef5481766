import type { Reason } from "../../shared/figure.js";
import { checkColumnNames, number, type OptionsOf, type Read, readOptions } from "../../shared/options.js";
import { type AlikeRows, mergeAlike } from "./alike-rows.js";
import { type Innermost, innermostOf } from "./innermost.js";
import { type IntervalColumns, intervalColumnsNames, intervalsOf } from "./interval-data.js";
import { logLikelihoodAt } from "./likelihood.js";
import { type Maximum, maximise } from "./maximise.js";

export const intervalCurveOptions = {
  /** Largest miss of the conditions for the maximum, as a part of the total weight. Default 1e-9. */
  tolerance: number("positive", 1e-9),
  /** Default 2000. */
  maximumIterations: number("count", 2000),
};

export interface IntervalCurveOptions extends OptionsOf<typeof intervalCurveOptions> {}

/**
 * One entry an interval that holds mass, ascending. Between `from` and `to` the curve is undetermined; elsewhere it is level.
 */
export interface IntervalCurve {
  /** Open end: the event comes after it; -1: from before time 0. The time itself where `exact`. */
  readonly from: readonly number[];
  /** Closed end; null where the interval has none (still without the event at `from`). */
  readonly to: readonly (number | null)[];
  /** The mass sits on the time `from` = `to` itself. */
  readonly exact: readonly boolean[];
  readonly mass: readonly number[];
  /** Share without the event from `to` on. */
  readonly notYetAfter: readonly number[];
  /** Rows, whatever their weight. */
  readonly n: number;
  /** Sum of the weights. */
  readonly total: number;
  /** Innermost intervals looked at, with mass or without. */
  readonly candidates: number;
  readonly logLikelihood: number | null;
  /** How far the conditions for the maximum are missed, as a part of the total weight; null without rows. */
  readonly distanceFromMaximum: number | null;
  readonly iterations: number;
  readonly converged: boolean;
  /**
   * No other masses on these intervals have the same likelihood. True of all data of this kind (see intervalCurve): only where within an
   * interval its mass sits is open.
   */
  readonly unique: true;
  readonly reason: Reason | null;
}

/** What the curve and the score test start from. */
export interface IntervalFit {
  readonly innermost: Innermost;
  readonly rows: AlikeRows;
  readonly maximum: Maximum;
}

/** @throws ArgumentError for an option out of range */
export function fitIntervals(
  intervals: ReturnType<typeof intervalsOf>,
  precision: Read<typeof intervalCurveOptions>,
): IntervalFit {
  const innermost = innermostOf(intervals);
  const rows = mergeAlike(innermost, intervals);
  return { innermost, rows, maximum: maximise(rows, precision) };
}

/**
 * Curve of the share without the event from interval-censored times, by non-parametric maximum likelihood.
 *
 * Maximises sum of w_i log(S(left_i) - S(right_i)) over all curves. Mass can sit only on innermost intervals (from a left end to a right
 * end with no other end between), and where within one is not determined by data: the curve is undetermined there. Found by rounds of
 * self-consistency, iterative convex minorant and Newton steps; at the end the conditions for the maximum are checked: for each
 * innermost interval the sum of w_i / probability_i over the rows that contain it is at most the total weight, equal to it where there is mass.
 * For right-censored data this is the product-limit curve.
 *
 * The masses are unique: the log-likelihood is strictly concave in the probabilities of the rows, and these determine the masses, for every
 * innermost interval ends where some row ends, so that the sum of mass up to there is the sum up to an earlier end plus that row's
 * probability.
 *
 * @param columns see IntervalColumns
 * @returns no entries with `no-rows` for no rows (or all of weight 0); `not-converged` with the figures reached
 * @throws ArgumentError naming the column and index of a value at fault, or the option
 * @source Turnbull 1976, J R Stat Soc B 38:290; Wellner & Zhan 1997, J Am Stat Assoc 92:945 (the first two steps in turn); Gentleman & Geyer
 *   1994, Biometrika 81:618 (conditions, rank condition for uniqueness)
 * @example
 * intervalCurve({ left: [0, 2, 4], right: [3, 5, null] }).from // => [2, 4]
 */
export function intervalCurve(columns: IntervalColumns, options: IntervalCurveOptions = {}): IntervalCurve {
  checkColumnNames(intervalColumnsNames, { columns });
  const precision = readOptions(intervalCurveOptions, options);
  const intervals = intervalsOf(columns);
  const { innermost, rows, maximum } = fitIntervals(intervals, precision);
  const empty = rows.count === 0;
  const { mass, converged } = maximum;
  const holding = Array.from({ length: rows.count }, (_, j) => j).filter((j) => mass[j + 1]! > mass[j]!);
  return {
    from: holding.map((j) => innermost.from[j]!),
    to: holding.map((j) => {
      const to = innermost.to[j]!;
      return Number.isFinite(to) ? to : null;
    }),
    exact: holding.map((j) => innermost.exact[j] === 1),
    mass: holding.map((j) => mass[j + 1]! - mass[j]!),
    notYetAfter: holding.map((j) => Math.max(0, 1 - mass[j + 1]!)),
    n: intervals.left.length,
    total: intervals.total,
    candidates: rows.count,
    logLikelihood: empty ? null : logLikelihoodAt(rows, mass),
    distanceFromMaximum: empty ? null : maximum.distance,
    iterations: maximum.iterations,
    converged: empty || converged,
    unique: true,
    reason: empty ? "no-rows" : converged ? null : "not-converged",
  };
}
