import { checkColumn, checkSameLength } from "../arguments.js";
import { fUpperTail, normalCritical, tCritical, tTwoSided } from "../distributions.js";
import type { Reason, TestResult } from "../figure.js";
import {
  inverseTriangle,
  type Reflections,
  reflections,
  rotated,
  rotatedBack,
  solveTriangle,
} from "../linear/householder.js";
import { clusterIndex } from "../survival/robust-variance.js";
import { type Covariates, checkCovariates } from "./covariates.js";

export interface LinearColumns {
  readonly response: ArrayLike<number>;
  /** Without the intercept, which is always there. */
  readonly covariates: Covariates;
  /** Whole numbers; needed for clustered variance. */
  readonly clusters?: ArrayLike<number>;
}

export interface LinearOptions {
  /** Default 0.95. */
  readonly level?: number;
  /** Default "clustered" where there are clusters, else "classical". */
  readonly variance?: "classical" | "hc3" | "clustered";
}

/** Arrays are in the order intercept, covariates; null where a term is collinear or a figure has no degrees of freedom. */
export interface LinearFit {
  readonly names: readonly string[];
  readonly coefficients: readonly (number | null)[];
  readonly standardErrors: readonly (number | null)[];
  readonly lower: readonly (number | null)[];
  readonly upper: readonly (number | null)[];
  readonly t: readonly (number | null)[];
  readonly p: readonly (number | null)[];
  readonly reasons: readonly (Reason | null)[];
  readonly covariance: readonly (readonly (number | null)[])[];
  readonly variance: "classical" | "hc3" | "clustered";
  readonly level: number;
  readonly n: number;
  readonly rank: number;
  /** n - rank. */
  readonly residualDf: number;
  /** Of the t statistics: residualDf, or clusters - 1. */
  readonly df: number;
  readonly residuals: readonly number[];
  readonly residualSquares: number;
  readonly regressionSquares: number;
  readonly residualDeviation: number | null;
  readonly rSquared: number | null;
  /** All covariates together, classical; denominator degrees of freedom are residualDf. */
  readonly f: TestResult;
  readonly reason: Reason | null;
}

interface Solved {
  readonly qr: Reflections;
  readonly b: Float64Array;
  readonly residuals: Float64Array;
}

/**
 * Least squares with one step of refinement: the residuals of the first solution are fitted in turn, which recovers digits that an
 * ill-conditioned design loses.
 */
function solve(columns: readonly ArrayLike<number>[], response: ArrayLike<number>): Solved {
  const n = response.length;
  const qr = reflections(columns, n);
  const b = solveTriangle(qr, rotated(qr, response));
  const residuals = new Float64Array(n);
  const update = (): void => {
    for (let row = 0; row < n; row++) {
      let value = response[row] as number;
      qr.kept.forEach((column, k) => {
        value -= (b[k] as number) * (columns[column]?.[row] as number);
      });
      residuals[row] = value;
    }
  };
  update();
  solveTriangle(qr, rotated(qr, residuals)).forEach((step, k) => {
    b[k]! += step;
  });
  update();
  return { qr, b, residuals };
}

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

function checkLinearColumns(columns: LinearColumns): void {
  const response = { name: "response", values: columns.response };
  checkColumn(response, "finite");
  checkCovariates(columns.covariates, response);
  if (columns.clusters === undefined) return;
  checkSameLength({ name: "clusters", values: columns.clusters }, response);
  checkColumn({ name: "clusters", values: columns.clusters }, "code");
}

/**
 * Linear regression by least squares (Householder QR), with an intercept.
 *
 * Variance: classical s^2 (X'X)^-1; hc3 (X'X)^-1 X' diag(e^2 / (1 - h)^2) X (X'X)^-1; clustered: residuals summed within clusters, times
 * G / (G - 1) (n - 1) / (n - rank), with G - 1 degrees of freedom. Intervals and p-values by Student's t.
 *
 * A term that is a combination of those before it has no coefficient (`collinear`); `rank` counts the others. With as many terms as rows
 * the coefficients stand without errors (`too-few-rows`).
 *
 * @throws ArgumentError naming the column and index of a value at fault
 * @source MacKinnon & White 1985, J Econometrics 29:305 (hc3); Liang & Zeger 1986, Biometrika 73:13 (clusters)
 */
