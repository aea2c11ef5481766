import { factorSymmetric, invertFactored } from "../../linear/symmetric.js";
import type { Deviance, Method } from "./criterion.js";
import type { FoundVariance } from "./find-variance.js";
import type { GroupSums } from "./group-sums.js";

/**
 * What small-sample corrections need, in the directions of V: first V itself (all variances together), then those of the entries of L times
 * the residual variance: (1,1), and with a slope (1,2) and (2,2). The covariance of the fixed effects moves with each.
 */
export interface VarianceInformation {
  readonly count: number;
  /** X' V^-1 V_r V^-1 X, flat, by direction. */
  readonly pulls: readonly Float64Array[];
  /** X' V^-1 V_r V^-1 V_s V^-1 X, symmetric part, flat, by pair. */
  readonly pairs: readonly (readonly Float64Array[])[];
  /** (X' V^-1 X)^-1, flat. */
  readonly covariance: Float64Array;
  /** Inverse of the expected information of the restricted likelihood; null where it has none. */
  readonly expectedInverse: Float64Array | null;
  /** Second derivatives of minus twice the log-likelihood at the data. */
  readonly observed: Float64Array;
}

/** Directions in which L can move, as symmetric matrices. */
export const directionsOf = (q: 1 | 2): readonly Float64Array[] =>
  q === 1
    ? [Float64Array.of(1)]
    : [Float64Array.of(1, 0, 0, 0), Float64Array.of(0, 1, 1, 0), Float64Array.of(0, 0, 0, 1)];

const traceOfProduct = (a: Float64Array, b: Float64Array, size: number): number => {
  let sum = 0;
  for (let i = 0; i < size; i++) for (let j = 0; j < size; j++) sum += a[i * size + j]! * b[j * size + i]!;
  return sum;
};

/** A B, flat and square. */
export function times(a: Float64Array, b: Float64Array, size: number): Float64Array {
  const result = new Float64Array(size * size);
  for (let i = 0; i < size; i++)
    for (let k = 0; k < size; k++) {
      const factor = a[i * size + k]!;
      for (let j = 0; j < size; j++) result[i * size + j]! += factor * b[k * size + j]!;
    }
  return result;
}

/** Sums over groups of H' M H for a q x q matrix M of each group, H being Z'WX. */
function sumOver(
  sums: GroupSums,
  at: { readonly zwx: Float64Array; readonly middle: (group: number) => Float64Array },
): Float64Array {
  const { q, p, units } = sums;
  const result = new Float64Array(p * p);
  for (let g = 0; g < units; g++) {
    const middle = at.middle(g);
    for (let a = 0; a < q; a++)
      for (let b = 0; b < q; b++) {
        const factor = middle[a * q + b]!;
        if (factor === 0) continue;
        for (let i = 0; i < p; i++) {
          const scaled = factor * at.zwx[(g * q + a) * p + i]!;
          for (let j = 0; j < p; j++) result[i * p + j]! += scaled * at.zwx[(g * q + b) * p + j]!;
        }
      }
  }
  return result;
}

interface Traces {
  /** tr V^-1 V_r V^-1 V_s. */
  readonly plain: Float64Array;
  /** y'P V_r P V_s P y. */
  readonly data: Float64Array;
}

