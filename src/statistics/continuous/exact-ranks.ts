import { ArgumentError, checkNumber } from "../shared/arguments.js";
import { checkColumnNames, type NamesOf } from "../shared/options.js";

/** Probabilities of the sums that chance could have given, by twice the sum (midranks end in halves). */
export interface SumDistribution {
  /** Probability of half the place: probability[2 w] is that of the sum w. */
  readonly probability: Float64Array;
}

/** Tails at an observed sum, and both tails together. */
export interface ExactTails {
  /** P(sum <= observed). */
  readonly less: number;
  /** P(sum >= observed). */
  readonly greater: number;
  /** Twice the smaller tail, at most 1. */
  readonly twoSided: number;
  /** P(sum at least as far from its mean as observed). */
  readonly byDistance: number;
}

const doubled = (ranks: ArrayLike<number>): Int32Array =>
  Int32Array.from(ranks, (rank) => Math.round(2 * rank));

/** Additions that `sumOfSubset` and `sumOfSigns` would take. */
export function costOfSubset(ranks: ArrayLike<number>, size: number): number {
  const n = ranks.length;
  return n * Math.min(size, n - size) * n * (n + 1);
}

export const costOfSigns = ({ length: n }: ArrayLike<number>): number => n * n * n;

/** Up to so many additions the exact distribution is taken without being asked for: about a tenth of a second. */
export const readyCost = 5e7;

/** Beyond so many it is refused. */
export const greatestCost = 2e10;

/** @throws ArgumentError where the exact distribution would take for ever */
export function checkCost(cost: number): void {
  if (cost > greatestCost)
    throw new ArgumentError({
      argument: "method",
      index: null,
      expected: '"normal" for so many values: their exact distribution is out of reach',
      found: "exact",
    });
}

/**
 * Distribution of the sum of the ranks of `size` rows chosen at random: every choice is equally likely, whatever the ties.
 *
 * Counts the choices by size and sum, one row after the other.
 *
 * @source Streitberg & Roehmel 1986, Stat Softw Newsl 12:10 (shift algorithm)
 */
export function sumOfSubset(ranks: ArrayLike<number>, size: number): SumDistribution {
  const steps = doubled(ranks);
  const most = steps.reduce((sum, step) => sum + step, 0);
  const width = most + 1;
  const counts = new Float64Array((size + 1) * width);
  counts[0] = 1;
  let reach = 0;
  for (let row = 0; row < steps.length; row++) {
    const step = steps[row]!;
    for (let chosen = Math.min(size, row + 1); chosen >= 1; chosen--) {
      const into = chosen * width + step;
      const from = (chosen - 1) * width;
      for (let sum = 0; sum <= reach; sum++) counts[into + sum]! += counts[from + sum]!;
    }
    reach += step;
  }
  const last = counts.subarray(size * width);
  const choices = last.reduce((sum, count) => sum + count, 0);
  return { probability: last.map((count) => count / choices) };
}

/** Distribution of the sum of the ranks with a plus, each sign as likely as the other. */
export function sumOfSigns(ranks: ArrayLike<number>): SumDistribution {
  const steps = doubled(ranks);
  const most = steps.reduce((sum, step) => sum + step, 0);
  const probability = new Float64Array(most + 1);
  probability[0] = 1;
  let reach = 0;
  for (const step of steps) {
    reach += step;
    // from the far end, so that what is read has not been written yet
    for (let sum = reach; sum >= 0; sum--) {
      const plus = sum >= step ? probability[sum - step]! : 0;
      probability[sum] = (probability[sum]! + plus) / 2;
    }
  }
  return { probability };
}

/** @param observed a sum of ranks */
export function tailsAt({ probability }: SumDistribution, observed: number): ExactTails {
  const at = Math.round(2 * observed);
  let mean = 0;
  for (let sum = 0; sum < probability.length; sum++) mean += sum * probability[sum]!;
  // sums and their mean are whole or half: the mean's own rounding must not decide
  const centre = Math.round(2 * mean) / 2;
  const distance = Math.abs(at - centre);
  let less = 0;
  let greater = 0;
  let byDistance = 0;
  for (let sum = 0; sum < probability.length; sum++) {
    const p = probability[sum]!;
    if (sum <= at) less += p;
    if (sum >= at) greater += p;
    if (Math.abs(sum - centre) >= distance) byDistance += p;
  }
  less = Math.min(1, less);
  greater = Math.min(1, greater);
  return {
    less,
    greater,
    twoSided: Math.min(1, 2 * Math.min(less, greater)),
    byDistance: Math.min(1, byDistance),
  };
}

const ranksTo = (n: number): number[] => Array.from({ length: n }, (_, i) => i + 1);

const rankSumDistributionNames: NamesOf<Parameters<typeof rankSumDistribution>[0]> = { m: true, n: true };

/**
 * P(U <= u) for u = 0 to m n, U the number of pairs in which the first group's value is the larger; no ties.
 *
 * @param sizes m and n: whole numbers, 0 or more
 * @throws ArgumentError for sizes that are not
 * @source Mann & Whitney 1947, Ann Math Stat 18:50
 */
export function rankSumDistribution(sizes: { readonly m: number; readonly n: number }): number[] {
  checkColumnNames(rankSumDistributionNames, { sizes });
  const { m, n } = sizes;
  checkNumber({ name: "m", value: m }, "count");
  checkNumber({ name: "n", value: n }, "count");
  const ranks = ranksTo(m + n);
  checkCost(costOfSubset(ranks, m));
  const least = (m * (m + 1)) / 2;
  return cumulative(sumOfSubset(ranks, m), { from: least, to: least + m * n });
}

/**
 * P(V <= v) for v = 0 to n (n + 1) / 2, V the sum of the ranks of the positive differences; no ties, no zeros.
 *
 * @param n whole number, 0 or more
 * @throws ArgumentError for one that is not
 * @source Wilcoxon 1945, Biometrics Bull 1:80
 */
export function signedRankDistribution(n: number): number[] {
  checkNumber({ name: "n", value: n }, "count");
  checkCost(costOfSigns({ length: n }));
  return cumulative(sumOfSigns(ranksTo(n)), { from: 0, to: (n * (n + 1)) / 2 });
}

/** Running sums at the whole numbers from one to another. */
export function cumulative(
  { probability }: SumDistribution,
  { from, to }: { readonly from: number; readonly to: number },
): number[] {
  let sum = 0;
  return Array.from({ length: to - from + 1 }, (_, i) => {
    sum += probability[2 * (from + i)]!;
    return Math.min(1, sum);
  });
}
