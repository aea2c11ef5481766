import type { GroupSums } from "./group-sums.js";

/** Variances of the group effects over the residual variance, in the caller's units of the slope's covariate. */
export interface OwnUnits {
  readonly intercept: number;
  /** Null without a slope. */
  readonly slope: number | null;
  readonly covariance: number | null;
}

/** From the centred and scaled covariate back to the caller's. */
export function inOwnUnits(
  { q, centre, scale }: Pick<GroupSums, "q" | "centre" | "scale">,
  matrix: Float64Array,
): OwnUnits {
  if (q === 1) return { intercept: matrix[0]!, slope: null, covariance: null };
  const shift = centre / scale;
  return {
    intercept: Math.max(0, matrix[0]! - 2 * shift * matrix[1]! + shift * shift * matrix[3]!),
    slope: matrix[3]! / (scale * scale),
    covariance: (matrix[1]! - shift * matrix[3]!) / scale,
  };
}
