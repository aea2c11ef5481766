import type { Estimate } from "../study/results.js";
import { level } from "./numbers.js";
import { reasonWords } from "./reasons.js";
import { digitsOf, extraDecimals, limits, type Unit, unitAfter } from "./units.js";

/** The name of an interval: "95 % confidence interval". */
export const intervalName = (confidence: number): string => `${level(confidence)} confidence interval`;

/** The same where there is no room, as in the head of a column of a figure; the figure says what it stands for. */
export const shortIntervalName = (confidence: number): string => `${level(confidence)} CI`;

/** The value with its unit, or the reason why there is none. */
export function valueWords(estimate: Estimate, unit: Unit): string {
  if (estimate.value === null) return reasonWords(estimate.reason);
  return withUnit(estimate.value, unit);
}

function withUnit(value: number, unit: Unit): string {
  const digits = digitsOf(value, { unit, extra: extraDecimals([value], unit) });
  return digits + unitAfter(digits, unit);
}

/** The interval with its unit: "48 to 76 %", "from 48 %; upper limit: not reached ...", or why there is none. */
export function intervalWords({ value, lower, upper, reason }: Estimate, unit: Unit): string {
  if (lower !== null && upper !== null) {
    const both = limits({ lower, upper }, unit);
    return both + unitAfter(both, unit);
  }
  if (lower !== null) return `from ${withUnit(lower, unit)}; upper limit: ${reasonWords(reason)}`;
  if (upper !== null) return `up to ${withUnit(upper, unit)}; lower limit: ${reasonWords(reason)}`;
  return value === null ? "" : `no interval: ${reasonWords(reason)}`;
}

/**
 * The value and its interval in a few characters, without the unit, for a figure: "9 (\u22124 to 22)", "13.0 (from 11.4)",
 * "10 (no interval)"; the reason where there is no value. The digits are those of the tables.
 */
export function estimateWords({ value, lower, upper, reason }: Estimate, unit: Unit): string {
  if (value === null) return reasonWords(reason);
  const one = (number: number) => digitsOf(number, { unit, extra: extraDecimals([number], unit) });
  if (lower !== null && upper !== null) return `${one(value)} (${limits({ lower, upper }, unit)})`;
  if (lower !== null) return `${one(value)} (from ${one(lower)})`;
  return upper === null ? `${one(value)} (no interval)` : `${one(value)} (up to ${one(upper)})`;
}

/** An estimate in days, written in weeks. */
export function weeksEstimateWords({ value, lower, upper, reason }: Estimate): string {
  const inWeeks = (days: number | null) => (days === null ? null : days / 7);
  return estimateWords(
    { value: inWeeks(value), lower: inWeeks(lower), upper: inWeeks(upper), reason },
    "weeks",
  );
}
