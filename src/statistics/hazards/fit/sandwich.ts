import { factorSymmetric, quadraticForm } from "../../linear/symmetric.js";
import { indexOfCodes } from "../../shared/codes.js";
import { asDoubles } from "../layout/layout.js";
import type { HazardColumns } from "../layout/sorted-rows.js";
import { addCrossProducts, mirror } from "../likelihood/cross-products.js";
import type { RiskState } from "../likelihood/risk-state.js";
import { scoreResiduals } from "./score-residuals.js";

/** Cluster of each sorted row. */
export interface SortedClusters {
  readonly of: Int32Array;
  readonly count: number;
}

export function sortedClusters(columns: HazardColumns, row: Int32Array): SortedClusters {
  const n = row.length;
  const of = new Int32Array(n);
  if (columns.clusters === undefined) {
    of.set(row);
    return { of, count: n };
  }
  const { codes, index } = indexOfCodes(asDoubles(columns.clusters));
  for (let i = 0; i < n; i++) of[i] = index[row[i]!]!;
  return { of, count: codes.length };
}

/** Weighted sums within clusters of columns by sorted rows. */
export const sumsWithin = (
  residuals: readonly Float64Array[],
  { of, count }: SortedClusters,
  weight: Float64Array | null,
): Float64Array[] =>
  residuals.map((column) => {
    const sums = new Float64Array(count);
    for (let i = 0; i < column.length; i++) sums[of[i]!]! += (weight ? weight[i]! : 1) * column[i]!;
    return sums;
  });

/** Clusters that give anything to a score; those that are in no risk set of an event, or weigh nothing, do not. */
function pullingOf(sums: readonly Float64Array[], count: number): number {
  let pulling = 0;
  for (let cluster = 0; cluster < count; cluster++)
    if (sums.some((column) => column[cluster] !== 0)) pulling++;
  return pulling;
}

export interface Meat {
  readonly matrix: Float64Array;
  readonly sums: Float64Array[];
  readonly pulling: number;
}

/** Sum over clusters of u u', u the score residuals summed within the cluster, where the state stands. */
export function meat(state: RiskState, clusters: SortedClusters): Meat {
  const { size, weight } = state.layout;
  const sums = sumsWithin(scoreResiduals(state), clusters, weight);
  const matrix = new Float64Array(size * size);
  const weights = new Float64Array(clusters.count).fill(1);
  addCrossProducts(matrix, sums, { weights, rows: clusters.count, factor: 1 });
  mirror(matrix, size);
  return { matrix, sums, pulling: pullingOf(sums, clusters.count) };
}

/** Sandwich covariance on the standardised scale, V (sum over clusters of u u') V, and the clusters that give anything to it. */
export function sandwich(
  state: RiskState,
  bread: { inverse: Float64Array; clusters: SortedClusters },
): { covariance: Float64Array; pulling: number } {
  const { size } = state.layout;
  const { inverse, clusters } = bread;
  const { matrix, pulling } = meat(state, clusters);
  return { covariance: productOf(productOf(inverse, matrix, size), inverse, size), pulling };
}

/**
 * Score test with the covariance of the score summed within clusters: u' (sum of u_c u_c')^-1 u, the state standing at 0. With no more clusters
 * than coefficients it is their number whatever the data are: no test.
 */
export function robustScore(
  state: RiskState,
  settings: { readonly clusters: SortedClusters; readonly over: readonly number[] },
): { statistic: number | null; df: number } {
  const { size } = state.layout;
  const { matrix, sums, pulling } = meat(state, settings.clusters);
  if (settings.over.length > 0 && settings.over.length >= pulling) return { statistic: null, df: 0 };
  for (let j = 0; j < size; j++)
    if (!settings.over.includes(j))
      for (let k = 0; k < size; k++) matrix[j * size + k] = matrix[k * size + j] = 0;
  const score = sums.map((column) => column.reduce((sum, value) => sum + value, 0));
  const factor = factorSymmetric(matrix, { size, tolerance: 1e-12 });
  return { statistic: quadraticForm(factor, score), df: factor.kept.length };
}

/** Product of two square matrices, flat by rows. */
export function productOf(left: Float64Array, right: Float64Array, size: number): Float64Array {
  const product = new Float64Array(size * size);
  for (let i = 0; i < size; i++)
    for (let k = 0; k < size; k++) {
      const value = left[i * size + k]!;
      for (let j = 0; j < size; j++) product[i * size + j]! += value * right[k * size + j]!;
    }
  return product;
}
