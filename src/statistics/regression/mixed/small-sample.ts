import { eigenSymmetric } from "../../linear/eigen.js";
import { factorSymmetric, invertFactored, quadraticForm } from "../../linear/symmetric.js";
import { quadraticProduct } from "../logistic/products.js";
import type { FoundVariance } from "./find-variance.js";
import { times, type VarianceInformation } from "./information.js";

/** What a hypothesis gives: F on these degrees of freedom. */
export interface FTest {
  readonly f: number;
  readonly denominatorDf: number;
}

/**
 * Covariance of the fixed effects corrected for the estimated variances: C + 2 C (sum over pairs of W_rs (Q_rs - P_r C P_s)) C.
 *
 * @returns null where the variances have no information
 * @source Kenward & Roger 1997, Biometrics 53:983
 */
export function adjustedCovariance(information: VarianceInformation): Float64Array | null {
  const { count, pulls, pairs, covariance, expectedInverse } = information;
  if (expectedInverse === null) return null;
  const p = Math.sqrt(covariance.length);
  const middle = new Float64Array(p * p);
  for (let r = 0; r < count; r++)
    for (let s = 0; s < count; s++) {
      const weight = expectedInverse[r * count + s]!;
      const product = times(times(pulls[r]!, covariance, p), pulls[s]!, p);
      const pair = pairs[r]![s]!;
      for (let k = 0; k < p * p; k++) middle[k]! += weight * (pair[k]! - product[k]!);
    }
  const around = times(times(covariance, middle, p), covariance, p);
  return covariance.map((value, k) => {
    const mirrored = (k % p) * p + Math.floor(k / p);
    return value + around[k]! + around[mirrored]!;
  });
}

const traceOf = (a: Float64Array, b: Float64Array, size: number): number => {
  let sum = 0;
  for (let i = 0; i < size; i++) for (let j = 0; j < size; j++) sum += a[i * size + j]! * b[j * size + i]!;
  return sum;
};

/**
 * F test of linear functions of the fixed effects with scaled F and degrees of freedom that match its first two moments.
 *
 * @param of along: the functions on the basis, independent; values: their estimates
 * @returns null where the moments match no F
 * @source Kenward & Roger 1997, Biometrics 53:983
 */
export function kenwardRoger(
  information: VarianceInformation,
  of: {
    readonly along: readonly Float64Array[];
    readonly values: Float64Array;
    readonly adjusted: Float64Array;
  },
): FTest | null {
  const { count, pulls, covariance, expectedInverse } = information;
  if (expectedInverse === null) return null;
  const p = Math.sqrt(covariance.length);
  const l = of.along.length;
  const inverse = invertFactored(
    factorSymmetric(quadraticProduct(of.along, covariance), { size: l, tolerance: 1e-14 }),
  );
  const moves = pulls.map((pull) =>
    times(inverse, quadraticProduct(of.along, times(times(covariance, pull, p), covariance, p)), l),
  );
  const unit = Float64Array.from({ length: l * l }, (_, k) => (k % (l + 1) === 0 ? 1 : 0));
  let a1 = 0;
  let a2 = 0;
  for (let r = 0; r < count; r++)
    for (let s = 0; s < count; s++) {
      const weight = expectedInverse[r * count + s]!;
      const [one, other] = [moves[r]!, moves[s]!];
      a1 += weight * traceOf(one, unit, l) * traceOf(other, unit, l);
      a2 += weight * traceOf(one, other, l);
    }
  const b = (a1 + 6 * a2) / (2 * l);
  const g = ((l + 1) * a1 - (l + 4) * a2) / ((l + 2) * a2);
  const below = 3 * l + 2 * (1 - g);
  const above = (1 + (g / below) * b) / (1 - ((l + 2 - g) / below) * b);
  const ratio = (1 - a2 / l) / (1 - ((l - g) / below) * b);
  // with one function the moments give 2 / a2 exactly, and the factors below cancel
  const df = l === 1 ? 2 / a2 : 4 + (l + 2) / (ratio * ratio * above - 1);
  if (!(df > 0) || !Number.isFinite(df)) return null;
  const scale = l === 1 || Math.abs(df - 2) < 1e-2 ? 1 : (df * (1 - a2 / l)) / (df - 2);
  const factor = factorSymmetric(quadraticProduct(of.along, of.adjusted), { size: l, tolerance: 1e-14 });
  return { f: (scale * quadraticForm(factor, of.values)) / l, denominatorDf: df };
}

