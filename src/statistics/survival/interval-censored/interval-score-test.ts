import { quadraticForm, rowsOfMatrix } from "../../linear/symmetric.js";
import { chiSquareUpperTail } from "../../shared/distributions.js";
import type { Reason } from "../../shared/figure.js";
import {
  checkColumnNames,
  needed,
  number,
  type OptionsOf,
  oneOf,
  readOptions,
} from "../../shared/options.js";
import { permutationTest } from "../../shared/permutation.js";
import {
  type GroupedIntervals,
  groupedIntervalsNames,
  type ScoreSums,
  sumsByGroup,
  sumsOf,
} from "./interval-score-sums.js";
import type { IntervalScores } from "./interval-scores.js";
import { intervalScoreKinds } from "./interval-scores.js";

export const intervalTestOptions = {
  /** Default "log-rank". */
  scores: oneOf(intervalScoreKinds, "log-rank"),
};

export interface IntervalTestOptions extends OptionsOf<typeof intervalTestOptions> {}

export const intervalPermutationOptions = {
  ...intervalTestOptions,
  /** Whole number. */
  seed: needed(number("code")),
  /** Default 9,999. */
  draws: number("positive count", 9999),
};

export interface IntervalPermutationOptions extends OptionsOf<typeof intervalPermutationOptions> {}

export interface IntervalScoreTest {
  /** Codes of the groups, ascending; the other arrays are in this order. */
  readonly groups: readonly number[];
  readonly n: readonly number[];
  /** Sum of the scores; above 0: earlier events than in all groups together. */
  readonly surplus: readonly number[];
  readonly variance: readonly (readonly number[])[];
  readonly chiSquare: number | null;
  readonly df: number;
  readonly p: number | null;
  /** For two groups: of the first. */
  readonly z: number | null;
  readonly scores: IntervalScores;
  readonly reason: Reason | null;
}

export interface IntervalPermutationTest extends IntervalScoreTest {
  /** Share of random permutations of the groups with a chi-square at least as large; null where there is none. */
  readonly permutationP: number | null;
  /** Its standard error from the number of permutations. */
  readonly monteCarloError: number | null;
  readonly draws: number;
}

function testOf(sums: ScoreSums, kind: IntervalScores): IntervalScoreTest {
  const { groups, group, scores, variance, factor, silence, converged } = sums;
  const size = groups.length;
  const surplus = sumsByGroup(scores, group, size);
  const n = new Array<number>(size).fill(0);
  for (const g of group) n[g]!++;
  const df = factor.kept.length;
  const chiSquare = df > 0 && converged ? quadraticForm(factor, surplus) : null;
  const p = chiSquare === null ? null : chiSquareUpperTail(chiSquare, df);
  return {
    groups,
    n,
    surplus: Array.from(surplus),
    variance: rowsOfMatrix(variance, size),
    chiSquare,
    df,
    p,
    z: size === 2 && chiSquare !== null ? surplus[0]! / Math.sqrt(variance[0]!) : null,
    scores: kind,
    reason: converged ? (df === 0 ? silence : null) : "not-converged",
  };
}

/**
 * Score test of equal curves in two or more groups with interval-censored times, within strata where given.
 *
 * Each row's score is [S(left) L(left) - S(right) L(right)] / [S(left) - S(right)], S the non-parametric maximum-likelihood curve of all
 * groups of its stratum; L is log S ("proportional-hazards") or minus the sum of mass / share before it ("log-rank", the default, which is
 * observed less expected events where times are exact or right-censored). U_g is the sum of the scores of group g, its covariance that of random
 * permutations of the groups, sum of c^2 / (n - 1) (n_g [g = h] - n_g n_h / n), summed over strata; chi-square = U' V^-1 U with the rank of V as
 * degrees of freedom. Rows with the same interval are tied and have the same score.
 *
 * The groups must have been looked at alike: where one is examined more often than the other, neither this covariance nor a permutation of the
 * groups is valid.
 *
 * @param columns see GroupedIntervals
 * @returns null with `no-rows`, `one-group`, `no-events`, `no-variance` (all rows have one score, or groups share no stratum), `not-converged`
 * @throws ArgumentError naming the column and index of a value at fault
 * @source "proportional-hazards": Finkelstein 1986, Biometrics 42:845; "log-rank": Sun 1996, Stat Med 15:1387; both scores and this covariance: Fay 1999, Stat Med 18:273
 * @example
 * intervalScoreTest({ left: [0, 2, 4, 6], right: [2, 4, 6, null], groups: [0, 0, 1, 1] }).df // => 1
 */
export function intervalScoreTest(
  columns: GroupedIntervals,
  options: IntervalTestOptions = {},
): IntervalScoreTest {
  checkColumnNames(groupedIntervalsNames, { columns });
  const { scores } = readOptions(intervalTestOptions, options);
  return testOf(sumsOf(columns, scores), scores);
}

/**
 * The same test with the p-value counted over random permutations of the groups (within strata), for groups too small for chi-square.
 *
 * @param options seed: whole number; draws: default 9,999; p = (1 + permutations with at least the chi-square of the data) / (1 + permutations)
 * @throws ArgumentError as intervalScoreTest, and for the seed or the number of draws
 * @source Fay & Shaw 2010, J Stat Softw 36(2)
 */
export function intervalPermutationTest(
  columns: GroupedIntervals,
  options: IntervalPermutationOptions,
): IntervalPermutationTest {
  checkColumnNames(groupedIntervalsNames, { columns });
  const { scores, seed, draws } = readOptions(intervalPermutationOptions, options);
  const sums = sumsOf(columns, scores);
  const test = testOf(sums, scores);
  const size = test.groups.length;
  const permutations = permutationTest(
    {
      labels: sums.group,
      ...(columns.strata && { strata: columns.strata }),
      statistic: (labels) =>
        test.chiSquare === null ? 0 : quadraticForm(sums.factor, sumsByGroup(sums.scores, labels, size)),
    },
    { seed, draws },
  );
  return test.chiSquare === null
    ? { ...test, permutationP: null, monteCarloError: null, draws: 0 }
    : { ...test, permutationP: permutations.greater, monteCarloError: permutations.monteCarloError, draws };
}
