import { checkColumn, checkSameLength } from "../arguments.js";
import { normalCritical, tCritical, tTwoSided } from "../distributions.js";
import type { Reason } from "../figure.js";
import { clusterIndex } from "../survival/robust-variance.js";
import { type Kappa, type KappaOptions, kappaOfTable } from "./kappa.js";
import { agreementTable, type RatedPairs, sharesOfTable } from "./kappa-table.js";
import { type KappaWeights, weightsFor } from "./kappa-weights.js";

/** Ratings of subjects of which several belong together (whole numbers): fingers of one person. */
export interface ClusteredRatedPairs extends RatedPairs {
  readonly clusters: ArrayLike<number>;
}

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

/** n times the derivative of kappa by the weight of a subject in each cell. */
function influences(
  alone: Kappa & { readonly kappa: number },
  given: {
    readonly first: readonly number[];
    readonly second: readonly number[];
    readonly weights: KappaWeights;
  },
): (i: number, j: number) => number {
  const { first, second } = given;
  const weight = weightsFor(given.weights, first.length);
  const chance = alone.chanceAgreement as number;
  const ofFirst = first.map((_, i) => second.reduce((sum, share, l) => sum + weight(i, l) * share, 0));
  const ofSecond = second.map((_, j) => first.reduce((sum, share, l) => sum + weight(l, j) * share, 0));
  const away = 1 - alone.kappa;
  return (i, j) =>
    (weight(i, j) -
      ((ofFirst[i] as number) + (ofSecond[j] as number)) * away -
      (alone.kappa - chance * away)) /
    (1 - chance);
}

/**
 * Kappa of two raters, plain or weighted, where several subjects belong together: the same kappa, with an error between clusters.
 *
 * Var = G / (G - 1) sum over clusters of (sum of the influences of their subjects)^2 / n^2, an influence being n times the derivative of
 * kappa by the weight of a subject; Student's t with G - 1 degrees of freedom. Limits are not cut at 1.
 *
 * @param columns first and second as for kappa; clusters: whole numbers, equally long
 * @returns nulls with `no-rows` or `no-variance` as kappa; no limits with one cluster (`too-few-rows`) or an error of 0 (`no-variance`)
 * @throws ArgumentError naming the column and index of a value at fault
 * @source Yang & Zhou 2014, Stat Med 33:2612
 */
export function clusteredKappa(
  columns: ClusteredRatedPairs,
  options: KappaOptions & { readonly categories: readonly string[] },
): ClusteredKappa {
  const { weights = "unweighted", level = 0.95 } = options;
  const table = agreementTable(columns, options);
  const clusterColumn = { name: "clusters", values: columns.clusters };
  checkSameLength(clusterColumn, { name: "first", values: columns.first });
  checkColumn(clusterColumn, "code");
  normalCritical(level);
  const alone = kappaOfTable(table, options);
  const cluster = clusterIndex({ times: columns.first, clusters: columns.clusters });
  const df = Math.max(0, cluster.count - 1);
  const common = { kappa: alone.kappa, clusters: cluster.count, df, level, alone };
  const none = { standardError: null, lower: null, upper: null, t: null, p: null };
  const shares = sharesOfTable(table);
  if (alone.kappa === null || shares === null) return { ...common, ...none, reason: alone.reason };
  if (df < 1) return { ...common, ...none, reason: "too-few-rows" };
  const influence = influences({ ...alone, kappa: alone.kappa }, { ...shares, weights });
  const sums = new Float64Array(cluster.count);
  for (let row = 0; row < columns.first.length; row++)
    sums[cluster.of[row] as number]! += influence(
      columns.first[row] as number,
      columns.second[row] as number,
    );
  const squares = sums.reduce((sum, value) => sum + value * value, 0);
  const standardError = Math.sqrt((cluster.count / df) * squares) / shares.n;
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
