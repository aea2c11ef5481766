import type { EffectResult, Estimate } from "../../study/results.js";
import { digitsOf, extraDecimals, limits, type Unit } from "../format.js";
import { sayReason } from "./reasons.js";

/** How the unit of an effect is written: a difference of shares in percentage points. */
export const unitOfEffect: Readonly<Record<EffectResult["unit"], Unit>> = {
  share: "percentage points",
  d: "days",
  ratio: "ratio",
  mm: "mm",
};

const unitWord: Readonly<Record<Unit, string>> = {
  share: "\u00a0%",
  "percentage points": " points",
  time: " days",
  days: " days",
  ratio: "",
  mm: " mm",
};

/** The value with its unit, or the reason why there is none. */
export function valueWords(estimate: Estimate, unit: Unit): string {
  if (estimate.value === null) return sayReason(estimate.reason);
  const extra = extraDecimals([estimate.value], unit);
  return digitsOf(estimate.value, { unit, extra }) + unitWord[unit];
}

/** The interval with its unit: "48 to 76 %", "from 48 %, no upper limit", or why there is none. */
export function intervalWords({ value, lower, upper, reason }: Estimate, unit: Unit): string {
  const one = (limit: number) =>
    digitsOf(limit, { unit, extra: extraDecimals([limit], unit) }) + unitWord[unit];
  if (lower !== null && upper !== null) return limits({ lower, upper }, unit) + unitWord[unit];
  if (lower !== null) return `from ${one(lower)}; upper limit: ${sayReason(reason)}`;
  if (upper !== null) return `up to ${one(upper)}; lower limit: ${sayReason(reason)}`;
  return value === null ? "" : sayReason(reason);
}
