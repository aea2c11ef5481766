import { factorSymmetric, quadraticForm } from "../linear/symmetric.js";
import { addCrossProducts, mirror } from "./hazards/cross-products.js";
import { indexOfCodes } from "./hazards/order.js";
import type { RiskState } from "./hazards/risk-state.js";
import { asDoubles, type HazardColumns } from "./hazards-layout.js";
import { scoreResiduals } from "./hazards-residuals.js";

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
  for (let at = 0; at < n; at++) of[at] = index[row[at] as number] as number;
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
    for (let at = 0; at < column.length; at++)
      sums[of[at] as number]! += (weight ? (weight[at] as number) : 1) * (column[at] as number);
    return sums;
  });

/** Sum over clusters of u u', u the score residuals summed within the cluster, where the state stands. */
function meat(state: RiskState, clusters: SortedClusters): { matrix: Float64Array; sums: Float64Array[] } {
  const { size, weight } = state.layout;
  const sums = sumsWithin(scoreResiduals(state), clusters, weight);
  const matrix = new Float64Array(size * size);
  const weights = new Float64Array(clusters.count).fill(1);
  addCrossProducts(matrix, sums, { weights, rows: clusters.count, factor: 1 });
  mirror(matrix, size);
  return { matrix, sums };
}

/** Sandwich covariance on the standardised scale: V (sum over clusters of u u') V. */
export function sandwich(
  state: RiskState,
  bread: { inverse: Float64Array; clusters: SortedClusters },
): Float64Array {
  const { size } = state.layout;
  const { inverse, clusters } = bread;
  const { matrix } = meat(state, clusters);
  return productOf(productOf(inverse, matrix, size), inverse, size);
}

/** Score test with the covariance of the score summed within clusters: u' (sum of u_c u_c')^-1 u, the state standing at 0. */
export function robustScore(
  state: RiskState,
  how: { readonly clusters: SortedClusters; readonly over: readonly number[] },
): { statistic: number; df: number } {
  const { size } = state.layout;
  const { matrix, sums } = meat(state, how.clusters);
  for (let j = 0; j < size; j++)
    if (!how.over.includes(j)) for (let k = 0; k < size; k++) matrix[j * size + k] = matrix[k * size + j] = 0;
  const score = sums.map((column) => column.reduce((sum, value) => sum + value, 0));
  const factor = factorSymmetric(matrix, { size, tolerance: 1e-12 });
  return { statistic: quadraticForm(factor, score), df: factor.kept.length };
}

/** Product of two square matrices, flat by rows. */
export function productOf(left: Float64Array, right: Float64Array, size: number): Float64Array {
  const product = new Float64Array(size * size);
  for (let i = 0; i < size; i++)
    for (let k = 0; k < size; k++) {
      const value = left[i * size + k] as number;
      for (let j = 0; j < size; j++) product[i * size + j]! += value * (right[k * size + j] as number);
    }
  return product;
}
