import { tCritical, tTwoSided } from "../../shared/distributions.js";
import type { Reason } from "../../shared/figure.js";
import type { HazardRatio } from "../layout/hazard-fit.js";

/** A ratio with its interval and test by Student's t. */
export interface ClusteredHazardRatio extends Omit<HazardRatio, "z"> {
  /** Of the coefficient. */
  readonly standardError: number | null;
  readonly t: number | null;
}

const heldBy = (ratio: number): number | null => (Number.isFinite(ratio) ? ratio : null);

/** The ratio of a coefficient with interval and test by Student's t. */
export function byStudent(
  { z: _, ...ratio }: HazardRatio,
  estimated: {
    readonly coefficient: number | null;
    readonly variance: number | null;
    readonly df: number;
    readonly level: number;
  },
): ClusteredHazardRatio {
  const { coefficient, variance, df, level } = estimated;
  if (coefficient === null) return { ...ratio, standardError: null, t: null };
  const none = { ...ratio, lower: null, upper: null, p: null, t: null };
  const short: Reason | null = df < 1 ? "too-few-rows" : !((variance ?? 0) > 0) ? "no-variance" : null;
  if (short !== null || variance === null) return { ...none, standardError: null, reason: short };
  const standardError = Math.sqrt(variance);
  const half = tCritical(level, df) * standardError;
  const t = coefficient / standardError;
  return {
    ...ratio,
    lower: heldBy(Math.exp(coefficient - half)),
    upper: heldBy(Math.exp(coefficient + half)),
    p: tTwoSided(t, df),
    standardError,
    t,
  };
}
