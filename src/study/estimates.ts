import type { Figure } from "../statistics/index.js";
import type { Estimate, ReasonCode } from "./results.js";

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
