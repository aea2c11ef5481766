import { checkNumber } from "../shared/arguments.js";
import { countUpTo } from "../shared/distinct-times.js";
import type { Reason } from "../shared/figure.js";
import { type Curve, checkCurve, reasonAt } from "./curve.js";
import { atRiskAt } from "./risk-sets.js";

/** What a curve says at one time. Everything but the counts is null where `reason` is given. */
export interface ShareAt {
  readonly time: number;
  /** Share without the event, and its pointwise interval. */
  readonly notYet: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** 1 - notYet, and its interval: 1 - upper to 1 - lower. */
  readonly returned: number | null;
  readonly returnedLower: number | null;
  readonly returnedUpper: number | null;
  /** The same for both shares. */
  readonly standardError: number | null;
  /** At risk just before this time: entry < t <= time. */
  readonly atRisk: number;
  /** Events, censorings and competing ends up to and including this time. */
  readonly cumulativeEvents: number;
  readonly cumulativeCensored: number;
  /** 0 for a curve that tells none apart. */
  readonly cumulativeCompeting: number;
  /** Why there is no share. */
  readonly reason: Reason | null;
  /** Why there is a share and no interval: no event yet, nobody left, or rows that are all of one cluster. */
  readonly limitsReason: Reason | null;
}

const sumOf = (values: readonly number[], count: number): number => {
  let sum = 0;
  for (let i = 0; i < count; i++) sum += values[i]!;
  return sum;
};

/**
 * The share with and without the event at any time, with interval and counts.
 *
 * After the last follow-up the share is known only if nobody is left who might still have the event; else null, `beyond-follow-up`.
 * The curve is never carried on.
 *
 * @param time 0 or more, in the unit of the curve
 * @throws ArgumentError for a time that is not finite or is negative
 * @source Kaplan & Meier 1958, J Am Stat Assoc 53:457
 */
export function shareAt(curve: Curve, time: number): ShareAt {
  checkCurve({ curve });
  checkNumber({ name: "time", value: time }, "not negative");
  const reached = countUpTo(curve.times, time);
  const counts = {
    time,
    atRisk: atRiskAt(curve, time),
    cumulativeEvents: sumOf(curve.events, reached),
    cumulativeCensored: sumOf(curve.censored, reached),
    cumulativeCompeting: sumOf(curve.competing ?? [], curve.competing ? reached : 0),
  };
  const reason = reasonAt(curve, time);
  if (reason !== null) {
    const none = {
      notYet: null,
      lower: null,
      upper: null,
      returned: null,
      returnedLower: null,
      returnedUpper: null,
    };
    return { ...counts, ...none, standardError: null, reason, limitsReason: reason };
  }
  const before = reached === 0;
  const notYet = before ? 1 : curve.notYet[reached - 1]!;
  const lower = before ? null : (curve.lower[reached - 1] ?? null);
  const upper = before ? null : (curve.upper[reached - 1] ?? null);
  return {
    ...counts,
    notYet,
    lower,
    upper,
    returned: 1 - notYet,
    returnedLower: upper === null ? null : 1 - upper,
    returnedUpper: lower === null ? null : 1 - lower,
    standardError: before ? 0 : (curve.standardError[reached - 1] ?? null),
    reason: null,
    limitsReason:
      lower !== null
        ? null
        : notYet === 0
          ? "all-returned"
          : counts.cumulativeEvents === 0
            ? "no-events"
            : "no-variance",
  };
}
