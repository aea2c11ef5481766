import { factorSymmetric, invertFactored } from "../linear/symmetric.js";
import { ArgumentError, checkIsColumn } from "../shared/arguments.js";
import { clusterIndex, rowsByIndex } from "../shared/clusters.js";
import { indexOfCodes } from "../shared/codes.js";
import type { Reason } from "../shared/figure.js";
import { checkColumnNames, needed, number, type OptionsOf, readOptions } from "../shared/options.js";
import { permutationTest } from "../shared/permutation.js";
import type { ClusteredGroupedTimes } from "./few-clusters-log-rank.js";
import { clusteredGroupedTimesNames } from "./few-clusters-log-rank.js";
import { checkGroupedTimes } from "./grouped-times.js";
import { reasonForNoTest } from "./log-rank.js";
import { logRankScores } from "./log-rank-scores.js";

export const personPermutedLogRankOptions = {
  /** Of the random permutations; a whole number. */
  seed: needed(number("code")),
  /** Default 9,999. */
  draws: number("positive count", 9999),
};

export interface PersonPermutedLogRankOptions extends OptionsOf<typeof personPermutedLogRankOptions> {}

export interface PersonPermutedLogRank {
  readonly groups: readonly number[];
  /** Observed less expected events of each group. */
  readonly surplus: readonly number[];
  /** Of the surplus by its covariance over permutations of single rows; the measure that permutations are compared by. */
  readonly chiSquare: number | null;
  readonly df: number;
  readonly p: number | null;
  readonly draws: number;
  /** Standard error of p from drawing. */
  readonly monteCarloError: number | null;
  readonly reason: Reason | null;
}

/** Covariance of the groups' sums of scores over all permutations of single rows. */
function covarianceOf(
  score: Float64Array,
  { index, size }: { readonly index: Int32Array; readonly size: number },
) {
  const n = score.length;
  const members = new Float64Array(size);
  for (const group of index) members[group]!++;
  const spread = score.reduce((sum, value) => sum + value * value, 0) / (n - 1);
  const covariance = new Float64Array(size * size);
  for (let k = 0; k < size; k++)
    for (let l = 0; l < size; l++) {
      const [a, b] = [members[k]!, members[l]!];
      covariance[k * size + l] = spread * ((k === l ? a : 0) - (a * b) / n);
    }
  return covariance;
}

/**
 * Permutation version of the log-rank test where persons have rows in several groups, so that nobody can be assigned to one group: what is
 * permuted is the whole list of groups that a person's rows have, among persons with as many rows.
 *
 * The surplus of a group is the sum of its rows' scores (log-rank-scores.ts), which no grouping enters; a permutation is as extreme if U' C^-1 U is as
 * large, C being the covariance over permutations of single rows: any fixed C gives a valid test, this one the usual measure. p = (1 + as
 * extreme) / (1 + draws).
 *
 * Assumes that persons with as many rows could have had each other's groups, which includes that they were followed alike.
 *
 * @returns nulls with `no-rows`, `one-group`, `no-events`, or `no-variance` where all permutations give the same
 * @throws ArgumentError naming the column and index of a value at fault, or for strata, which this test does not know
 * @source scores: Peto & Peto 1972, J R Stat Soc A 135:185; permutations by whatever the hypothesis leaves alike: Lehmann & Romano 2005, Testing
 *   Statistical Hypotheses, section 15.2
 */
export function personPermutedLogRank(
  columns: ClusteredGroupedTimes,
  options: PersonPermutedLogRankOptions,
): PersonPermutedLogRank {
  checkColumnNames(clusteredGroupedTimesNames, { columns });
  const draw = readOptions(personPermutedLogRankOptions, options);
  checkGroupedTimes(columns);
  checkIsColumn({ name: "clusters", values: columns.clusters });
  if (columns.strata !== undefined)
    throw new ArgumentError({
      argument: "strata",
      index: null,
      expected: "left out",
      found: "strata",
    });
  const { codes: groups, index } = indexOfCodes(columns.groups);
  const size = groups.length;
  const score = logRankScores(columns, "equal");
  const cluster = clusterIndex(columns);
  const { rows, start } = rowsByIndex(cluster.of, cluster.count);
  const sums = new Float64Array(size);
  /** Sums of the scores when person u has the list of groups of person lists[u]. */
  const sumUp = (lists: ArrayLike<number>): void => {
    sums.fill(0);
    for (let u = 0; u < cluster.count; u++) {
      const from = start[u]!;
      const given = start[lists[u]!]!;
      for (let i = from; i < start[u + 1]!; i++) {
        const group = index[rows[given + i - from]!]!;
        sums[group]! += score[rows[i]!]!;
      }
    }
  };
  const own = Int32Array.from({ length: cluster.count }, (_, u) => u);
  sumUp(own);
  const common = { groups, surplus: Array.from(sums) };
  const factor = factorSymmetric(covarianceOf(score, { index, size }), { size, tolerance: 1e-10 });
  const df = factor.kept.length;
  const none = { chiSquare: null, p: null, draws: 0, monteCarloError: null };
  if (score.length < 2 || df === 0)
    return { ...common, ...none, df, reason: reasonForNoTest(columns, groups) };
  const inverse = invertFactored(factor);
  const measure = (lists: ArrayLike<number>): number => {
    sumUp(lists);
    let value = 0;
    for (let k = 0; k < size; k++)
      for (let l = 0; l < size; l++) value += sums[k]! * inverse[k * size + l]! * sums[l]!;
    return value;
  };
  const found = permutationTest(
    {
      labels: own,
      strata: Int32Array.from(own, (u) => start[u + 1]! - start[u]!),
      statistic: measure,
    },
    draw,
  );
  return {
    ...common,
    chiSquare: found.observed,
    df,
    p: found.greater,
    draws: found.draws,
    monteCarloError: found.monteCarloError,
    reason: null,
  };
}
