import { inverseTriangle, type Reflections, rotatedBack } from "../linear/householder.js";
import { clusterIndex } from "../shared/clusters.js";
import type { Solved } from "./least-squares.js";
import type { LinearColumns, LinearFit } from "./linear-types.js";
import { reducedBias } from "./reduced-bias.js";

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

/** A leverage of 1 but for rounding. */
const isAlone = (leverage: number): boolean => leverage > 1 - 1e-10;

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
    const sum = sums[group.of[row]!] as Float64Array;
    const e = residuals[row]! * group.scale(row);
    for (let k = 0; k < size; k++) sum[k]! += e * basis[k]![row]!;
  }
  const result = Array.from({ length: size }, () => new Float64Array(size));
  for (const sum of sums)
    for (let j = 0; j < size; j++) for (let k = 0; k < size; k++) result[j]![k]! += sum[j]! * sum[k]!;
  return result;
}

/** R^-1 M R^-T. */
function between(inverse: readonly Float64Array[], middle: readonly Float64Array[]): number[][] {
  const size = inverse.length;
  const half = Array.from({ length: size }, (_, i) =>
    Array.from({ length: size }, (_, j) => {
      let sum = 0;
      for (let k = i; k < size; k++) sum += inverse[k]![i]! * middle[k]![j]!;
      return sum;
    }),
  );
  return half.map((row) =>
    Array.from({ length: size }, (_, j) => {
      let sum = 0;
      for (let k = j; k < size; k++) sum += row[k]! * inverse[k]![j]!;
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

interface Kind {
  readonly variance: LinearFit["variance"];
  readonly columns: LinearColumns;
  readonly residualVariance: number;
}

/** The middle of the covariance, and degrees of freedom: of tests of several coefficients, and of each coefficient. */
interface Middle {
  readonly middle: Float64Array[];
  readonly df: number;
  readonly termDf: readonly number[];
}

function middleOf(solved: Solved, kind: Kind, inverse: readonly Float64Array[]): Middle {
  const size = solved.qr.kept.length;
  const n = solved.qr.rows;
  if (kind.variance === "classical")
    return { middle: identityTimes(kind.residualVariance, size), ...sameFor(size, n - size) };
  if (kind.variance === "hc3") {
    const h = leverages(solved.qr);
    const each = { of: Int32Array.from({ length: n }, (_, row) => row), count: n };
    const middle = meat(solved, { ...each, scale: (row) => 1 / (1 - h[row]!) });
    // a row that alone tells of a coefficient has the residual 0 whatever its error: nothing is known of that error
    return { middle, ...sameFor(size, h.some(isAlone) ? 0 : n - size) };
  }
  const cluster = clusterIndex({
    times: kind.columns.response,
    ...(kind.columns.clusters && { clusters: kind.columns.clusters }),
  });
  if (kind.variance === "reduced-bias") {
    const rows = inverse.map((_, i) => Float64Array.from(inverse, (column) => column[i]!));
    const { middle, df: termDf } = reducedBias(solved, { cluster, inverse: rows });
    return { middle, df: cluster.count - 1, termDf };
  }
  const correction = Math.sqrt((cluster.count / (cluster.count - 1)) * ((n - 1) / (n - size)));
  return {
    middle: meat(solved, { ...cluster, scale: () => correction }),
    ...sameFor(size, cluster.count - 1),
  };
}

const sameFor = (size: number, df: number): Pick<Middle, "df" | "termDf"> => ({
  df,
  termDf: new Array<number>(size).fill(df),
});

/** Covariance of the coefficients kept, and the degrees of freedom of their tests. */
export function covarianceOf(
  solved: Solved,
  kind: Kind,
): { readonly covariance: number[][]; readonly df: number; readonly termDf: readonly number[] } {
  const inverse = inverseTriangle(solved.qr);
  const { middle, df, termDf } = middleOf(solved, kind, inverse);
  return { covariance: between(inverse, middle), df, termDf };
}
