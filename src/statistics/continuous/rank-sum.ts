import { normalCritical } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import { checkColumnNames, readOptions } from "../shared/options.js";
import {
  checkCost,
  costOfSubset,
  cumulative,
  type ExactTails,
  readyCost,
  type SumDistribution,
  sumOfSubset,
  tailsAt,
} from "./exact-ranks.js";
import {
  type NormalRankTest,
  normalRankTest,
  type RankTestOptions,
  rankTestOptions,
} from "./normal-rank-test.js";
import { type ApproximateLimits, approximateLimits, type ExactLimits, exactLimits } from "./order-limits.js";
import { midranks, type Ranks, sortedOf } from "./ranks.js";
import { medianOfSums, type Sums } from "./select-sum.js";
import { checkTwoSamples, type TwoSamples, twoSamplesNames } from "./two-samples.js";

/** Rank-sum test of two independent groups, with the shift between them. */
export interface RankSum {
  readonly n: readonly [number, number];
  /** Pairs in which a is the larger, equal ones counted half. */
  readonly u: number | null;
  /** Pairs in which b is the larger. */
  readonly uOther: number | null;
  readonly rankSum: number | null;
  readonly hasTies: boolean;
  /** u as a share of all pairs. */
  readonly probabilityAGreater: number | null;
  /** The p-value to report, two-sided, and how it was found. */
  readonly p: number | null;
  readonly method: "exact" | "normal" | null;
  /** Null where the exact distribution was not taken. */
  readonly exact: ExactTails | null;
  readonly normal: NormalRankTest | null;
  readonly shift: Shift | null;
  readonly level: number;
  readonly reason: Reason | null;
}

/** Median of all differences between a value of a and a value of b. */
export interface Shift {
  readonly estimate: number;
  /** Null with ties, or where the exact distribution was not taken. */
  readonly exact: ExactLimits | null;
  readonly approximate: ApproximateLimits;
}

/**
 * Rank-sum test: does a tend to larger values than b? With the shift that would make the two alike and its limits.
 *
 * U = rank sum of a less n_a (n_a + 1) / 2. Variance n_a n_b / 12 (N + 1 - sum(t^3 - t) / (N (N - 1))), t the sizes of ties. The exact
 * p-value counts all choices of n_a ranks, tied ranks at their mean, so that it holds with ties as well. The limits of the shift are
 * ordered differences; the exact ones need values without ties. Ties are exact comparisons: round what comes from a calculation first.
 *
 * The differences are not made: a figure takes some sixty walks over the sorted values, whatever the sizes.
 *
 * @returns nulls with `no-rows` where a side is empty; where all values are equal p is 1 and the normal part says `no-variance`
 * @throws ArgumentError naming the side and index of a value that is not finite, the level, or a method out of reach
 * @source Mann & Whitney 1947, Ann Math Stat 18:50; Streitberg & Roehmel 1986, Stat Softw Newsl 12:10 (ties);
 *   Hodges & Lehmann 1963, Ann Math Stat 34:598 (shift)
 * @example
 * rankSum({ a: [1, 4, 6], b: [2, 3, 5] }).u // => 5
 */
export function rankSum(samples: TwoSamples, options: RankTestOptions = {}): RankSum {
  checkColumnNames(twoSamplesNames, { samples });
  const { level, method, continuity } = readOptions(rankTestOptions, options);
  checkTwoSamples(samples);
  const z = normalCritical(level);
  const { a, b } = samples;
  const n = [a.length, b.length] as const;
  const nothing = { u: null, uOther: null, rankSum: null, hasTies: false, probabilityAGreater: null };
  if (n[0] === 0 || n[1] === 0) {
    const none = { p: null, method: null, exact: null, normal: null, shift: null };
    return { n, ...nothing, ...none, level, reason: "no-rows" };
  }
  const all = new Float64Array(n[0] + n[1]);
  all.set(a);
  all.set(b, n[0]);
  const ranked = midranks(all);
  const sum = ranked.ranks.subarray(0, n[0]).reduce((total, rank) => total + rank, 0);
  const u = sum - (n[0] * (n[0] + 1)) / 2;
  const pairs = n[0] * n[1];
  const total = n[0] + n[1];
  const variance = (pairs / 12) * (total + 1 - ranked.tieTerm / (total * (total - 1)));
  const allEqual = ranked.tieTerm === total * (total * total - 1);
  const normal = normalRankTest(u - pairs / 2, allEqual ? 0 : variance);
  const cost = costOfSubset(ranked.ranks, n[0]);
  const takeExact = method === "exact" || (method === "automatic" && cost <= readyCost);
  if (takeExact) checkCost(cost);
  const distribution = takeExact ? distributionOf(ranked, n) : null;
  const exact = distribution && tailsAt(distribution, sum);
  const byNormal = continuity === "half" ? normal.pCorrected : normal.p;
  return {
    n,
    u,
    uOther: pairs - u,
    rankSum: sum,
    hasTies: ranked.hasTies,
    probabilityAGreater: u / pairs,
    p: exact ? exact.twoSided : allEqual ? 1 : byNormal,
    method: exact ? "exact" : "normal",
    exact,
    normal,
    shift: shiftOf(samples, {
      distribution: ranked.hasTies ? null : distribution,
      position: pairs / 2 - z * Math.sqrt(normal.variance),
      level,
    }),
    level,
    reason: null,
  };
}

/** By way of the smaller group; the sums of the other are what is left of all ranks. */
function distributionOf({ ranks }: Ranks, n: readonly [number, number]): SumDistribution {
  if (n[0] <= n[1]) return sumOfSubset(ranks, n[0]);
  return { probability: sumOfSubset(ranks, n[1]).probability.reverse() };
}

function shiftOf(
  { a, b }: TwoSamples,
  settings: {
    readonly distribution: SumDistribution | null;
    readonly position: number;
    readonly level: number;
  },
): Shift {
  const { distribution, position, level } = settings;
  const negative = sortedOf(Float64Array.from(b, (value) => -value));
  const sums: Sums = { x: sortedOf(a), y: negative, pairs: "all" };
  const least = (a.length * (a.length + 1)) / 2;
  return {
    estimate: medianOfSums(sums),
    exact:
      distribution &&
      exactLimits(sums, {
        lowerTails: cumulative(distribution, { from: least, to: least + a.length * b.length }),
        level,
        scale: 1,
      }),
    approximate: approximateLimits(sums, { position, scale: 1 }),
  };
}
