import { factorSymmetric, solveFactored } from "../../linear/symmetric.js";
import { clusterIndex } from "../../shared/clusters.js";

/**
 * Sandwich A^-1 (sum over clusters of u u') A^-1 times G / (G - 1), u being the scores summed within clusters.
 *
 * @param scores flat by rows, weights included
 * @returns with the number of clusters; null with fewer than two
 * @source Liang & Zeger 1986, Biometrika 73:13
 */
export function clusteredCovariance(
  scores: { readonly values: Float64Array; readonly size: number; readonly clusters: ArrayLike<number> },
  information: Float64Array,
): { readonly covariance: Float64Array; readonly clusters: number } | null {
  const { values, size } = scores;
  const cluster = clusterIndex({ times: scores.clusters, clusters: scores.clusters });
  if (cluster.count < 2) return null;
  const sums = new Float64Array(cluster.count * size);
  cluster.of.forEach((c, row) => {
    for (let j = 0; j < size; j++) sums[c * size + j]! += values[row * size + j]!;
  });
  const factor = factorSymmetric(information, { size, tolerance: 1e-15 });
  const result = new Float64Array(size * size);
  const correction = cluster.count / (cluster.count - 1);
  for (let c = 0; c < cluster.count; c++) {
    const moved = solveFactored(factor, sums.subarray(c * size, (c + 1) * size));
    for (let j = 0; j < size; j++)
      for (let k = 0; k < size; k++) result[j * size + k]! += correction * moved[j]! * moved[k]!;
  }
  return { covariance: result, clusters: cluster.count };
}
