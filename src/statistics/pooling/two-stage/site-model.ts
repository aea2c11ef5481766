import { type OrthonormalBasis, orthonormalBasis } from "../../linear/orthonormal-basis.js";
import { factorSymmetric, invertFactored, logDeterminant } from "../../linear/symmetric.js";

/**
 * Estimates of sites about a regression line, or about one mean: y = X b + u + e, u of variance tau^2 between sites, e of the known
 * variances v within them. All that the estimators of tau^2 need, at any value of it.
 */
export interface SiteModel {
  /** Less `centre`. */
  readonly y: Float64Array;
  readonly v: Float64Array;
  readonly centre: number;
  readonly basis: OrthonormalBasis;
}

/** The weighted fit at a value of tau^2. P = W - W X (X'W X)^-1 X'W with W = 1 / (v + tau^2). */
export interface SiteFit {
  readonly tauSquared: number;
  readonly weights: Float64Array;
  /** Of the basis' columns. */
  readonly coefficients: Float64Array;
  /** (X'W X)^-1 on the basis, flat by rows. */
  readonly covariance: Float64Array;
  /** y'P y: weighted squares about the line. */
  readonly squares: number;
  /** y'P P y. */
  readonly twice: number;
  /** Sum of the weights: the trace of W. */
  readonly total: number;
  /** Trace of P. */
  readonly trace: number;
  readonly logLikelihood: { readonly full: number; readonly restricted: number };
}

/** Of equal values that value to the last digit: a mean's rounding would be taken for a spread. */
function middleOf(values: Float64Array): number {
  const [first = 0] = values;
  if (values.every((value) => value === first)) return first;
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

const interceptOnly = (rows: number): OrthonormalBasis => ({
  rows,
  size: 1,
  kept: [0],
  values: new Float64Array(rows).fill(1),
  inverse: Float64Array.of(1),
  logDeterminant: 0,
});

/** @param columns covariates beside the intercept, each as long as y */
export function siteModel(
  sites: { readonly y: Float64Array; readonly v: Float64Array },
  columns: readonly ArrayLike<number>[] = [],
): SiteModel {
  const { y, v } = sites;
  const rows = y.length;
  const centre = middleOf(y);
  const basis =
    columns.length === 0
      ? interceptOnly(rows)
      : orthonormalBasis([new Float64Array(rows).fill(1), ...columns], rows);
  return { y: y.map((value) => value - centre), v, centre, basis };
}

/** Sites beyond the number of coefficients: degrees of freedom of the spread. */
export const residualDf = ({ y, basis }: SiteModel): number => y.length - basis.size;

/** X'W^power X on the basis, flat by rows. */
function crossProducts(
  { basis: { rows, size, values } }: SiteModel,
  weightOf: (site: number) => number,
): Float64Array {
  const sums = new Float64Array(size * size);
  for (let site = 0; site < rows; site++) {
    const weight = weightOf(site);
    for (let i = 0; i < size; i++)
      for (let j = 0; j < size; j++)
        sums[i * size + j]! += weight * values[site * size + i]! * values[site * size + j]!;
  }
  return sums;
}

function weightedCoefficients(
  { y, basis: { rows, size, values } }: SiteModel,
  { weights, covariance }: { readonly weights: Float64Array; readonly covariance: Float64Array },
): Float64Array {
  const right = new Float64Array(size);
  for (let site = 0; site < rows; site++)
    for (let i = 0; i < size; i++) right[i]! += weights[site]! * values[site * size + i]! * y[site]!;
  return right.map((_, i) => {
    let sum = 0;
    for (let j = 0; j < size; j++) sum += covariance[i * size + j]! * right[j]!;
    return sum;
  });
}

const traceOfProduct = (a: Float64Array, b: Float64Array): number =>
  a.reduce((sum, value, at) => sum + value * b[at]!, 0);

/** @param tauSquared 0 or more */
export function fitAt(model: SiteModel, tauSquared: number): SiteFit {
  const { y, v, basis } = model;
  const { rows, size, values } = basis;
  const weights = v.map((variance) => 1 / (variance + tauSquared));
  const information = factorSymmetric(
    crossProducts(model, (site) => weights[site]!),
    { size, tolerance: 0 },
  );
  const covariance = invertFactored(information);
  const coefficients = weightedCoefficients(model, { weights, covariance });
  let [squares, twice, total, logWeights] = [0, 0, 0, 0];
  for (let site = 0; site < rows; site++) {
    let residual = y[site]!;
    for (let i = 0; i < size; i++) residual -= values[site * size + i]! * coefficients[i]!;
    const weighted = weights[site]! * residual;
    squares += weighted * residual;
    twice += weighted * weighted;
    total += weights[site]!;
    logWeights += Math.log(weights[site]!);
  }
  const leverage = traceOfProduct(
    covariance,
    crossProducts(model, (site) => weights[site]! ** 2),
  );
  const common = (logWeights - squares) / 2;
  return {
    tauSquared,
    weights,
    coefficients,
    covariance,
    squares,
    twice,
    total,
    trace: total - leverage,
    logLikelihood: {
      full: common - (rows / 2) * Math.log(2 * Math.PI),
      restricted:
        common -
        ((rows - size) / 2) * Math.log(2 * Math.PI) +
        (size * Math.log(rows) - logDeterminant(information)) / 2,
    },
  };
}
