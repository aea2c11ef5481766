import { rootBetween } from "../shared/root.js";
import { type SizedShare, scoreLimits } from "./score-limits.js";

/** A share within a stratum. Weights of all strata add up to 1. */
export interface WeightedShare extends SizedShare {
  /** Above 0. */
  readonly weight: number;
}

type Limits = readonly [lower: number, upper: number];

/** A weighted sum with the limits that it has at each z. */
export interface RecoverableSum {
  readonly estimate: number;
  readonly limitsAt: (z: number) => Limits;
}

/**
 * Size of a stratum whose variance p (1 - p) / n is estimated: a little less, since its p stands in for the true one, all strata together by
 * as many as there are strata less one. A stratum without variance, or alone, keeps its size, to which score limits are suited.
 */
function sizeForSum({ share, size }: SizedShare, strata: number): number {
  if (share <= 0 || share >= 1) return size;
  return Math.max(size / 2, size - (strata - 1) / strata);
}

/**
 * Limits of a weighted sum of shares of strata, from the score limits of each: sum of w l(z') with one z' for all strata, smaller than z, that makes the
 * sum of w (p - l(z')) equal z times the standard error of the sum with the variance l (1 - l) / n of each stratum at its limit. The limits of one
 * stratum are its score limits; where nobody is back in any of several alike they are those of all as one sample; and there are always limits, within 0 to 1.
 *
 * @source Yan & Su 2010, Stat Biopharm Res 2:329
 */
export function recoverableSum(shares: readonly WeightedShare[]): RecoverableSum {
  const strata = shares.map((one) => ({ ...one, size: sizeForSum(one, shares.length) }));
  return {
    estimate: strata.reduce((sum, { weight, share }) => sum + weight * share, 0),
    limitsAt: (z) => [limitOf(strata, { z, side: 0 }), limitOf(strata, { z, side: 1 })],
  };
}

function limitOf(
  strata: readonly WeightedShare[],
  { z, side }: { readonly z: number; readonly side: 0 | 1 },
): number {
  if (strata.every(({ share }) => share === side)) return side;
  // how far the common z is above that which the variances at its limits call for
  const excess = (own: number): number => {
    let squares = 0;
    let errors = 0;
    for (const stratum of strata) {
      const limit = scoreLimits(stratum, own)[side];
      const variance = (limit * (1 - limit)) / stratum.size;
      squares += stratum.weight * stratum.weight * variance;
      errors += stratum.weight * Math.sqrt(variance);
    }
    return errors > 0 ? own - (z * Math.sqrt(squares)) / errors : 0;
  };
  // where all strata are alike, or there is one, the least that it can be is the root but for rounding
  const least = z / Math.sqrt(strata.length);
  const own = excess(least) >= 0 ? least : rootBetween(excess, [least, z]);
  const sum = strata.reduce((total, one) => total + one.weight * scoreLimits(one, own)[side], 0);
  return Math.min(1, Math.max(0, sum));
}

/**
 * Limits of the difference a - b of two sums at each z, recovered from their own: d -+ the root of the squares of the distances to the limits that
 * face each other, less twice their product times the correlation.
 *
 * @source Zou & Donner 2008, Stat Med 27:1693
 */
export function recoveredDifference(
  sums: { readonly a: RecoverableSum; readonly b: RecoverableSum },
  { correlation }: { readonly correlation: number },
): RecoverableSum {
  const { a, b } = sums;
  const estimate = a.estimate - b.estimate;
  const together = (x: number, y: number) => Math.sqrt(Math.max(0, x * x + y * y - 2 * correlation * x * y));
  return {
    estimate,
    limitsAt: (z) => {
      const [lowerA, upperA] = a.limitsAt(z);
      const [lowerB, upperB] = b.limitsAt(z);
      return [
        estimate - together(a.estimate - lowerA, upperB - b.estimate),
        estimate + together(upperA - a.estimate, b.estimate - lowerB),
      ];
    },
  };
}
