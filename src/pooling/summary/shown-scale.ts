import { normalCritical } from "../../statistics/shared/distributions.js";
import type { PoolingScale } from "./figures.js";

/** From the scale of pooling to what readers see: a logit becomes a share, a difference of shares stays within -1 and 1. */
export function shownFrom(scale: PoolingScale, estimate: number): number {
  if (scale === "days") return estimate;
  return scale === "logit" ? 1 / (1 + Math.exp(-estimate)) : Math.max(-1, Math.min(1, estimate));
}

/** Normal limits on the scale of pooling, as readers see them; null where there is no estimate. */
export function limitsOfFigure(
  {
    estimate,
    variance,
    scale,
  }: {
    readonly estimate: number | null;
    readonly variance: number | null;
    readonly scale: PoolingScale;
  },
  level: number,
): { readonly lower: number; readonly upper: number } | null {
  if (estimate === null || variance === null) return null;
  const half = normalCritical(level) * Math.sqrt(variance);
  return { lower: shownFrom(scale, estimate - half), upper: shownFrom(scale, estimate + half) };
}

/** A variance matrix as correlations; null where a figure is missing. */
export const correlationsOf = (
  matrix: readonly (readonly (number | null)[])[],
): readonly (readonly (number | null)[])[] =>
  matrix.map((row, i) =>
    row.map((value, j) => {
      const [one, other] = [matrix[i]![i] ?? null, matrix[j]![j] ?? null];
      return value === null || one === null || other === null ? null : value / Math.sqrt(one * other);
    }),
  );
