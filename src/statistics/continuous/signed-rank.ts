import { checkColumn } from "../shared/arguments.js";
import { normalCritical } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import { type OptionsOf, oneOf, readOptions } from "../shared/options.js";
import {
  checkCost,
  costOfSigns,
  cumulative,
  type ExactTails,
  readyCost,
  sumOfSigns,
  tailsAt,
} from "./exact-ranks.js";
import { type NormalRankTest, normalRankTest, rankTestOptions } from "./normal-rank-test.js";
import { type ApproximateLimits, approximateLimits, type ExactLimits, exactLimits } from "./order-limits.js";
import { midranks, sortedOf } from "./ranks.js";
import { medianOfSums, type Sums } from "./select-sum.js";

export const signedRankOptions = {
  ...rankTestOptions,
  /** Differences of zero: left out before the others are ranked, or ranked with them and left out then. Default "drop". */
  zeros: oneOf(["drop", "rank-then-drop"], "drop"),
};

export interface SignedRankOptions extends OptionsOf<typeof signedRankOptions> {}

/** Signed-rank test of one sample of differences, with the middle of their averages. */
export interface SignedRank {
  readonly n: number;
  readonly zeros: number;
  readonly used: number;
  /** Sum of the ranks of the positive differences, and of the negative ones. */
  readonly v: number | null;
  readonly vNegative: number | null;
  readonly hasTies: boolean;
  /** The p-value to report, two-sided, and how it was found. */
  readonly p: number | null;
  readonly method: "exact" | "normal" | null;
  readonly exact: ExactTails | null;
  readonly normal: NormalRankTest | null;
  /** Null where no difference is left. */
  readonly middle: Middle | null;
  readonly level: number;
  readonly reason: Reason | null;
}

/** Median of the averages of all pairs of differences, each with itself included. */
export interface Middle {
  readonly estimate: number;
  /** Null with ties or zeros, or where the exact distribution was not taken. */
  readonly exact: ExactLimits | null;
  readonly approximate: ApproximateLimits;
}

/**
 * Signed-rank test of paired differences: are they symmetric about 0? With the median of all averages of two and its limits.
 *
 * V = sum of the ranks of |d| over d > 0; mean half the sum of the ranks, variance a quarter of the sum of their squares (which is
 * n (n + 1) (2n + 1) / 24 - sum(t^3 - t) / 48 where zeros are dropped first). The exact p-value counts all signs, tied ranks at their
 * mean. Zeros dropped first are left out of the averages too; ranked and then dropped they stay in. Ties are exact comparisons: round
 * differences of decimals first, for 0.3 - 0.2 is not 0.2 - 0.1.
 *
 * @param differences one a pair, of either sign
 * @returns nulls with `no-rows` without differences; with zeros only, p 1 and `no-variance`
 * @throws ArgumentError naming the index of a value that is not finite, the level, or a method out of reach
 * @source Wilcoxon 1945, Biometrics Bull 1:80; Pratt 1959, J Am Stat Assoc 54:655 (zeros); Hodges & Lehmann 1963, Ann Math Stat 34:598
 * @example
 * signedRank([1, -2, 3, 4]).v // => 8
 */
export function signedRank(differences: ArrayLike<number>, options: SignedRankOptions = {}): SignedRank {
  const { level, method, continuity, zeros } = readOptions(signedRankOptions, options);
  checkColumn({ name: "differences", values: differences }, "finite");
  const z = normalCritical(level);
  const all = Float64Array.from(differences);
  const used = all.filter((value) => value !== 0);
  const ranks = ranksOf(zeros === "drop" ? used : all);
  const counts = { n: all.length, zeros: all.length - used.length, used: used.length, level };
  if (used.length === 0) {
    const none = { v: null, vNegative: null, hasTies: false, exact: null, normal: null, middle: null };
    if (all.length === 0) return { ...counts, ...none, p: null, method: null, reason: "no-rows" };
    return { ...counts, ...none, p: 1, method: "exact", reason: "no-variance" };
  }
  let v = 0;
  let total = 0;
  let squares = 0;
  ranks.ranks.forEach((rank, i) => {
    if (used[i]! > 0) v += rank;
    total += rank;
    squares += rank * rank;
  });
  const normal = normalRankTest(v - total / 2, squares / 4);
  const cost = costOfSigns(ranks.ranks);
  const takeExact = method === "exact" || (method === "automatic" && cost <= readyCost / 10);
  if (takeExact) checkCost(cost);
  const distribution = takeExact ? sumOfSigns(ranks.ranks) : null;
  const exact = distribution && tailsAt(distribution, v);
  const averaged = sortedOf(zeros === "drop" ? used : all);
  const sums: Sums = { x: averaged, y: averaged, pairs: "half" };
  const exactForLimits = !ranks.hasTies && counts.zeros === 0 ? distribution : null;
  return {
    ...counts,
    v,
    vNegative: total - v,
    hasTies: ranks.hasTies,
    p: exact ? exact.twoSided : continuity === "half" ? normal.pCorrected : normal.p,
    method: exact ? "exact" : "normal",
    exact,
    normal,
    middle: {
      estimate: medianOfSums(sums) / 2,
      exact:
        exactForLimits &&
        exactLimits(sums, {
          lowerTails: cumulative(exactForLimits, { from: 0, to: total }),
          level,
          scale: 0.5,
        }),
      approximate: approximateLimits(sums, {
        position: total / 2 - z * Math.sqrt(normal.variance),
        scale: 0.5,
      }),
    },
    reason: null,
  };
}

/** Ranks of the sizes; those of zeros, which come first, taken off. */
function ranksOf(values: Float64Array): { ranks: Float64Array; hasTies: boolean } {
  const { ranks } = midranks(values.map(Math.abs));
  const kept = ranks.filter((_, i) => values[i] !== 0);
  return { ranks: kept, hasTies: new Set(kept).size < kept.length };
}
