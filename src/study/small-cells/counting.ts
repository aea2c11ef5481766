import { type Count, type Estimate, type ReasonCode, smallCell } from "../results-parts.js";
import type { Fewest } from "./fewest.js";

/** How a count is told, and how many small cells were met on the way. */
export interface Counting {
  /** Whether so many injuries may be told of: none, or enough. */
  readonly isEnough: (injuries: number) => boolean;
  /** A number of injuries: rounded to a multiple of the smallest cell, or left out. */
  readonly told: (injuries: number, fewest?: number) => Count;
  /** A part of a whole, left out also where the rest of the whole is a small cell. */
  readonly part: (injuries: number, whole: number) => Count;
  /** Notes small cells that are not written as a count: days of a curve, rows of single injuries. */
  readonly note: (cells: number) => void;
  readonly found: () => number;
}

/**
 * Every count that is told is rounded to a multiple of the smallest cell, so that no sum and no difference of counts,
 * in one table or between two, gives a smaller one away.
 */
export function countingOf({ people, injuries: least }: Fewest): Counting {
  let found = 0;
  const isSmall = (n: number, fewest: number) => n > 0 && n < fewest;
  const told = (n: number, fewest = least): Count => {
    if (!isSmall(n, fewest)) return Math.round(n / people) * people;
    found++;
    return smallCell;
  };
  return {
    isEnough: (n) => !isSmall(n, least),
    told,
    part: (n, whole) => {
      if (isSmall(n, least) || !isSmall(whole - n, least)) return told(n);
      found++;
      return smallCell;
    },
    note: (cells) => {
      found += cells;
    },
    found: () => found,
  };
}

/** A part as a share of its whole, from the counts as they are told; null where one of them is not. */
export const shareOf = (part: Count, whole: Count): number | null =>
  part === smallCell || whole === smallCell || whole === 0 ? null : rounded(part / whole, "share");

/**
 * A figure with fewer digits: from a figure at full precision the counts behind it can be worked out.
 * Shares to a hundredth, times to the day or a whole week, all others to three significant digits.
 */
export function rounded<Value extends number | null>(
  value: Value,
  unit: "share" | "day" | "week" | "other",
): Value {
  if (value === null) return value;
  const number: number = value;
  const short = {
    share: () => Math.round(number * 100) / 100,
    day: () => Math.round(number),
    week: () => Math.round(number / 7) * 7,
    other: () => Number(number.toPrecision(3)),
  }[unit]();
  // a difference that rounds to nothing from below is nothing
  return (short === 0 ? 0 : short) as Value;
}

/** An estimate with fewer digits. */
export const roundedEstimate = (
  { value, lower, upper, reason }: Estimate,
  unit: Parameters<typeof rounded>[1],
): Estimate => ({
  value: rounded(value, unit),
  lower: rounded(lower, unit),
  upper: rounded(upper, unit),
  reason,
});

/** An estimate that is left out; one that was missing anyway keeps its own reason. */
export const leftOut = ({ value, reason }: Estimate): Estimate => ({
  value: null,
  lower: null,
  upper: null,
  reason: value === null ? (reason ?? smallCell) : (smallCell satisfies ReasonCode),
});
