import { factorSymmetric, invertFactored } from "../linear/symmetric.js";
import { ArgumentError } from "../shared/arguments.js";
import type { Reason } from "../shared/figure.js";
import { checkColumnNames, number, type OptionsOf, oneOf, readOptions } from "../shared/options.js";
import { permutationTest } from "../shared/permutation.js";
import { checkGroupedTimes, type GroupedTimes, groupedTimesNames, timeWeight } from "./grouped-times.js";
import { reasonForNoTest } from "./log-rank.js";
import { logRankScores } from "./log-rank-scores.js";
import {
  forEachPermutation,
  numberOfPermutations,
  type PermutationUnits,
  permutationCovariance,
  permutationUnits,
  sumsByGroup,
} from "./permutation-units.js";

export const permutedLogRankOptions = {
  /** Default "equal". */
  weight: timeWeight,
  /** Default "automatic": every permutation while there are at most 200,000, random ones beyond. */
  method: oneOf(["automatic", "exact", "random"], "automatic"),
  /** Whole number; needed for random permutations. */
  seed: number("code"),
  /** Random permutations. Default 9,999. */
  draws: number("positive count", 9999),
};

export interface PermutedLogRankOptions extends OptionsOf<typeof permutedLogRankOptions> {}

export interface PermutedLogRank {
  /** Codes of the groups, ascending. */
  readonly groups: readonly number[];
  /** Units permuted in each: rows, or clusters where there are any. */
  readonly n: readonly number[];
  /** Observed less expected events of each group, weighted where the times are. */
  readonly surplus: readonly number[];
  /** Of the surplus by its covariance over all permutations. */
  readonly chiSquare: number | null;
  readonly df: number;
  /** Share of permutations with a chi-square at least as large; with two groups, with a surplus at least as far from 0. */
  readonly p: number | null;
  /** For two groups: shares of permutations with at least as many events too many in the first, and at least as many too few. */
  readonly oneSided: { readonly more: number; readonly fewer: number } | null;
  readonly method: "exact" | "random" | null;
  /** All permutations, or those drawn. */
  readonly permutations: number;
  /** Standard error of p from drawing; 0 when exact. */
  readonly monteCarloError: number | null;
  readonly reason: Reason | null;
}

const exactUpTo = 200_000;
const largestExact = 50_000_000;
/** Sums that differ by less than this part of what was summed are equal. */
const roundingOf = 1e-11;

/** What a permutation is judged by: chi-square, and the surplus of the first group with rounding taken off. */
interface Judge {
  readonly chiSquare: (sums: Float64Array) => number;
  readonly first: (sums: Float64Array) => number;
}

function judgeOf(units: PermutationUnits, inverse: Float64Array): Judge {
  const size = units.groups.length;
  const slack = roundingOf * units.score.reduce((sum, score) => sum + Math.abs(score), 0);
  return {
    chiSquare: (sums) => {
      let value = 0;
      for (let k = 0; k < size; k++)
        for (let l = 0; l < size; l++) value += sums[k]! * inverse[k * size + l]! * sums[l]!;
      return value <= roundingOf ? 0 : value;
    },
    first: (sums) => (Math.abs(sums[0]!) <= slack ? 0 : sums[0]!),
  };
}

interface Shares {
  readonly p: number;
  readonly more: number;
  readonly fewer: number;
  readonly permutations: number;
  readonly monteCarloError: number;
}

function overEveryPermutation(units: PermutationUnits, judge: Judge, surplus: Float64Array): Shares {
  const observed = { chiSquare: judge.chiSquare(surplus), first: judge.first(surplus) };
  const least = observed.chiSquare * (1 - 1e-9);
  const slack = 1e-9 * Math.abs(observed.first);
  const hits = { far: 0, more: 0, fewer: 0, all: 0 };
  forEachPermutation(units, (sums) => {
    const first = judge.first(sums);
    hits.all++;
    if (judge.chiSquare(sums) >= least) hits.far++;
    if (first >= observed.first - slack) hits.more++;
    if (first <= observed.first + slack) hits.fewer++;
  });
  return {
    p: hits.far / hits.all,
    more: hits.more / hits.all,
    fewer: hits.fewer / hits.all,
    permutations: hits.all,
    monteCarloError: 0,
  };
}

