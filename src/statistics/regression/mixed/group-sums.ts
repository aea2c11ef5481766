import { type OrthonormalBasis, orthonormalBasis } from "../../linear/orthonormal-basis.js";
import { indexOfCodes } from "../../shared/codes.js";
import type { MixedColumns } from "./mixed-types.js";

/**
 * All that a mixed model needs of the data: sums by group, with Z the columns 1 and, with a slope, its covariate centred and scaled; X the
 * orthonormal basis of the fixed effects (X'X = n I), r the response less its least-squares fit (X'r = 0).
 */
export interface GroupSums {
  readonly n: number;
  /** Group codes, ascending, and rows in each. */
  readonly codes: readonly number[];
  readonly counts: Int32Array;
  /** Blocks of the sums below: the groups, or fewer that stand for them, each for so many. */
  readonly units: number;
  readonly multiplicity: Float64Array;
  /** Columns of Z: 1 or 2. */
  readonly q: 1 | 2;
  /** Columns of X. */
  readonly p: number;
  /** Z'Z of each unit, flat: q x q a unit. */
  readonly zz: Float64Array;
  /** Z'X of each unit: q x p a unit. */
  readonly zx: Float64Array;
  /** Z'r of each unit: q a unit. */
  readonly zr: Float64Array;
  /** r'r. */
  readonly rr: number;
  readonly basis: OrthonormalBasis;
  /** Least-squares coefficients on the basis. */
  readonly leastSquares: Float64Array;
  /** Centre and scale of the slope's covariate. */
  readonly centre: number;
  readonly scale: number;
}

/** The design as a basis, and what it leaves of the response. */
export interface Residuals {
  readonly basis: OrthonormalBasis;
  readonly r: Float64Array;
  readonly b: Float64Array;
}

/** Response less its projection on the basis, taken off twice so that nothing of it is left to rounding. */
export function residualsOf({ response, covariates }: MixedColumns): Residuals {
  const n = response.length;
  const basis = orthonormalBasis([new Float64Array(n).fill(1), ...covariates.columns], n);
  const { rows, size, values } = basis;
  const b = new Float64Array(size);
  const r = Float64Array.from(response);
  for (let pass = 0; pass < 2; pass++) {
    const part = new Float64Array(size);
    for (let row = 0; row < rows; row++)
      for (let k = 0; k < size; k++) part[k]! += (values[row * size + k]! * r[row]!) / rows;
    for (let row = 0; row < rows; row++)
      for (let k = 0; k < size; k++) r[row]! -= values[row * size + k]! * part[k]!;
    for (let k = 0; k < size; k++) b[k]! += part[k]!;
  }
  return { basis, r, b };
}

/** Mean and spread; a spread that is rounding is 0. */
export function centreAndScale(values: ArrayLike<number>): { centre: number; scale: number } {
  const n = values.length;
  let sum = 0;
  for (let row = 0; row < n; row++) sum += values[row]!;
  const centre = n > 0 ? sum / n : 0;
  let squares = 0;
  for (let row = 0; row < n; row++) squares += (values[row]! - centre) ** 2;
  const scale = n > 0 ? Math.sqrt(squares / n) : 0;
  return { centre, scale: scale <= 1e-12 * Math.abs(centre) ? 0 : scale };
}

/** @param settings random: "slope" needs columns.slope with a spread above 0 */
export function groupSums(
  columns: MixedColumns,
  settings: { readonly random: "intercept" | "slope"; readonly residuals: Residuals },
): GroupSums {
  const n = columns.response.length;
  const { basis, r, b } = settings.residuals;
  const { codes, index } = indexOfCodes(columns.groups);
  const q = settings.random === "slope" ? 2 : 1;
  const p = basis.size;
  const slope = q === 2 ? columns.slope! : null;
  const { centre, scale } = slope ? centreAndScale(slope) : { centre: 0, scale: 1 };
  const counts = new Int32Array(codes.length);
  const zz = new Float64Array(codes.length * q * q);
  const zx = new Float64Array(codes.length * q * p);
  const zr = new Float64Array(codes.length * q);
  const z = new Float64Array(q).fill(1);
  let rr = 0;
  for (let row = 0; row < n; row++) {
    const g = index[row]!;
    if (slope) z[1] = (slope[row]! - centre) / scale;
    counts[g]!++;
    rr += r[row]! * r[row]!;
    for (let a = 0; a < q; a++) {
      for (let c = 0; c < q; c++) zz[(g * q + a) * q + c]! += z[a]! * z[c]!;
      for (let k = 0; k < p; k++) zx[(g * q + a) * p + k]! += z[a]! * basis.values[row * p + k]!;
      zr[g * q + a]! += z[a]! * r[row]!;
    }
  }
  const multiplicity = new Float64Array(codes.length).fill(1);
  return {
    n,
    codes,
    counts,
    units: codes.length,
    multiplicity,
    q,
    p,
    zz,
    zx,
    zr,
    rr,
    basis,
    leastSquares: b,
    centre,
    scale,
  };
}
