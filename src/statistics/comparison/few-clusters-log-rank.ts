import { visitDeletions } from "../hazards/clusters/deleted-clusters.js";
import { factorSymmetric, quadraticForm, rowsOfMatrix } from "../linear/symmetric.js";
import { ArgumentError, checkColumn, checkSameLength } from "../shared/arguments.js";
import { indexOfCodes } from "../shared/codes.js";
import { fUpperTail, tTwoSided } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import { checkColumnNames, list, type NamesOf, type OptionsOf, readOptions } from "../shared/options.js";
import { type ClusterPulls, clusteredObservedAndExpected, clusterPulls } from "./clustered-scores.js";
import { checkGroupedTimes, type GroupedTimes } from "./grouped-times.js";
import { reasonForNoTest, tooFewClusters } from "./log-rank.js";

/** Rows of which several belong together: clusters are needed here. */
export interface ClusteredGroupedTimes extends GroupedTimes {
  readonly clusters: ArrayLike<number>;
}

export const clusteredGroupedTimesNames: NamesOf<ClusteredGroupedTimes> = {
  clusters: true,
  times: true,
  events: true,
  entries: true,
  groups: true,
  strata: true,
};

interface Common {
  /** Codes of the groups, ascending; the other arrays are in this order. */
  readonly groups: readonly number[];
  readonly clusters: number;
  /** `deletion`: each cluster's pull times what its deletion changes; `factor`: the sandwich, for very many clusters or where the other is none. */
  readonly correction: "deletion" | "factor";
  readonly p: number | null;
  readonly reason: Reason | null;
}

export interface FewClustersLogRank extends Common {
  readonly n: readonly number[];
  readonly observed: readonly number[];
  readonly expected: readonly number[];
  readonly variance: readonly (readonly number[])[];
  /** (O - E)' V^-1 (O - E), and its rank. */
  readonly chiSquare: number | null;
  readonly df: number;
  /** chiSquare (G - df) / (df (G - 1)), on df and G - df degrees of freedom. */
  readonly f: number | null;
}

export const fewClustersTrendOptions = {
  /** One for each group in ascending order of its code. Default the codes themselves. */
  scores: list<readonly number[]>(),
};

export interface FewClustersTrendOptions extends OptionsOf<typeof fewClustersTrendOptions> {}

export interface FewClustersTrend extends Common {
  readonly scores: readonly number[];
  /** On clusters - 1 degrees of freedom. */
  readonly t: number | null;
}

interface Scores {
  readonly pulls: ClusterPulls;
  readonly surplus: number[];
  readonly variance: Float64Array;
  readonly correction: Common["correction"];
  readonly tooFew: (asked?: number) => boolean;
}

/** A spread below this part of its own terms is rounding. */
const tolerance = 1e-12;

/** Half the sum over clusters of u d' + d u', u what a cluster's rows give to O - E and d what O - E loses with them; null: too many rows. */
function productVariance(columns: ClusteredGroupedTimes, { sums, pulls }: ClusterPulls): Float64Array | null {
  const size = sums.groups.length;
  const { index } = indexOfCodes(columns.groups);
  const x = new Float64Array(index.length * size);
  index.forEach((group, row) => {
    x[row * size + group] = 1;
  });
  const variance = new Float64Array(size * size);
  const risk = new Float64Array(index.length).fill(1);
  const given = { columns, x, size, risk, ties: "breslow", wanted: "score" } as const;
  const gone = visitDeletions(given, (cluster, { left, total }) => {
    for (let k = 0; k < size; k++)
      for (let l = 0; l < size; l++) {
        const [uk, ul] = [pulls[cluster * size + k]!, pulls[cluster * size + l]!];
        const dk = total.score[k]! - left.score[k]!;
        const dl = total.score[l]! - left.score[l]!;
        variance[k * size + l]! += (uk * dl + ul * dk) / 2;
      }
  });
  return gone ? variance : null;
}

function scoresOf(columns: ClusteredGroupedTimes): Scores {
  checkGroupedTimes(columns);
  if (columns.clusters === undefined)
    throw new ArgumentError({
      argument: "clusters",
      index: null,
      expected: "a whole number a row",
      found: undefined,
    });
  const pulls = clusterPulls(columns, "equal");
  const { observed, expected } = pulls.sums;
  const surplus = observed.map((value, g) => value - expected[g]!);
  const clustered = clusteredObservedAndExpected(columns, "equal");
  const sandwich = clustered.variance;
  const size = surplus.length;
  const rank = (matrix: Float64Array) => factorSymmetric(matrix, { size, tolerance: 1e-10 }).kept.length;
  const product = pulls.clusters > 1 ? productVariance(columns, pulls) : null;
  // where the product says less than the sandwich it is no variance
  const usable = product !== null && rank(product) === rank(sandwich);
  return {
    pulls,
    surplus,
    variance: usable ? product : sandwich,
    correction: usable ? "deletion" : "factor",
    tooFew: (asked) => tooFewClusters(clustered, asked),
  };
}