export function linearRegression(columns: LinearColumns, options: LinearOptions = {}): LinearFit {
  const { level = 0.95 } = options;
  const variance = options.variance ?? (columns.clusters ? "clustered" : "classical");
  checkLinearColumns(columns);
  normalCritical(level);
  const { response, covariates } = columns;
  const n = response.length;
  const names = ["intercept", ...covariates.names];
  const solved = solve([new Float64Array(n).fill(1), ...covariates.columns], response);
  const { kept } = solved.qr;
  const rank = kept.length;
  const residualSquares = solved.residuals.reduce((sum, e) => sum + e * e, 0);
  const mean = n > 0 ? Array.from(response).reduce((sum, y) => sum + y, 0) / n : 0;
  let regressionSquares = 0;
  for (let row = 0; row < n; row++)
    regressionSquares += ((response[row] as number) - (solved.residuals[row] as number) - mean) ** 2;
  const residualDf = n - rank;
  const residualVariance = residualSquares / residualDf;
  const { middle, df } = middleOf(solved, { variance, columns, residualVariance });
  const hasErrors = residualDf > 0 && df > 0;
  const spread = between(inverseTriangle(solved.qr), middle);

  const place = new Map(kept.map((column, k) => [column, k]));
  const at = <T>(make: (k: number) => T | null): (T | null)[] =>
    names.map((_, column) => {
      const k = place.get(column);
      return k === undefined ? null : make(k);
    });
  const errorOf = (k: number): number | null => (hasErrors ? Math.sqrt(spread[k]?.[k] as number) : null);
  const critical = hasErrors ? tCritical(level, df) : 0;
  const limit = (k: number, side: 1 | -1): number | null => {
    const error = errorOf(k);
    return error === null ? null : (solved.b[k] as number) + side * critical * error;
  };
  const tOf = (k: number): number | null => {
    const error = errorOf(k);
    return error === null || error === 0 ? null : (solved.b[k] as number) / error;
  };
  const total = regressionSquares + residualSquares;
  const modelDf = Math.max(0, rank - 1);
  const ratio =
    residualDf > 0 && modelDf > 0 && residualSquares > 0
      ? regressionSquares / modelDf / residualVariance
      : null;
  const tooFew: Reason = n === 0 ? "no-rows" : "too-few-rows";
  return {
    names,
    coefficients: at((k) => solved.b[k] as number),
    standardErrors: at(errorOf),
    lower: at((k) => limit(k, -1)),
    upper: at((k) => limit(k, 1)),
    t: at(tOf),
    p: at((k) => {
      const t = tOf(k);
      return t === null ? null : tTwoSided(t, df);
    }),
    reasons: names.map((_, column) =>
      n === 0 ? "no-rows" : !place.has(column) ? "collinear" : hasErrors ? null : "too-few-rows",
    ),
    covariance: names.map((_, i) =>
      names.map((_, j) => {
        const a = place.get(i);
        const b = place.get(j);
        return a === undefined || b === undefined || !hasErrors ? null : (spread[a]?.[b] as number);
      }),
    ),
    variance,
    level,
    n,
    rank,
    residualDf,
    df,
    residuals: Array.from(solved.residuals),
    residualSquares,
    regressionSquares,
    residualDeviation: residualDf > 0 ? Math.sqrt(residualVariance) : null,
    rSquared: total > 0 ? regressionSquares / total : null,
    f:
      ratio === null
        ? { statistic: null, df: modelDf, p: null, reason: residualDf > 0 ? "no-variance" : tooFew }
        : {
            statistic: ratio,
            df: modelDf,
            p: fUpperTail(ratio, { numerator: modelDf, denominator: residualDf }),
            reason: null,
          },
    reason: hasErrors ? null : tooFew,
  };
}
