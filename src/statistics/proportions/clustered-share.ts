import { checkColumn, checkSameLength } from "../shared/arguments.js";
import { clusterIndex } from "../shared/clusters.js";
import { tCritical } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import {
  checkColumnNames,
  type LevelOption,
  levelOption,
  type NamesOf,
  readOptions,
} from "../shared/options.js";

/** One entry a row: 1 where it counts, 0 where it does not, and whom it belongs to (whole numbers). */
export interface ClusteredHits {
  readonly hits: ArrayLike<number>;
  readonly clusters: ArrayLike<number>;
}

export const clusteredHitsNames: NamesOf<ClusteredHits> = { hits: true, clusters: true };

export interface ClusteredShare {
  readonly estimate: number | null;
  /** Of the ratio estimate, between clusters; null with fewer than two. */
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly n: number;
  readonly clusters: number;
  /** Variance over that of as many independent rows, 1 at least. */
  readonly designEffect: number | null;
  readonly level: number;
  readonly reason: Reason | null;
}

/**
 * A share of rows of which several belong together, such as fingers of one person, with an interval that allows for it.
 *
 * p = hits / n; with G clusters of m_g rows and x_g hits, Var = G / (G - 1) sum (x_g - m_g p)^2 / n^2. The design effect D = Var / (p (1 -
 * p) / n), 1 at least, makes the effective size n / D, on which score limits are taken with Student's t on G - 1 degrees of freedom in
 * place of the normal quantile. Where none or all count, the effective size is the number of clusters.
 *
 * With each row its own cluster the limits are Wilson's but for the quantile.
 *
 * @returns nulls with `no-rows`; with one cluster no limits (`too-few-rows`)
 * @throws ArgumentError naming the column and index of a value at fault
 * @source Rao & Scott 1992, Biometrics 48:577 (effective size); Wilson 1927, J Am Stat Assoc 22:209
 * @example
 * clusteredShare({ hits: [1, 1, 0, 1], clusters: [1, 1, 2, 3] }).estimate // => 0.75
 */
export function clusteredShare(columns: ClusteredHits, options: LevelOption = {}): ClusteredShare {
  checkColumnNames(clusteredHitsNames, { columns });
  const { level } = readOptions(levelOption, options);
  const { hits, clusters } = columns;
  const first = { name: "hits", values: hits };
  checkColumn(first, "zero or one");
  checkSameLength({ name: "clusters", values: clusters }, first);
  checkColumn({ name: "clusters", values: clusters }, "code");
  const n = hits.length;
  const none = { estimate: null, standardError: null, lower: null, upper: null, designEffect: null };
  if (n === 0) return { ...none, n, clusters: 0, level, reason: "no-rows" };
  const cluster = clusterIndex({ times: hits, clusters });
  const found = Array.from(hits).reduce((sum, hit) => sum + hit, 0);
  const estimate = found / n;
  const common = { estimate, n, clusters: cluster.count, level };
  if (cluster.count < 2) return { ...none, ...common, reason: "too-few-rows" };
  // in whole numbers, so that rows that cancel within their cluster leave exactly nothing
  const above = new Float64Array(cluster.count);
  for (let row = 0; row < n; row++) above[cluster.of[row]!]! += n * hits[row]! - found;
  const squares = above.reduce((sum, value) => sum + value * value, 0);
  const variance = ((cluster.count / (cluster.count - 1)) * squares) / (n * n * (n * n));
  const ofRows = (estimate * (1 - estimate)) / n;
  const designEffect = ofRows > 0 ? Math.max(1, variance / ofRows) : n / cluster.count;
  const t = tCritical(level, cluster.count - 1);
  const size = n / designEffect;
  const middle = estimate + (t * t) / (2 * size);
  const half = t * Math.sqrt((estimate * (1 - estimate)) / size + (t * t) / (4 * size * size));
  const scale = 1 + (t * t) / size;
  return {
    ...common,
    standardError: Math.sqrt(variance),
    // at the ends the formula is 0 or 1 but for rounding
    lower: found === 0 ? 0 : Math.max(0, (middle - half) / scale),
    upper: found === n ? 1 : Math.min(1, (middle + half) / scale),
    designEffect,
    reason: null,
  };
}
