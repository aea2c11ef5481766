import { factorSymmetric, invertFactored, logDeterminant } from "../../linear/symmetric.js";
import type { Evaluation, Objective } from "./objective.js";
import { weightedProducts } from "./products.js";

/** Rows of a logistic regression on the columns of a basis. */
export interface LogisticRows {
  readonly n: number;
  readonly size: number;
  /** Flat by rows. */
  readonly x: Float64Array;
  /** 0 or 1. */
  readonly y: Uint8Array;
  readonly weights: Float64Array;
}

/** Linear predictor of a row. */
export function predictorOf({ x, size }: LogisticRows, at: { row: number; beta: Float64Array }): number {
  let eta = 0;
  for (let j = 0; j < size; j++) eta += x[at.row * size + j]! * at.beta[j]!;
  return eta;
}

/** Passes over rows hold their sums in local arrays and make none a row. */
function scorePass(
  rows: LogisticRows,
  at: { readonly beta: Float64Array; readonly variances: Float64Array },
): Pick<Evaluation, "value" | "gradient" | "farthest"> {
  const { n, size, x, y, weights } = rows;
  const { beta, variances } = at;
  const gradient = new Float64Array(size);
  let value = 0;
  let farthest = 0;
  for (let row = 0; row < n; row++) {
    const from = row * size;
    let eta = 0;
    for (let j = 0; j < size; j++) eta += x[from + j]! * beta[j]!;
    const distance = Math.abs(eta);
    if (distance > farthest) farthest = distance;
    const towards = y[row] === 1 ? eta : -eta;
    const small = Math.exp(-distance);
    const weight = weights[row]!;
    const missed = towards >= 0 ? small / (1 + small) : 1 / (1 + small);
    value += weight * (Math.min(towards, 0) - Math.log1p(small));
    const residual = weight * (y[row] === 1 ? missed : -missed);
    for (let j = 0; j < size; j++) gradient[j]! += residual * x[from + j]!;
    variances[row] = (weight * small) / (1 + small) / (1 + small);
  }
  return { value, gradient, farthest };
}

/**
 * sum of w log P(y), its score sum of w (y - p) x and information sum of w p (1 - p) x x'. The probability of the outcome that did not
 * happen, 1 / (1 + exp(t)) with t the predictor in the direction of the outcome seen, is computed directly, so that it keeps its digits
 * however small it is.
 */
export function logLikelihood(rows: LogisticRows): Objective {
  const { n, size, x } = rows;
  const variances = new Float64Array(n);
  const evaluate = (beta: Float64Array): Evaluation => {
    const scored = scorePass(rows, { beta, variances });
    return { ...scored, information: weightedProducts({ x, rows: n, size }, variances) };
  };
  return { size, evaluate };
}

/** Adds sum of h (1/2 - p) x, with h = w p (1 - p) x' I^-1 x; leaves (w + h) p (1 - p) of each row. */
function addPull(
  rows: LogisticRows,
  at: {
    readonly beta: Float64Array;
    readonly inverse: Float64Array;
    readonly gradient: Float64Array;
    readonly factors: Float64Array;
  },
): void {
  const { n, size, x, weights } = rows;
  const { beta, inverse, gradient, factors } = at;
  for (let row = 0; row < n; row++) {
    const from = row * size;
    let eta = 0;
    let form = 0;
    for (let i = 0; i < size; i++) {
      const own = x[from + i]!;
      eta += own * beta[i]!;
      let moved = 0;
      for (let j = 0; j < i; j++) moved += inverse[i * size + j]! * x[from + j]!;
      form += own * (2 * moved + inverse[i * size + i]! * own);
    }
    const small = Math.exp(-Math.abs(eta));
    const variance = small / (1 + small) / (1 + small);
    const fromHalf = (eta >= 0 ? -0.5 : 0.5) * ((1 - small) / (1 + small));
    const leverage = weights[row]! * variance * form;
    const pull = leverage * fromHalf;
    factors[row] = (weights[row]! + leverage) * variance;
    for (let j = 0; j < size; j++) gradient[j]! += pull * x[from + j]!;
  }
}

/**
 * The log-likelihood plus half the log determinant of the information, whose score is sum of (w (y - p) + h (1/2 - p)) x with h the
 * diagonal of the weighted hat matrix. The information is the ordinary one, whose inverse is the covariance; steps divide by the sum of
 * (w + h) p (1 - p) x x', as the penalty acts like h further rows, half with and half without the outcome.
 *
 * @source Firth 1993, Biometrika 80:27; Heinze & Schemper 2002, Stat Med 21:2409
 */
export function penalisedLogLikelihood(rows: LogisticRows): Objective {
  const { n, size, x } = rows;
  const ordinary = logLikelihood(rows);
  const factors = new Float64Array(n);
  const evaluate = (beta: Float64Array): Evaluation => {
    const plain = ordinary.evaluate(beta);
    const factor = factorSymmetric(plain.information, { size, tolerance: 1e-15 });
    if (factor.kept.length < size) return { ...plain, value: Number.NEGATIVE_INFINITY };
    addPull(rows, { beta, inverse: invertFactored(factor), gradient: plain.gradient, factors });
    const curvature = weightedProducts({ x, rows: n, size }, factors);
    return { ...plain, curvature, value: plain.value + logDeterminant(factor) / 2 };
  };
  return { size, evaluate };
}
