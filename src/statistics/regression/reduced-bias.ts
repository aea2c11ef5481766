import { eigenSymmetric } from "../linear/eigen.js";
import { rotatedBack } from "../linear/householder.js";
import type { Solved } from "./least-squares.js";

/** Rows by cluster, clusters numbered from 0. */
interface ClusterRows {
  readonly of: Int32Array;
  readonly count: number;
}

/** What one cluster's rows weigh in the fit: directions of the scale of Q, and the cluster's leverage along each. */
interface ClusterLeverage {
  readonly leverage: readonly number[];
  readonly directions: readonly Float64Array[];
  /** Q_g'e_g. */
  readonly residual: Float64Array;
}

/** 1 less a leverage, below which the cluster alone decides: its residuals say nothing there. */
const alone = 1e-10;

const dot = (a: ArrayLike<number>, b: ArrayLike<number>): number => {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += a[k]! * b[k]!;
  return sum;
};

function leveragesOf({ qr, residuals }: Solved, cluster: ClusterRows): ClusterLeverage[] {
  const size = qr.kept.length;
  const basis = qr.kept.map((_, k) => {
    const unit = new Float64Array(qr.rows);
    unit[k] = 1;
    return rotatedBack(qr, unit);
  });
  const products = Array.from({ length: cluster.count }, () => new Float64Array(size * size));
  const residual = Array.from({ length: cluster.count }, () => new Float64Array(size));
  for (let row = 0; row < qr.rows; row++) {
    const own = cluster.of[row]!;
    for (let j = 0; j < size; j++) {
      const q = basis[j]![row]!;
      residual[own]![j]! += q * residuals[row]!;
      for (let k = 0; k < size; k++) products[own]![j * size + k]! += q * basis[k]![row]!;
    }
  }
  return products.map((matrix, g) => {
    const { values, vectors } = eigenSymmetric(matrix, size);
    return {
      leverage: values.map((value) => Math.min(1, Math.max(0, value))),
      directions: vectors,
      residual: residual[g] as Float64Array,
    };
  });
}

/** V f(leverage) V' x; directions in which the cluster stands alone are left out. */
function along(
  { leverage, directions }: ClusterLeverage,
  x: Float64Array,
  f: (leverage: number) => number,
): Float64Array {
  const result = new Float64Array(x.length);
  directions.forEach((direction, i) => {
    const h = leverage[i]!;
    if (1 - h < alone) return;
    const part = f(h) * dot(direction, x);
    for (let k = 0; k < x.length; k++) result[k]! += part * direction[k]!;
  });
  return result;
}

/** (sum of p_g'p_g)^2 over the sum of (p_g'p_h)^2, where p_g'p_h = [g = h] a_g - u_g'u_h. */
function satterthwaite(clusters: readonly ClusterLeverage[], x: Float64Array): number {
  const size = x.length;
  const products = new Float64Array(size * size);
  let trace = 0;
  let squares = 0;
  for (const cluster of clusters) {
    const own = dot(
      x,
      along(cluster, x, (h) => h / (1 - h)),
    );
    const u = along(cluster, x, (h) => h / Math.sqrt(1 - h));
    const length = dot(u, u);
    trace += own - length;
    squares += own * own - 2 * own * length;
    for (let j = 0; j < size; j++) for (let k = 0; k < size; k++) products[j * size + k]! += u[j]! * u[k]!;
  }
  squares += dot(products, products);
  return squares > 0 ? (trace * trace) / squares : 0;
}

/**
 * Bias-reduced linearisation: the middle of the sandwich on the scale of Q, each cluster's residuals multiplied by (I - H_gg)^(-1/2), and the
 * degrees of freedom of each coefficient's t after Satterthwaite, both as if rows were independent with equal variance.
 *
 * With leverages l and directions v of a cluster from Q_g'Q_g = sum of l v v', its adjusted residual is sum of (1 - l)^(-1/2) v v'Q_g'e_g: no
 * matrix of the size of a cluster is formed, and work is linear in rows.
 *
 * @param inverse R^-1 of the fit, by rows
 * @source Bell & McCaffrey 2002, Survey Methodology 28:169; Pustejovsky & Tipton 2018, J Bus Econ Stat 36:672
 */
export function reducedBias(
  solved: Solved,
  { cluster, inverse }: { readonly cluster: ClusterRows; readonly inverse: readonly Float64Array[] },
): { readonly middle: Float64Array[]; readonly df: readonly number[] } {
  const size = solved.qr.kept.length;
  const clusters = leveragesOf(solved, cluster);
  const middle = Array.from({ length: size }, () => new Float64Array(size));
  for (const one of clusters) {
    const adjusted = along(one, one.residual, (h) => 1 / Math.sqrt(1 - h));
    for (let j = 0; j < size; j++)
      for (let k = 0; k < size; k++) middle[j]![k]! += adjusted[j]! * adjusted[k]!;
  }
  return {
    middle,
    df: inverse.map((row) => satterthwaite(clusters, Float64Array.from(row))),
  };
}