/**
 * Log-rank test that keeps its level with few clusters, also where a cluster (a person) has rows in several groups or strata.
 *
 * Observed and expected events as in logRank. V = half the sum over clusters of (u_g d_g' + d_g u_g'), where u_g is what the cluster's rows
 * give to O - E (logRank's clustered variance is the sum of u_g u_g', too small with few clusters) and d_g what O - E loses when they are
 * deleted. F = chi-square (G - df) / (df (G - 1)) on df and G - df degrees of freedom, for two groups the square of a t on G - 1. Its level is
 * measured in tests/honesty.
 *
 * @returns nulls as logRank (`too-few-rows` with no more clusters than differences between groups)
 * @throws ArgumentError naming the column and index of a value at fault
 * @source scores: Lin & Wei 1989, J Am Stat Assoc 84:1074; deletion: Lipsitz, Dear & Zhao 1994, Biometrics 50:842; F: Hotelling 1931, Ann Math
 *   Stat 2:360
 */
export function fewClustersLogRank(columns: ClusteredGroupedTimes): FewClustersLogRank {
  checkColumnNames(clusteredGroupedTimesNames, { columns });
  const { pulls, surplus, variance, correction, tooFew } = scoresOf(columns);
  const { groups, n, observed, expected } = pulls.sums;
  const { clusters } = pulls;
  const size = groups.length;
  const factor = factorSymmetric(variance, { size, tolerance: 1e-10 });
  const df = factor.kept.length;
  const common = {
    groups,
    n,
    observed,
    expected,
    variance: rowsOfMatrix(variance, size),
    clusters,
    correction,
    df,
  };
  if (df === 0 || tooFew()) {
    const reason = tooFew() ? "too-few-rows" : reasonForNoTest(columns, groups);
    return { ...common, chiSquare: null, f: null, p: null, reason };
  }
  const chiSquare = quadraticForm(factor, surplus);
  const f = (chiSquare * (clusters - df)) / (df * (clusters - 1));
  return {
    ...common,
    chiSquare,
    f,
    p: fUpperTail(f, { numerator: df, denominator: clusters - df }),
    reason: null,
  };
}

/**
 * Log-rank test for trend over ordered groups with few clusters: t = sum a_j (O_j - E_j) / sqrt(a' V a), V as in fewClustersLogRank, on G - 1
 * degrees of freedom.
 *
 * @param options scores: one for each group in ascending order of its code; default the codes themselves
 * @throws ArgumentError for scores that are not as many as the groups, and as fewClustersLogRank
 * @source Tarone 1975, Biometrika 62:679
 */
export function fewClustersTrend(
  columns: ClusteredGroupedTimes,
  options: FewClustersTrendOptions = {},
): FewClustersTrend {
  checkColumnNames(clusteredGroupedTimesNames, { columns });
  const { scores: given } = readOptions(fewClustersTrendOptions, options);
  const { pulls, surplus, variance, correction, tooFew } = scoresOf(columns);
  const { groups } = pulls.sums;
  const { clusters } = pulls;
  const scores = given ?? groups;
  checkSameLength({ name: "scores", values: scores }, { name: "the groups", values: groups });
  checkColumn({ name: "scores", values: scores }, "finite");
  let sum = 0;
  let spread = 0;
  let size = 0;
  scores.forEach((a, j) => {
    sum += a * surplus[j]!;
    scores.forEach((b, k) => {
      const term = a * b * variance[j * groups.length + k]!;
      spread += term;
      size += Math.abs(term);
    });
  });
  const common = { groups, scores, clusters, correction };
  if (tooFew(1) || !(spread > tolerance * size)) {
    const reason = tooFew(1) ? "too-few-rows" : reasonForNoTest(columns, groups);
    return { ...common, t: null, p: null, reason };
  }
  const t = sum / Math.sqrt(spread);
  return { ...common, t, p: tTwoSided(t, clusters - 1), reason: null };
}
