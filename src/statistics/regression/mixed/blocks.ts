import { factorSymmetric, invertFactored, logDeterminant, solveFactored } from "../../linear/symmetric.js";
import type { GroupSums } from "./group-sums.js";

/**
 * What one variance matrix makes of the sums. With L the variance of the group effects over the residual variance, W = (I + Z L Z')^-1 and
 * T = (I + Z'Z L)^-1 of each group, Woodbury's identity gives Z'WZ = T Z'Z, Z'WX = T Z'X and X'WX = X'X - X'Z L T Z'X, whatever the rank of L.
 */
export interface Blocks {
  /** Z'WZ, Z'WX, Z'W(r - Xc) of each group, flat. */
  readonly zwz: Float64Array;
  readonly zwx: Float64Array;
  readonly zwe: Float64Array;
  /** (X'WX)^-1, flat. */
  readonly inverse: Float64Array;
  /** log det X'WX. */
  readonly logDetX: number;
  /** log det of I + Z L Z', all groups. */
  readonly logDetV: number;
  /** Generalised least squares of r on X. */
  readonly c: Float64Array;
  /** (r - Xc)' W (r - Xc). */
  readonly squares: number;
}

/** T of one group into `t`, with the determinant of its inverse. */
function smallInverse(
  sums: Pick<GroupSums, "q" | "zz">,
  at: { readonly group: number; readonly ratio: Float64Array; readonly t: Float64Array },
): number {
  const { q, zz } = sums;
  const { group, ratio, t } = at;
  if (q === 1) {
    const determinant = 1 + zz[group]! * ratio[0]!;
    t[0] = 1 / determinant;
    return determinant;
  }
  const from = group * 4;
  const [a, b, d] = [zz[from]!, zz[from + 1]!, zz[from + 3]!];
  const [l, m, k] = [ratio[0]!, ratio[1]!, ratio[3]!];
  const [m11, m12, m21, m22] = [1 + a * l + b * m, a * m + b * k, b * l + d * m, 1 + b * m + d * k];
  // the product of the two determinants, without the cancellation of m11 m22 - m12 m21
  const determinant = 1 + a * l + 2 * b * m + d * k + (a * d - b * b) * (l * k - m * m);
  t[0] = m22 / determinant;
  t[1] = -m12 / determinant;
  t[2] = -m21 / determinant;
  t[3] = m11 / determinant;
  return determinant;
}

/** @param ratio L, flat, q x q, symmetric and not negative definite */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: products of small matrices summed group by group in one pass
export function blocksAt(sums: GroupSums, ratio: Float64Array): Blocks {
  const { q, p, n, units: groups, multiplicity, zz, zx, zr, rr } = sums;
  const zwz = new Float64Array(groups * q * q);
  const zwx = new Float64Array(groups * q * p);
  const zwe = new Float64Array(groups * q);
  const xwx = new Float64Array(p * p);
  const xwr = new Float64Array(p);
  for (let k = 0; k < p; k++) xwx[k * p + k] = n;
  const t = new Float64Array(q * q);
  let rwr = rr;
  let logDetV = 0;
  for (let g = 0; g < groups; g++) {
    logDetV += multiplicity[g]! * Math.log(smallInverse(sums, { group: g, ratio, t }));
    for (let a = 0; a < q; a++)
      for (let b = 0; b < q; b++) {
        const factor = t[a * q + b]!;
        for (let c = 0; c < q; c++) zwz[(g * q + a) * q + c]! += factor * zz[(g * q + b) * q + c]!;
        for (let k = 0; k < p; k++) zwx[(g * q + a) * p + k]! += factor * zx[(g * q + b) * p + k]!;
        zwe[g * q + a]! += factor * zr[g * q + b]!;
      }
    for (let a = 0; a < q; a++)
      for (let b = 0; b < q; b++) {
        const factor = ratio[a * q + b]!;
        if (factor === 0) continue;
        const left = (g * q + a) * p;
        const right = (g * q + b) * p;
        const moved = factor * zwe[g * q + b]!;
        rwr -= zr[g * q + a]! * moved;
        for (let i = 0; i < p; i++) {
          const scaled = factor * zx[left + i]!;
          xwr[i]! -= zx[left + i]! * moved;
          for (let j = 0; j <= i; j++) xwx[i * p + j]! -= scaled * zwx[right + j]!;
        }
      }
  }
  for (let i = 0; i < p; i++) for (let j = i + 1; j < p; j++) xwx[i * p + j] = xwx[j * p + i]!;
  const factor = factorSymmetric(xwx, { size: p, tolerance: 1e-15 });
  const c = solveFactored(factor, xwr);
  for (let g = 0; g < groups; g++)
    for (let a = 0; a < q; a++)
      for (let k = 0; k < p; k++) zwe[g * q + a]! -= zwx[(g * q + a) * p + k]! * c[k]!;
  return {
    zwz,
    zwx,
    zwe,
    inverse: invertFactored(factor),
    logDetX: logDeterminant(factor),
    logDetV,
    c,
    squares: rwr - c.reduce((sum, value, k) => sum + value * xwr[k]!, 0),
  };
}