/** Traces and quadratic forms of the data by pair of directions, the first being V itself. */
function tracesOf(sums: GroupSums, at: Deviance): Traces {
  const { q, p, n, units, multiplicity } = sums;
  const { zwz, zwx, zwe, inverse, squares } = at.blocks;
  const directions = directionsOf(q);
  const count = directions.length + 1;
  const plain = new Float64Array(count * count);
  const data = new Float64Array(count * count);
  plain[0] = n;
  data[0] = squares / at.variance;
  const along = directions.map(() => new Float64Array(p));
  for (let g = 0; g < units; g++) {
    const b = zwz.subarray(g * q * q, (g + 1) * q * q);
    const e = zwe.subarray(g * q, (g + 1) * q);
    const products = directions.map((d) => times(b, d, q));
    const moved = directions.map((d) =>
      Float64Array.from({ length: q }, (_, i) => e.reduce((sum, x, j) => sum + d[i * q + j]! * x, 0)),
    );
    directions.forEach((d, r) => {
      const one = moved[r] as Float64Array;
      plain[r + 1]! += multiplicity[g]! * traceOfProduct(b, d, q);
      data[r + 1]! += e.reduce((sum, x, i) => sum + x * one[i]!, 0) / at.variance;
      for (let i = 0; i < q; i++)
        for (let k = 0; k < p; k++) along[r]![k]! += zwx[(g * q + i) * p + k]! * one[i]!;
      for (let s = 0; s <= r; s++) {
        plain[(r + 1) * count + s + 1]! += multiplicity[g]! * traceOfProduct(products[r]!, products[s]!, q);
        const other = moved[s] as Float64Array;
        for (let i = 0; i < q; i++)
          for (let j = 0; j < q; j++)
            data[(r + 1) * count + s + 1]! += (one[i]! * b[i * q + j]! * other[j]!) / at.variance;
      }
    });
  }
  for (let r = 1; r < count; r++)
    for (let s = 1; s <= r; s++)
      for (let i = 0; i < p; i++)
        for (let j = 0; j < p; j++)
          data[r * count + s]! -= (along[r - 1]![i]! * inverse[i * p + j]! * along[s - 1]![j]!) / at.variance;
  for (let r = 0; r < count; r++)
    for (let s = 0; s < r; s++)
      for (const table of [plain, data]) {
        if (s === 0) table[r * count] = table[r]!;
        else table[s * count + r] = table[r * count + s]!;
      }
  return { plain, data };
}

/** Information about the variances and how the fixed effects' covariance depends on them. */
export function informationOf(
  sums: GroupSums,
  variance: Pick<FoundVariance, "at"> & { readonly method: Method },
): VarianceInformation {
  const { q, p } = sums;
  const { at, method } = variance;
  const { zwz, zwx, inverse } = at.blocks;
  const directions = directionsOf(q);
  const count = directions.length + 1;
  const covariance = inverse.map((value) => value * at.variance);
  const all = invertFactored(factorSymmetric(covariance, { size: p, tolerance: 1e-15 }));
  const overVariance = (matrix: Float64Array): Float64Array => matrix.map((value) => value / at.variance);
  const pulls = [all, ...directions.map((d) => overVariance(sumOver(sums, { zwx, middle: () => d })))];
  const pairs = pulls.map((pull, r) =>
    pulls.map((other, s) => {
      if (r === 0) return other;
      if (s === 0) return pull;
      const [d, e] = [directions[r - 1]!, directions[s - 1]!];
      return overVariance(
        sumOver(sums, {
          zwx,
          middle: (g) => times(times(d, zwz.subarray(g * q * q, (g + 1) * q * q), q), e, q),
        }),
      );
    }),
  );
  const { plain, data } = tracesOf(sums, at);
  const restricted = new Float64Array(count * count);
  for (let r = 0; r < count; r++)
    for (let s = 0; s < count; s++) {
      const own = times(covariance, pulls[r]!, p);
      const other = times(covariance, pulls[s]!, p);
      restricted[r * count + s] =
        plain[r * count + s]! -
        2 * traceOfProduct(covariance, pairs[r]![s]!, p) +
        traceOfProduct(own, other, p);
    }
  const base = method === "reml" ? restricted : plain;
  const factor = factorSymmetric(
    restricted.map((value) => value / 2),
    { size: count, tolerance: 1e-10 },
  );
  return {
    count,
    pulls,
    pairs,
    covariance,
    expectedInverse: factor.kept.length === count ? invertFactored(factor) : null,
    observed: data.map((value, k) => 2 * value - base[k]!),
  };
}
