import { checkColumn } from "../shared/arguments.js";
import { binomialLowerTail, binomialQuantile } from "../shared/binomial.js";
import type { Reason } from "../shared/figure.js";
import { confidenceLevel, needed, number, type OptionsOf, oneOf, readOptions } from "../shared/options.js";
import { sortedOf } from "./ranks.js";

/** The nine definitions of a sample quantile, numbered as by Hyndman & Fan. */
export const quantileTypes = [1, 2, 3, 4, 5, 6, 7, 8, 9] as const;
export type QuantileType = (typeof quantileTypes)[number];

export const sampleQuantileOptions = {
  /** Between 0 and 1. */
  share: needed(number("open share")),
  /** Default 2, as in `describe`: the mean of two neighbours where the share falls between them. */
  type: oneOf(quantileTypes, 2),
  /** Default 0.95. */
  level: confidenceLevel,
};

export interface SampleQuantileOptions extends OptionsOf<typeof sampleQuantileOptions> {}

/** A sample quantile with limits that assume nothing of the distribution. */
export interface SampleQuantile {
  readonly share: number;
  readonly type: QuantileType;
  readonly estimate: number | null;
  /** Ordered values; null on the side where none lies far enough out. */
  readonly lower: number | null;
  readonly upper: number | null;
  /** Their ranks from 1; 0, and n + 1, stand for none. */
  readonly ranks: readonly [number, number] | null;
  /** Confidence that the two limits have, at least the level; infinity standing in for a missing one. */
  readonly achieved: number | null;
  readonly level: number;
  readonly n: number;
  readonly reason: Reason | null;
}

/** Types 4 to 9: position share (n + 1 - a - b) + a. */
const plottingPosition = {
  4: [0, 1],
  5: [0.5, 0.5],
  6: [0, 0],
  7: [1, 1],
  8: [1 / 3, 1 / 3],
  9: [3 / 8, 3 / 8],
} as const;

/** The two ordered values (from 1) that a quantile lies between, and how far from the first; not held within 1 and n. */
function positionOf(share: number, { n, type }: { n: number; type: QuantileType }): [number, number] {
  const slack = 4 * Number.EPSILON;
  if (type > 3) {
    const [a, b] = plottingPosition[type as 4 | 5 | 6 | 7 | 8 | 9];
    const position = a + share * (n + 1 - a - b);
    const whole = Math.floor(position + slack * Math.max(1, position));
    const part = position - whole;
    return [whole, Math.abs(part) < slack * Math.max(1, position) ? 0 : part];
  }
  const position = type === 3 ? n * share - 0.5 : n * share;
  const whole = Math.floor(position + slack * Math.max(1, position));
  const between = position > whole + slack * Math.max(1, position);
  if (between) return [whole, 1];
  if (type === 1) return [whole, 0];
  if (type === 2) return [whole, 0.5];
  return [whole, whole % 2 === 0 ? 0 : 1];
}

/**
 * Quantile of values sorted already.
 *
 * @param sorted ascending, at least one
 * @source Hyndman & Fan 1996, Am Stat 50:361
 */
export function quantileOfSorted(
  sorted: ArrayLike<number>,
  { share, type }: { readonly share: number; readonly type: QuantileType },
): number {
  const n = sorted.length;
  const [whole, part] = positionOf(share, { n, type });
  const at = (rank: number): number => sorted[Math.min(Math.max(rank, 1), n) - 1]!;
  const low = at(whole);
  if (part === 0) return low;
  const high = at(whole + 1);
  return part === 1 ? high : (1 - part) * low + part * high;
}

/**
 * A sample quantile of a stated type, with limits from the binomial distribution of the number of values below it.
 *
 * Limits: the ordered values number l and u, l the binomial quantile of half the error for n and the share, u one more than that of the
 * other half; they hold for any distribution and for every type.
 *
 * @param values in any order
 * @returns nulls with `no-rows`; limits null with `too-few-rows` on a side where no value lies far enough out
 * @throws ArgumentError naming the index of a value that is not finite, the share, the type or the level
 * @source Hyndman & Fan 1996, Am Stat 50:361; limits: Conover 1999, Practical Nonparametric Statistics, section 3.2
 * @example
 * sampleQuantile([3, 1, 2, 10], { share: 0.5 }).estimate // => 2.5
 */
export function sampleQuantile(values: ArrayLike<number>, options: SampleQuantileOptions): SampleQuantile {
  const { share, type, level } = readOptions(sampleQuantileOptions, options);
  checkColumn({ name: "values", values }, "finite");
  const n = values.length;
  const common = { share, type, level, n };
  if (n === 0) {
    const none = { estimate: null, lower: null, upper: null, ranks: null, achieved: null };
    return { ...common, ...none, reason: "no-rows" };
  }
  const sorted = sortedOf(values);
  const below = { n, p: share };
  const tail = (1 - level) / 2;
  const ranks = [binomialQuantile(tail, below), binomialQuantile(1 - tail, below) + 1] as const;
  const lower = sorted[ranks[0] - 1] ?? null;
  const upper = sorted[ranks[1] - 1] ?? null;
  return {
    ...common,
    estimate: quantileOfSorted(sorted, { share, type }),
    lower,
    upper,
    ranks,
    achieved: binomialLowerTail(ranks[1] - 1, below) - binomialLowerTail(ranks[0] - 1, below),
    reason: lower === null || upper === null ? "too-few-rows" : null,
  };
}
