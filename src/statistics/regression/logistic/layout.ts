import { functionalOf, type OrthonormalBasis, orthonormalBasis } from "../../linear/orthonormal-basis.js";
import { ArgumentError, checkColumn, checkSameLength } from "../../shared/arguments.js";
import { type Covariates, checkCovariates } from "../../shared/covariates.js";

export interface RegressionRows {
  readonly covariates: Covariates;
  readonly weights?: ArrayLike<number>;
  readonly clusters?: ArrayLike<number>;
}

/** @throws ArgumentError naming the column and index at fault */
export function checkRegressionRows(
  columns: RegressionRows,
  response: { readonly name: string; readonly values: ArrayLike<number> },
): void {
  checkCovariates(columns.covariates, response);
  if (columns.weights !== undefined) {
    checkSameLength({ name: "weights", values: columns.weights }, response);
    checkColumn({ name: "weights", values: columns.weights }, "not negative");
  }
  if (columns.clusters !== undefined) {
    checkSameLength({ name: "clusters", values: columns.clusters }, response);
    checkColumn({ name: "clusters", values: columns.clusters }, "code");
  }
}

/** @throws ArgumentError where profile intervals are asked for rows that have no joint likelihood */
export function refuseProfileOfClusters(columns: RegressionRows, interval: "wald" | "profile"): void {
  if (interval === "profile" && columns.clusters)
    throw new ArgumentError({
      argument: "interval",
      index: null,
      expected: '"wald" where there are clusters: rows of one cluster have no joint likelihood',
      found: interval,
    });
}

/** Rows with weight above 0 and their design as an orthonormal basis, intercept first. */
export interface Layout {
  /** Where each row stands in the caller's columns. */
  readonly rows: Int32Array;
  readonly weights: Float64Array;
  readonly basis: OrthonormalBasis;
  /** For each name, intercept first, its coefficient as a linear function on the basis; null for a collinear one. */
  readonly functionals: readonly (Float64Array | null)[];
}

export function layOut(columns: RegressionRows, total: number): Layout {
  const { covariates, weights } = columns;
  const rows = Int32Array.from({ length: total }, (_, row) => row).filter((row) => weights?.[row] !== 0);
  const own = (values: ArrayLike<number>): Float64Array => Float64Array.from(rows, (row) => values[row]!);
  const basis = orthonormalBasis(
    [new Float64Array(rows.length).fill(1), ...covariates.columns.map(own)],
    rows.length,
  );
  const place = new Map(basis.kept.map((column, k) => [column, k]));
  const functionals = [null, ...covariates.names].map((_, column) => {
    const k = place.get(column);
    return k === undefined ? null : functionalOf(basis, k);
  });
  return { rows, weights: own(weights ?? new Float64Array(total).fill(1)), basis, functionals };
}
