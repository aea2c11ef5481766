import { type Count, type Estimate, smallCell } from "../results-parts.js";
import type { Fewest } from "./fewest.js";

/** How a count is told, and how many small cells were met on the way. */
export interface Counting {
  /** Whether so many injuries may be told of: none, or enough. */
  readonly isEnough: (injuries: number) => boolean;
  /** Whether so many lie beyond a median or a quartile of so many injuries that it may be told. */
  readonly isEnoughFor: (quantile: "median" | "quartile", injuries: number) => boolean;
  /** A number of injuries: rounded to a multiple of the smallest cell, or left out. */
  readonly told: (injuries: number, fewest?: number) => Count;
  /** A part of a whole, left out also where the rest of the whole is a small cell. */
  readonly part: (injuries: number, whole: number) => Count;
  /** Notes small cells that are not written as a count: days of a curve, rows of single injuries. */
  readonly note: (cells: number) => void;
  /**
   * A figure with fewer digits, since from one at full precision the counts behind it can be worked out: shares in
   * steps, times to a whole week, all others to two significant digits.
   */
  readonly rounded: <Value extends number | null>(value: Value, measured: Measured) => Value;
  /** An estimate with fewer digits; limits of shares and times are rounded outwards, so that no interval gets shorter. */
  readonly roundedEstimate: (estimate: Estimate, measured: Measured) => Estimate;
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
  const brought = (value: number | null, measured: Measured, rule: (steps: number) => number) => {
    if (value === null) return null;
    if (measured === "other") return Number(value.toPrecision(digits));
    if (measured === "week") return toStep(value, 7, rule);
    return toStep(100 * value, stepOf(measured.shareOf, people), rule) / 100;
  };
  return {
    rounded: <Value extends number | null>(value: Value, measured: Measured) =>
      brought(value, measured, Math.round) as Value,
    roundedEstimate: ({ value, lower, upper, reason }, measured) => ({
      value: brought(value, measured, Math.round),
      lower: brought(lower, measured, Math.floor),
      upper: brought(upper, measured, Math.ceil),
      reason,
    }),
    isEnough: (n) => !isSmall(n, least),
    isEnoughFor: (quantile, n) => n >= { median: 2, quartile: 4 }[quantile] * least,
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
  part === smallCell || whole === smallCell || whole === 0 ? null : Math.round((100 * part) / whole) / 100;

/** Steps in which shares are told, hundredths. */
const stepsOfShares = [1, 2, 5, 10, 20] as const;

/**
 * The step in which a share of so many injuries is told, hundredths. Half a step either way in a whole and in its parts
 * together are as many injuries as a small cell can hold, so that a group that is left out cannot be found by subtracting
 * the others from the whole.
 */
function stepOf(injuries: number, people: number): number {
  const isCoarse = (step: number) => 2 * step * injuries >= 100 * (people - 1);
  return stepsOfShares.find(isCoarse) ?? stepsOfShares.at(-1)!;
}

/** What a figure measures: a share, a time, or anything else; and how many injuries are behind a share. */
export type Measured = "week" | "other" | { readonly shareOf: number };

/** Significant digits of a figure that is neither a share nor a time: with three, a mean tells of a single person. */
const digits = 2;

/** A number brought to a multiple of the step by the rule; noise in its last digits does not count. */
function toStep(value: number, step: number, rule: (steps: number) => number): number {
  const steps = rule(Number((value / step).toPrecision(12)));
  // a difference that rounds to nothing from below is nothing
  return steps === 0 ? 0 : steps * step;
}

/** An estimate that is left out; one that was missing anyway keeps its own reason. */
export const leftOut = ({ value, reason }: Estimate): Estimate => ({
  value: null,
  lower: null,
  upper: null,
  reason: value === null ? (reason ?? "small-cell") : "small-cell",
});
