import { chiSquareQuantile, normalCritical } from "../shared/distributions.js";

/** A standard deviation with the degrees of freedom behind it and an interval. */
export interface DeviationInterval {
  readonly estimate: number;
  readonly df: number;
  /** Null with `no-variance` where nothing varied: that is no reason to call the deviation certain. */
  readonly lower: number | null;
  readonly upper: number | null;
  readonly reason: "no-variance" | null;
}

/** Interval of a variance estimated with df degrees of freedom: df s^2 over the two points of chi-square. */
export function varianceLimits(
  estimated: { readonly variance: number; readonly df: number },
  level: number,
): { readonly lower: number; readonly upper: number } {
  normalCritical(level);
  const { variance, df } = estimated;
  return {
    lower: (df * variance) / chiSquareQuantile((1 + level) / 2, df),
    upper: (df * variance) / chiSquareQuantile((1 - level) / 2, df),
  };
}

/** The same on the scale of the standard deviation. */
export function deviationInterval(
  estimated: { readonly variance: number; readonly df: number },
  level: number,
): DeviationInterval {
  const { variance, df } = estimated;
  if (variance === 0) return { estimate: 0, df, lower: null, upper: null, reason: "no-variance" };
  const { lower, upper } = varianceLimits(estimated, level);
  return {
    estimate: Math.sqrt(estimated.variance),
    df: estimated.df,
    lower: Math.sqrt(lower),
    upper: Math.sqrt(upper),
    reason: null,
  };
}
