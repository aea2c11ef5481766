import { ArgumentError, checkColumn, checkIsColumn, checkSameLength } from "../../shared/arguments.js";
import type { NamesOf } from "../../shared/options.js";

/**
 * One row a record: the event came after `left` and no later than `right`, that is in (left, right].
 *
 * - `left`: the last time seen without the event, 0 or more; 0 (or null): left-censored, the event may have come at any time above 0;
 *   any negative number: the same with time 0 itself included
 * - `right`: the first time seen with it; null or Infinity: still without the event at `left` (right-censored). Equal to
 *   `left`: the event was seen at exactly that time.
 * - `weights`: 0 or more; they count as that many records. Left out: 1 each.
 */
export interface IntervalColumns {
  readonly left: ArrayLike<number | null>;
  readonly right: ArrayLike<number | null>;
  readonly weights?: ArrayLike<number>;
}

export const intervalColumnsNames: NamesOf<IntervalColumns> = { left: true, right: true, weights: true };

/** The same checked, in numbers throughout: left -1 for any negative one, right Infinity for null. */
export interface Intervals {
  readonly left: Float64Array;
  readonly right: Float64Array;
  readonly weights: Float64Array;
  /** Sum of the weights. */
  readonly total: number;
}

function checkedLeft(given: number | null, index: number): number {
  if (given === null) return 0;
  if (!Number.isFinite(given))
    throw new ArgumentError({ argument: "left", index, expected: "a finite number", found: given });
  return given < 0 ? -1 : given;
}

function checkedRight(given: number | null, at: { left: number; index: number }): number {
  if (given === null || given === Number.POSITIVE_INFINITY) return Number.POSITIVE_INFINITY;
  if (!(given >= Math.max(0, at.left)))
    throw new ArgumentError({
      argument: "right",
      index: at.index,
      expected: `0 or more and no earlier than left[${at.index}], which is ${at.left}, or null where the event was not seen`,
      found: given,
    });
  return given;
}

/**
 * Checks the columns and writes every row as numbers.
 *
 * @throws ArgumentError naming the column and the first index at fault
 */
export function intervalsOf(columns: IntervalColumns): Intervals {
  checkIsColumn({ name: "left", values: columns.left });
  checkIsColumn({ name: "right", values: columns.right });
  const n = columns.left.length;
  checkSameLength(
    { name: "right", values: { length: columns.right.length } },
    { name: "left", values: { length: n } },
  );
  const left = new Float64Array(n);
  const right = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    left[i] = checkedLeft(columns.left[i] as number | null, i);
    right[i] = checkedRight(columns.right[i] as number | null, {
      left: left[i]!,
      index: i,
    });
  }
  const weights = new Float64Array(n).fill(1);
  if (columns.weights !== undefined) {
    const named = { name: "weights", values: columns.weights };
    checkSameLength(named, { name: "left", values: left });
    checkColumn(named, "not negative");
    weights.set(columns.weights);
  }
  return { left, right, weights, total: weights.reduce((sum, weight) => sum + weight, 0) };
}

/** @throws ArgumentError naming the row's time of entry where the event may have come before it */
export function checkEntries(
  entries: ArrayLike<number>,
  { left, right }: Pick<Intervals, "left" | "right">,
): void {
  checkSameLength({ name: "entries", values: entries }, { name: "left", values: left });
  checkColumn({ name: "entries", values: entries }, "not negative");
  for (let i = 0; i < left.length; i++) {
    const value = entries[i]!;
    if (value === 0 || (value <= left[i]! && value < right[i]!)) continue;
    throw new ArgumentError({
      argument: "entries",
      index: i,
      expected: `no later than left[${i}], which is ${left[i]}, and before right[${i}]: a row enters without the event`,
      found: value,
    });
  }
}
