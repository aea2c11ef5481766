import { inverseTriangle, type Reflections, rotatedBack } from "../linear/householder.js";
import { clusterIndex } from "../survival/robust-variance.js";
import type { Solved } from "./least-squares.js";
import type { LinearColumns, LinearFit } from "./linear-types.js";

/** Diagonal of the hat matrix: squared length of each row of Q. */
function leverages(qr: Reflections): Float64Array {
  const result = new Float64Array(qr.rows);
  qr.kept.forEach((_, k) => {
    const unit = new Float64Array(qr.rows);
    unit[k] = 1;
    rotatedBack(qr, unit).forEach((value, row) => {
      result[row]! += value * value;
    });
  });
  return result;
}

/** Sum over groups of rows of (X'e)(X'e)', on the scale of Q. */
function meat(
  solved: Solved,
  group: { readonly of: Int32Array; readonly count: number; readonly scale: (row: number) => number },
): Float64Array[] {
  const { qr, residuals } = solved;
  const size = qr.kept.length;
  const basis = qr.kept.map((_, k) => {
    const unit = new Float64Array(qr.rows);
    unit[k] = 1;
    return rotatedBack(qr, unit);
  });
  const sums = Array.from({ length: group.count }, () => new Float64Array(size));
  for (let row = 0; row < qr.rows; row++) {
    const sum = sums[group.of[row] as number] as Float64Array;
    const e = (residuals[row] as number) * group.scale(row);
    for (let k = 0; k < size; k++) sum[k]! += e * (basis[k]?.[row] as number);
  }
  const result = Array.from({ length: size }, () => new Float64Array(size));
  for (const sum of sums)
    for (let j = 0; j < size; j++)
      for (let k = 0; k < size; k++) result[j]![k]! += (sum[j] as number) * (sum[k] as number);
  return result;
}

/** R^-1 M R^-T. */
function between(inverse: readonly Float64Array[], middle: readonly Float64Array[]): number[][] {
  const size = inverse.length;
  const half = Array.from({ length: size }, (_, i) =>
    Array.from({ length: size }, (_, j) => {
      let sum = 0;
      for (let k = i; k < size; k++) sum += (inverse[k]?.[i] as number) * (middle[k]?.[j] as number);
      return sum;
    }),
  );
  return half.map((row) =>
    Array.from({ length: size }, (_, j) => {
      let sum = 0;
      for (let k = j; k < size; k++) sum += (row[k] as number) * (inverse[k]?.[j] as number);
      return sum;
    }),
  );
}

const identityTimes = (value: number, size: number): Float64Array[] =>
  Array.from({ length: size }, (_, j) => {
    const row = new Float64Array(size);
    row[j] = value;
    return row;
  });

function middleOf(
  solved: Solved,
  kind: {
    readonly variance: LinearFit["variance"];
    readonly columns: LinearColumns;
    readonly residualVariance: number;
  },
): { middle: Float64Array[]; df: number } {
  const size = solved.qr.kept.length;
  const n = solved.qr.rows;
  if (kind.variance === "classical")
    return { middle: identityTimes(kind.residualVariance, size), df: n - size };
  if (kind.variance === "hc3") {
    const h = leverages(solved.qr);
    const each = { of: Int32Array.from({ length: n }, (_, row) => row), count: n };
    return { middle: meat(solved, { ...each, scale: (row) => 1 / (1 - (h[row] as number)) }), df: n - size };
  }
  const cluster = clusterIndex({
    times: kind.columns.response,
    ...(kind.columns.clusters && { clusters: kind.columns.clusters }),
  });
  const correction = Math.sqrt((cluster.count / (cluster.count - 1)) * ((n - 1) / (n - size)));
  return { middle: meat(solved, { ...cluster, scale: () => correction }), df: cluster.count - 1 };
}

/** Covariance of the coefficients kept, and the degrees of freedom of their t statistics. */
export function covarianceOf(
  solved: Solved,
  kind: {
    readonly variance: LinearFit["variance"];
    readonly columns: LinearColumns;
    readonly residualVariance: number;
  },
): { covariance: number[][]; df: number } {
  const { middle, df } = middleOf(solved, kind);
  return { covariance: between(inverseTriangle(solved.qr), middle), df };
}
