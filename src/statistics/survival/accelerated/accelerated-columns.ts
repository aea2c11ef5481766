import { ArgumentError, checkColumn, checkSameLength } from "../../shared/arguments.js";
import { type Covariates, checkCovariates } from "../../shared/covariates.js";
import type { NamesOf } from "../../shared/options.js";
import { checkEntries, type IntervalColumns, intervalsOf } from "../interval-censored/interval-data.js";
import { inStandardUnits } from "./standard-units.js";

/** Intervals as in IntervalColumns, with covariates and, where rows belong together, the cluster of each. */
export interface AcceleratedColumns extends IntervalColumns {
  readonly covariates: Covariates;
  /** Whole numbers; rows with the same number belong together (fingers of one person). */
  readonly clusters?: ArrayLike<number>;
  /** Delayed entry: the row is there only because the event had not come by this time. 0 (the default): from the start on. */
  readonly entries?: ArrayLike<number>;
}

export const acceleratedColumnsNames: NamesOf<AcceleratedColumns> = {
  covariates: true,
  clusters: true,
  entries: true,
  left: true,
  right: true,
  weights: true,
};

/** What is known of a row's time. */
export const exact = 0;
export const rightCensored = 1;
export const leftCensored = 2;
export const between = 3;
/** From the start to no end: says nothing. */
export const uninformative = 4;

/** Rows in the form that the likelihood runs over. Parameters: intercept, covariates in standard deviations, 1 / scale. */
export interface AcceleratedLayout {
  readonly n: number;
  /** Of x: one for the intercept, then the covariates. */
  readonly size: number;
  /** Flat by rows: 1, then each covariate less its mean over its standard deviation. */
  readonly x: Float64Array;
  readonly centre: Float64Array;
  readonly scale: Float64Array;
  readonly kind: Uint8Array;
  /** Logarithms of the ends less `middle`; 0 where there is no such end. */
  readonly logLeft: Float64Array;
  readonly logRight: Float64Array;
  readonly middle: number;
  /** Logarithms of the times of entry less `middle`; null where the row is there from the start. No column where no row entered late. */
  readonly logEntry: readonly (number | null)[] | null;
  readonly weights: Float64Array;
  /** Sum of weight x log t over exact times: what turns the likelihood of log t into that of t. */
  readonly jacobian: number;
  /** Summed weights of each kind of row, in the order of the kinds. */
  readonly totals: readonly number[];
}

function kindOf(left: number, right: number): number {
  if (left === right) return exact;
  if (right === Number.POSITIVE_INFINITY) return left > 0 ? rightCensored : uninformative;
  return left > 0 ? between : leftCensored;
}

/** @throws ArgumentError naming the column and index at fault */
export function layOutAccelerated(columns: AcceleratedColumns): AcceleratedLayout {
  const { left, right, weights } = intervalsOf(columns);
  const n = left.length;
  checkCovariates(columns.covariates, { name: "left", values: left });
  if (columns.clusters !== undefined) {
    checkSameLength({ name: "clusters", values: columns.clusters }, { name: "left", values: left });
    checkColumn({ name: "clusters", values: columns.clusters }, "code");
  }
  if (columns.entries !== undefined) checkEntries(columns.entries, { left, right });
  for (let i = 0; i < n; i++)
    if (right[i] === 0)
      throw new ArgumentError({
        argument: "right",
        index: i,
        expected: `above 0: left[${i}] and right[${i}] say that the event was at time 0, which has no logarithm, so these models cannot hold it`,
        found: 0,
      });
  const kind = Uint8Array.from(left, (value, row) => kindOf(value, right[row]!));
  const logLeft = left.map((value) => (value > 0 ? Math.log(value) : 0));
  const logRight = right.map((value) => (Number.isFinite(value) ? Math.log(value) : 0));
  const totals = [0, 0, 0, 0, 0];
  let jacobian = 0;
  for (let row = 0; row < n; row++) {
    totals[kind[row]!]! += weights[row]!;
    if (kind[row] === exact) jacobian += weights[row]! * logLeft[row]!;
  }
  const middle = centreOf({ kind, logLeft, logRight, weights });
  const shifted = (logs: Float64Array): Float64Array => logs.map((value) => value - middle);
  const used = weights.map((weight, row) => (kind[row] === uninformative ? 0 : weight));
  return {
    n,
    ...inStandardUnits(columns.covariates.columns, used),
    kind,
    logLeft: shifted(logLeft),
    logRight: shifted(logRight),
    middle,
    logEntry: logEntryOf(columns.entries, middle),
    weights,
    jacobian,
    totals,
  };
}

function logEntryOf(entries: ArrayLike<number> | undefined, middle: number): (number | null)[] | null {
  if (entries === undefined) return null;
  const logs = Array.from(entries, (value) => (value > 0 ? Math.log(value) - middle : null));
  return logs.some((value) => value !== null) ? logs : null;
}

type Ends = Pick<AcceleratedLayout, "kind" | "logLeft" | "logRight" | "weights">;

/** A stand-in for a row's log time: itself, the middle of its ends, or the one end it has. */
export function standIn({ kind, logLeft, logRight }: Ends, row: number): number {
  const [a, b] = [logLeft[row]!, logRight[row]!];
  return kind[row] === between ? (a + b) / 2 : kind[row] === leftCensored ? b : a;
}

function centreOf(ends: Ends): number {
  let sum = 0;
  let total = 0;
  for (let row = 0; row < ends.kind.length; row++) {
    if (ends.kind[row] === uninformative) continue;
    const weight = ends.weights[row]!;
    sum += weight * standIn(ends, row);
    total += weight;
  }
  return total > 0 ? sum / total : 0;
}
