import { checkColumn, checkSameLength } from "../shared/arguments.js";
import { clusterIndex, rowsByIndex } from "../shared/clusters.js";
import { tCritical, tTwoSided } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import { checkColumnNames, type NamesOf, readOptions } from "../shared/options.js";
import { type Kappa, kappaOfTable, type NamedKappaOptions, namedKappaOptions } from "./kappa.js";
import { agreementTable, type RatedPairs } from "./kappa-table.js";
import { type Weight, weightsFor } from "./kappa-weights.js";

/** Ratings of subjects of which several belong together (whole numbers): fingers of one person. */
export interface ClusteredRatedPairs extends RatedPairs {
  readonly clusters: ArrayLike<number>;
}

export const clusteredRatedPairsNames: NamesOf<ClusteredRatedPairs> = {
  clusters: true,
  first: true,
  second: true,
};

export interface ClusteredKappa {
  readonly kappa: number | null;
  /** Between clusters. */
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** Of kappa against 0, by the same error. */
  readonly t: number | null;
  readonly p: number | null;
  readonly clusters: number;
  /** clusters - 1. */
  readonly df: number;
  readonly level: number;
  readonly reason: Reason | null;
  /** The same ratings as if each subject stood alone: agreement, indices, notes. */
  readonly alone: Kappa;
}

/** Kappa of counts, or null where the margins leave no room for chance to be beaten. */
function kappaOfCounts(counts: readonly Float64Array[], weight: Weight): number | null {
  const first = counts.map((row) => row.reduce((sum, count) => sum + count, 0));
  const second = counts.map((_, j) => counts.reduce((sum, row) => sum + row[j]!, 0));
  const n = first.reduce((sum, count) => sum + count, 0);
  let observed = 0;
  let chance = 0;
  counts.forEach((row, i) => {
    row.forEach((count, j) => {
      observed += weight(i, j) * count * n;
      chance += weight(i, j) * first[i]! * second[j]!;
    });
  });
  const room = n * n - chance;
  return room > 1e-12 * n * n ? (observed - chance) / room : null;
}

/** What kappa loses without each cluster in turn; a cluster without which there is none counts as the whole distance to 1. */
function lossesByDeletion(
  columns: ClusteredRatedPairs,
  given: {
    readonly kappa: number;
    readonly counts: readonly ArrayLike<number>[];
    readonly weight: Weight;
    readonly cluster: { readonly of: Int32Array; readonly count: number };
  },
): number[] {
  const { kappa, weight, cluster } = given;
  const counts = given.counts.map((row) => Float64Array.from(row));
  const { rows, start } = rowsByIndex(cluster.of, cluster.count);
  const add = (k: number, sign: 1 | -1): void => {
    for (let i = start[k]!; i < start[k + 1]!; i++) {
      const row = rows[i]!;
      counts[columns.first[row]!]![columns.second[row]!]! += sign;
    }
  };
  return Array.from({ length: cluster.count }, (_, k) => {
    add(k, -1);
    const left = kappaOfCounts(counts, weight);
    add(k, 1);
    return left === null ? 1 - kappa : kappa - left;
  });
}

/**
 * Kappa of two raters, plain or weighted, where several subjects belong together: the same kappa, with an error between clusters.
 *
 * Var = (G - 1) / G sum over clusters of (kappa - kappa without the cluster)^2, the jackknife; Student's t with G - 1 degrees of freedom.
 * The variance by derivatives, which many clusters come to, was too small for 14 people in the simulation of tests/honesty. Limits are not cut
 * at 1.
 *
 * @param columns first and second as for kappa; clusters: whole numbers, equally long
 * @returns nulls with `no-rows` or `no-variance` as kappa; no limits with one cluster (`too-few-rows`) or an error of 0 (`no-variance`)
 * @throws ArgumentError naming the column and index of a value at fault
 * @source Fleiss & Davies 1982, Am J Epidemiol 115:841 (jackknife); clusters: Yang & Zhou 2014, Stat Med 33:2612
 */
export function clusteredKappa(columns: ClusteredRatedPairs, options: NamedKappaOptions): ClusteredKappa {
  checkColumnNames(clusteredRatedPairsNames, { columns });
  const { categories, ...ofTable } = readOptions(namedKappaOptions, options);
  const { weights, level } = ofTable;
  const table = agreementTable({ first: columns.first, second: columns.second }, { categories });
  const clusterColumn = { name: "clusters", values: columns.clusters };
  checkSameLength(clusterColumn, { name: "first", values: columns.first });
  checkColumn(clusterColumn, "code");
  const alone = kappaOfTable(table, ofTable);
  const cluster = clusterIndex({ times: columns.first, clusters: columns.clusters });
  const df = Math.max(0, cluster.count - 1);
  const common = { kappa: alone.kappa, clusters: cluster.count, df, level, alone };
  const none = { standardError: null, lower: null, upper: null, t: null, p: null };
  if (alone.kappa === null) return { ...common, ...none, reason: alone.reason };
  if (df < 1) return { ...common, ...none, reason: "too-few-rows" };
  const weight = weightsFor(weights, table.categories.length);
  const losses = lossesByDeletion(columns, { kappa: alone.kappa, counts: table.counts, weight, cluster });
  const squares = losses.reduce((sum, loss) => sum + loss * loss, 0);
  const standardError = Math.sqrt((df / cluster.count) * squares);
  // full agreement leaves rounding only
  if (!(standardError > 1e-12)) return { ...common, ...none, standardError: 0, reason: "no-variance" };
  const half = tCritical(level, df) * standardError;
  const t = alone.kappa / standardError;
  return {
    ...common,
    standardError,
    lower: alone.kappa - half,
    upper: alone.kappa + half,
    t,
    p: tTwoSided(t, df),
    reason: null,
  };
}