/** Derivatives of the entries (1,1), (1,2), (2,2) of L by those of its root, rows by entry of the root. */
function rootMoves(root: Float64Array): number[][] {
  const [a, b, d] = [root[0]!, root[1] ?? 0, root[2] ?? 0];
  if (root.length === 1) return [[2 * a]];
  return [
    [2 * a, b, 0],
    [0, a, 2 * b],
    [0, 0, 2 * d],
  ];
}

/**
 * Inverse of the second derivatives of minus twice the log-likelihood, by all variances together and the entries of the root of L. On the root a
 * variance of 0 is an ordinary point, at which the fixed effects' covariance does not move with it.
 */
function observedOnRoot(
  information: VarianceInformation,
  variance: FoundVariance,
): { readonly inverse: Float64Array; readonly moves: readonly (readonly number[])[] } {
  const { count, observed } = information;
  const own = rootMoves(variance.root);
  const moves = [[1, ...own.map(() => 0)], ...own.map((row) => [0, ...row])];
  const second = new Float64Array(count * count);
  for (let i = 0; i < count; i++)
    for (let j = 0; j < count; j++)
      for (let r = 0; r < count; r++)
        for (let s = 0; s < count; s++)
          second[i * count + j]! += moves[i]![r]! * observed[r * count + s]! * moves[j]![s]!;
  const { slope } = variance.at;
  if (count === 2) second[3]! += 2 * slope[0]!;
  else {
    second[count + 1]! += 2 * slope[0]!;
    second[count + 2]! += 2 * slope[1]!;
    second[2 * count + 1]! += 2 * slope[1]!;
    second[2 * count + 2]! += 2 * slope[3]!;
    second[3 * count + 3]! += 2 * slope[3]!;
  }
  return { inverse: invertFactored(factorSymmetric(second, { size: count, tolerance: 1e-10 })), moves };
}

/** Degrees of freedom of one function: 2 v^2 / Var v, v being its variance. */
function dfOf(
  information: VarianceInformation,
  of: { readonly along: Float64Array; readonly observed: ReturnType<typeof observedOnRoot> },
): number {
  const { count, pulls, covariance } = information;
  const { inverse, moves } = of.observed;
  const p = Math.sqrt(covariance.length);
  const moved = Float64Array.from({ length: p }, (_, i) =>
    of.along.reduce((sum, x, j) => sum + covariance[i * p + j]! * x, 0),
  );
  const byDirection = pulls.map((pull) => quadraticProduct([moved], pull)[0]!);
  const gradient = moves.map((row) => row.reduce((sum, x, r) => sum + x * byDirection[r]!, 0));
  const variance = quadraticProduct([of.along], covariance)[0]!;
  let spread = 0;
  for (let i = 0; i < count; i++)
    for (let j = 0; j < count; j++) spread += gradient[i]! * inverse[i * count + j]! * gradient[j]!;
  return (variance * variance) / spread;
}

/**
 * F test of linear functions of the fixed effects: the functions are turned until they are independent, each gets degrees of freedom from the
 * variance of its variance, and the sum of their squares those that match its mean.
 *
 * @source Giesbrecht & Burns 1985, Biometrics 41:477; Fai & Cornelius 1996, J Stat Comput Simul 54:363
 */
export function satterthwaite(
  information: VarianceInformation,
  of: {
    readonly along: readonly Float64Array[];
    readonly values: Float64Array;
    readonly found: FoundVariance;
  },
): FTest | null {
  const { along, values } = of;
  const l = along.length;
  const observed = observedOnRoot(information, of.found);
  const spread = quadraticProduct(along, information.covariance);
  if (l === 1) {
    const df = dfOf(information, { along: along[0]!, observed });
    return df > 0 ? { f: values[0]! ** 2 / spread[0]!, denominatorDf: df } : null;
  }
  const { values: variances, vectors } = eigenSymmetric(spread, l);
  let squares = 0;
  let excess = 0;
  for (let m = 0; m < l; m++) {
    const turned = new Float64Array(along[0]?.length ?? 0);
    let value = 0;
    vectors[m]?.forEach((weight, k) => {
      value += weight * values[k]!;
      along[k]?.forEach((x, i) => {
        turned[i]! += weight * x;
      });
    });
    squares += (value * value) / variances[m]!;
    const df = dfOf(information, { along: turned, observed });
    if (df > 2) excess += df / (df - 2);
  }
  return excess > l ? { f: squares / l, denominatorDf: (2 * excess) / (excess - l) } : null;
}
