import { tCritical } from "../../shared/distributions.js";
import type { Reason } from "../../shared/figure.js";

/** A figure with its interval; null with a reason. */
export interface VisitFigure {
  readonly estimate: number | null;
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly reason: Reason | null;
}

export const missing = (reason: Reason): VisitFigure => ({
  estimate: null,
  standardError: null,
  lower: null,
  upper: null,
  reason,
});

/** How an estimate is spread: its large-sample variance, units (rows or clusters) and parameters of the model behind it. */
export interface Spread {
  readonly variance: number;
  readonly units: number;
  readonly parameters: number;
  readonly level: number;
}

/** Standard error with the factor units / (units - parameters), and Student's t with the degrees of freedom that are left. */
function inSmallSamples({ variance, units, parameters, level }: Spread): { error: number; half: number } {
  const df = Math.max(1, units - parameters);
  const error = Math.sqrt((Math.max(0, variance) * units) / df);
  return { error, half: tCritical(level, df) * error };
}

/** A figure between 0 and `top`: limits on the logit of its part of that, so that they stay between. Infinite top: on its logarithm. */
export function boundedFigure(estimate: number, of: Spread & { readonly top: number }): VisitFigure {
  if (of.units <= of.parameters) return { ...missing("too-few-rows"), estimate };
  const { error, half } = inSmallSamples(of);
  if (!Number.isFinite(estimate) || !Number.isFinite(error)) return missing("no-variance");
  const sure = { estimate, standardError: error, lower: estimate, upper: estimate, reason: null };
  if (!(error > 0) || !(estimate > 0) || !(estimate < of.top))
    return { ...missing("no-variance"), estimate, standardError: error };
  if (of.top === Number.POSITIVE_INFINITY) {
    const factor = Math.exp(half / estimate);
    return { ...sure, lower: estimate / factor, upper: Number.isFinite(factor) ? estimate * factor : null };
  }
  const part = estimate / of.top;
  const centre = Math.log(part / (1 - part));
  const reach = half / of.top / (part * (1 - part));
  const back = (logit: number): number => of.top / (1 + Math.exp(-logit));
  return { ...sure, lower: back(centre - reach), upper: back(centre + reach) };
}

/**
 * One figure less another: limits recovered from the limits of the two, with their correlation, so that no difference of shares lies
 * outside -1 and 1.
 *
 * @source Zou & Donner 2008, Stat Med 27:1693
 */
export function recoveredDifference(
  [one, other]: readonly [VisitFigure, VisitFigure],
  of: Spread,
): VisitFigure {
  if (one.estimate === null || other.estimate === null)
    return missing(one.reason ?? other.reason ?? "no-variance");
  const estimate = one.estimate - other.estimate;
  const open =
    one.standardError === null || other.standardError === null ? (one.reason ?? other.reason) : null;
  if (open !== null) return { ...missing(open), estimate };
  const { error } = inSmallSamples(of);
  if (!Number.isFinite(error)) return missing("no-variance");
  const both = one.standardError! * other.standardError!;
  const free = one.standardError! ** 2 + other.standardError! ** 2;
  const correlation = both > 0 ? Math.max(-1, Math.min(1, (free - error * error) / (2 * both))) : 0;
  const away = (a: number | null, b: number | null): number | null =>
    a === null || b === null ? null : Math.sqrt(Math.max(0, a * a + b * b - 2 * correlation * a * b));
  const below = ({ estimate: value, lower }: VisitFigure): number | null =>
    lower === null ? null : value! - lower;
  const above = ({ estimate: value, upper }: VisitFigure): number | null =>
    upper === null ? null : upper - value!;
  const [down, up] = [away(below(one), above(other)), away(above(one), below(other))];
  return {
    estimate,
    standardError: error,
    lower: down === null ? null : estimate - down,
    upper: up === null ? null : estimate + up,
    reason: down === null || up === null ? (one.reason ?? other.reason ?? "no-variance") : null,
  };
}
