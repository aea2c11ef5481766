import type { Reason } from "../shared/figure.js";
import { numberOfSums, type Sums, sumOfRank } from "./select-sum.js";

/** Limits that are ordered values: number `rank` from below and from above. */
export interface OrderLimits {
  readonly lower: number | null;
  readonly upper: number | null;
  /** Rank from either end, from 1; 0 where no ordered value lies far enough out. */
  readonly rank: number;
}

/** Limits from the exact distribution of the test. */
export interface ExactLimits extends OrderLimits {
  /** Confidence that these limits have: at least the level asked for, unless `reason` says that there are too few values for it. */
  readonly achieved: number;
  readonly reason: Reason | null;
}

/** Limits from the normal approximation of the test. */
export interface ApproximateLimits {
  /** mean of the statistic less z times its standard deviation, before it is rounded to a rank. */
  readonly position: number;
  /** Rounded away from the middle: never less than the approximation asks for. */
  readonly outward: OrderLimits;
  /** Rounded to the nearest rank. */
  readonly nearest: OrderLimits;
}

/** @param scale what each sum is multiplied by: 1 for differences, 1/2 for averages of two */
export function limitsOfRank(sums: Sums, { rank, scale }: { rank: number; scale: number }): OrderLimits {
  if (rank < 1) return { lower: null, upper: null, rank: 0 };
  const count = numberOfSums(sums);
  return {
    lower: scale * sumOfRank(sums, rank),
    upper: scale * sumOfRank(sums, count + 1 - rank),
    rank,
  };
}

/**
 * The narrowest pair of ordered values that the test at this level does not reject.
 *
 * @param lowerTails P(statistic <= k) for k = 0, 1, ... of the test without ties
 */
export function exactLimits(
  sums: Sums,
  settings: { readonly lowerTails: readonly number[]; readonly level: number; readonly scale: number },
): ExactLimits {
  const { lowerTails, level, scale } = settings;
  const tail = (1 - level) / 2;
  const found = lowerTails.findIndex((p) => p >= tail * (1 - 1e-13));
  const rank = Math.max(1, found);
  const achieved = 1 - 2 * lowerTails[rank - 1]!;
  const enough = achieved >= level * (1 - 1e-13);
  return { ...limitsOfRank(sums, { rank, scale }), achieved, reason: enough ? null : "too-few-rows" };
}

export function approximateLimits(
  sums: Sums,
  settings: { readonly position: number; readonly scale: number },
): ApproximateLimits {
  const { position, scale } = settings;
  return {
    position,
    outward: limitsOfRank(sums, { rank: Math.floor(position), scale }),
    nearest: limitsOfRank(sums, { rank: Math.round(position), scale }),
  };
}
