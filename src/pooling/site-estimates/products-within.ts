import type { clusterIndex } from "../../statistics/shared/clusters.js";

/**
 * Sums over clusters of the products of what their rows contribute to each of several figures: the variance matrix of the figures, each row
 * contributing its influence (infinitesimal jackknife).
 *
 * @param cluster number of each row's cluster
 * @param influences one column a figure, one entry a row
 * @returns a symmetric matrix, one row a figure
 * @source Lin & Wei 1989, J Am Stat Assoc 84:1074 (sums within clusters); Efron & Stein 1981, Ann Stat 9:586 (jackknife)
 */
export function productsWithin(
  cluster: ReturnType<typeof clusterIndex>,
  influences: readonly Float64Array[],
): number[][] {
  const sums = influences.map((column) => {
    const own = new Float64Array(cluster.count);
    for (let row = 0; row < column.length; row++) own[cluster.of[row]!]! += column[row]!;
    return own;
  });
  return sums.map((one, i) =>
    sums.map((other, j) => (j < i ? productOf(other, one) : productOf(one, other))),
  );
}

function productOf(one: Float64Array, other: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < one.length; i++) sum += one[i]! * other[i]!;
  return sum;
}

/**
 * A variance matrix with other variances, the correlations staying as they are; a figure whose influences are all 0 is correlated with none.
 *
 * @param matrix symmetric, from influences
 * @param variances on the scale wanted, in the same order
 */
export function withVariances(
  matrix: readonly (readonly number[])[],
  variances: readonly number[],
): number[][] {
  const factor = matrix.map((row, i) => (row[i]! > 0 ? Math.sqrt(variances[i]! / row[i]!) : 0));
  // each product once, so that the matrix is symmetric to the last digit
  return matrix.map((row, i) =>
    row.map((_, j) => {
      const [low, high] = [Math.min(i, j), Math.max(i, j)];
      return i === j ? variances[i]! : matrix[low]![high]! * factor[low]! * factor[high]!;
    }),
  );
}
