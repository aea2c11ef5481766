import { type Curve, type Figure, shareAt, shareInterval, studentInterval } from "../statistics/index.js";
import type { Estimate, ReasonCode } from "./results-parts.js";

/** An estimate with its limits, and the reason where one is missing. */
export function estimateOf(found: {
  readonly value: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly reason: ReasonCode | null;
}): Estimate {
  const { value, lower, upper, reason } = found;
  const complete = value !== null && lower !== null && upper !== null;
  return { value, lower, upper, reason: complete ? null : reason };
}

/**
 * A difference with limits and p by Student's t, its variance raised by n / (n - k) for n units and k curves.
 * The difference's own reason stands where it has no value or no error.
 */
export function smallSample(
  found: {
    readonly difference: number | null;
    readonly standardError: number | null;
    readonly reason: ReasonCode | null;
  },
  { units, curves, level }: { readonly units: number; readonly curves: number; readonly level: number },
): { estimate: Estimate; p: number | null } {
  const { difference, standardError, reason } = found;
  if (difference === null || standardError === null) {
    return { estimate: { value: difference, lower: null, upper: null, reason }, p: null };
  }
  const interval = studentInterval({ estimate: difference, standardError }, { units, curves, level });
  return { estimate: estimateOf({ ...interval, value: difference }), p: interval.p };
}

/**
 * The share back at a day, with how many are at risk then. Where nobody or everybody is back the curve has no limits, and those of
 * a proportion of so many take their place.
 */
export function shareBackAt(
  curve: Curve,
  { day, level }: { readonly day: number; readonly level: number },
): { readonly estimate: Estimate; readonly atRisk: number } {
  const share = shareAt(curve, day);
  const { returned: value, returnedLower: lower, returnedUpper: upper, reason, limitsReason, atRisk } = share;
  if (value === 0 || value === 1) {
    const limits = shareInterval({ ...share, returned: value, n: curve.n, units: curve.units }, { level });
    return { atRisk, estimate: estimateOf({ ...limits, value }) };
  }
  return { atRisk, estimate: estimateOf({ value, lower, upper, reason: reason ?? limitsReason }) };
}

/** No estimate, and why. */
export const missing = (reason: ReasonCode): Estimate => ({ value: null, lower: null, upper: null, reason });

/** A time and its limits, each found or not, as one estimate. */
export function estimateOfFigures({
  estimate,
  lower,
  upper,
}: {
  estimate: Figure;
  lower: Figure;
  upper: Figure;
}): Estimate {
  const reason = [estimate, lower, upper].map(reasonOf).find((one) => one !== null) ?? null;
  return { value: estimate.value, lower: lower.value, upper: upper.value, reason };
}

const reasonOf = (figure: Figure): ReasonCode | null => (figure.value === null ? figure.reason : null);
