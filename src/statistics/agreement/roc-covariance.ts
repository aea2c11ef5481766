import type { Placements } from "./roc-placements.js";

/** Place of each row's cluster, and how many there are. */
interface ClusterRows {
  readonly of: Int32Array;
  readonly count: number;
}

/**
 * Covariance of two areas over the same rows; of an area with itself its variance. Null where a state has one row, or one cluster.
 *
 * @source DeLong, DeLong & Clarke-Pearson 1988, Biometrics 44:837; with clusters Obuchowski 1997, Biometrics 53:567
 */
export function areaCovariance(
  pair: readonly [Placements, Placements],
  clusters: ClusterRows | null,
): number | null {
  const [one, two] = pair;
  const { affected: m, healthy: n } = one;
  if (clusters === null) {
    if (m < 2 || n < 2) return null;
    const products = (a: Float64Array, b: Float64Array): number =>
      a.reduce((sum, value, at) => sum + (value - one.area) * (b[at]! - two.area), 0);
    return (
      products(one.ofAffected, two.ofAffected) / (m - 1) / m +
      products(one.ofHealthy, two.ofHealthy) / (n - 1) / n
    );
  }
  const first = clusterSums(one, clusters);
  const second = one === two ? first : clusterSums(two, clusters);
  if (first.affectedClusters < 2 || first.healthyClusters < 2) return null;
  const { affectedClusters, healthyClusters } = first;
  let affected = 0;
  let healthy = 0;
  let crossed = 0;
  for (let c = 0; c < clusters.count; c++) {
    const [a1, h1] = [first.affected[c]!, first.healthy[c]!];
    const [a2, h2] = [second.affected[c]!, second.healthy[c]!];
    affected += a1 * a2;
    healthy += h1 * h2;
    crossed += a1 * h2 + a2 * h1;
  }
  return (
    (affectedClusters / (affectedClusters - 1) / m / m) * affected +
    (healthyClusters / (healthyClusters - 1) / n / n) * healthy +
    (clusters.count / (clusters.count - 1) / m / n) * crossed
  );
}

/** Placement less area, summed over the rows of each cluster. */
function clusterSums({ area, ...of }: Placements, clusters: ClusterRows) {
  const sum = (values: Float64Array, rows: Int32Array) => {
    const sums = new Float64Array(clusters.count);
    const seen = new Uint8Array(clusters.count);
    values.forEach((value, i) => {
      const cluster = clusters.of[rows[i]!]!;
      sums[cluster]! += value - area;
      seen[cluster] = 1;
    });
    return { sums, number: seen.reduce((count, one) => count + one, 0) };
  };
  const affected = sum(of.ofAffected, of.affectedRows);
  const healthy = sum(of.ofHealthy, of.healthyRows);
  return {
    affected: affected.sums,
    healthy: healthy.sums,
    affectedClusters: affected.number,
    healthyClusters: healthy.number,
  };
}