function overRandomPermutations(
  units: PermutationUnits,
  judge: Judge,
  { seed, draws }: { readonly seed: number | undefined; readonly draws: number },
): Shares {
  if (seed === undefined)
    throw new ArgumentError({ argument: "seed", index: null, expected: "a whole number", found: seed });
  const sums = new Float64Array(units.groups.length);
  const judged = units.groups.length === 2 ? judge.first : judge.chiSquare;
  const found = permutationTest(
    {
      labels: units.group,
      strata: units.stratum,
      statistic: (labels) => {
        sumsByGroup(units, labels, sums);
        return judged(sums);
      },
    },
    { seed, draws },
  );
  return {
    p: found.twoSided,
    more: found.greater,
    fewer: found.less,
    permutations: found.draws,
    monteCarloError: found.monteCarloError,
  };
}

/**
 * Permutation version of the log-rank test, for samples too small for chi-square: the share of all ways to assign the groups to the
 * records, or of random ones, that give a difference at least as large. Two or more groups; permutations stay within strata.
 *
 * The surplus of a group is the sum of its records' scores (see log-rank-scores.ts), which do not depend on the grouping; chi-square is U' C^-1
 * U with C the covariance of the surplus over all permutations. Exact: every permutation once. Random: (1 + as extreme) / (1 + draws), permutation r from stream r
 * of the seed. Values equal but for rounding are equal. Clusters are permuted as wholes.
 *
 * Assumes that groups could have been assigned otherwise: not only equal curves but equal censoring (and, where entry is delayed, equal
 * entry) in the groups, within strata. Where one group was followed for less long the p-value is not exact.
 *
 * @returns nulls with `no-rows`, `one-group`, `no-events`, or `no-variance` where every permutation gives the same
 * @throws ArgumentError naming the column and index of a value at fault, a cluster over several groups or strata, a seed that is missing
 *   where permutations are drawn, or "exact" with more than fifty million permutations
 * @source Peto & Peto 1972, J R Stat Soc A 135:185; the assumption: Heimann & Neuhaus 1998, Biometrics 54:168
 * @example
 * // two of six permutations are as extreme
 * const found = permutedLogRank({ times: [1, 2, 3, 4], events: [1, 1, 1, 1], groups: [0, 0, 1, 1] });
 * [found.p, found.permutations, found.method, found.monteCarloError] // => [1/3, 6, "exact", 0]
 */
export function permutedLogRank(
  columns: GroupedTimes,
  options: PermutedLogRankOptions = {},
): PermutedLogRank {
  checkColumnNames(groupedTimesNames, { columns });
  const { weight, method, seed, draws } = readOptions(permutedLogRankOptions, options);
  checkGroupedTimes(columns);
  const units = permutationUnits(columns, logRankScores(columns, weight));
  const { groups } = units;
  const surplus = new Float64Array(groups.length);
  sumsByGroup(units, units.group, surplus);
  const factor = factorSymmetric(permutationCovariance(units), { size: groups.length, tolerance: 1e-10 });
  const df = factor.kept.length;
  const common = {
    groups,
    n: groups.map((_, k) => units.group.reduce((sum, own) => sum + (own === k ? 1 : 0), 0)),
    surplus: Array.from(surplus),
    df,
  };
  if (df === 0) {
    const none = {
      chiSquare: null,
      p: null,
      oneSided: null,
      method: null,
      permutations: 0,
      monteCarloError: null,
    };
    return { ...common, ...none, reason: reasonForNoTest(columns, groups) };
  }
  const all = numberOfPermutations(units);
  const every = method === "exact" || (method === "automatic" && all <= exactUpTo);
  if (every && all > largestExact)
    throw new ArgumentError({
      argument: "method",
      index: null,
      expected: `"random" for ${all} permutations`,
      found: method,
    });
  const judge = judgeOf(units, invertFactored(factor));
  const found = every
    ? overEveryPermutation(units, judge, surplus)
    : overRandomPermutations(units, judge, { seed, draws });
  return {
    ...common,
    chiSquare: judge.chiSquare(surplus),
    p: found.p,
    oneSided: groups.length === 2 ? { more: found.more, fewer: found.fewer } : null,
    method: every ? "exact" : "random",
    permutations: found.permutations,
    monteCarloError: found.monteCarloError,
    reason: null,
  };
}
