import { normalCritical } from "../distributions.js";
import type { Reason } from "../figure.js";
import { type IntervalScale, limitsOfShare } from "./curve-intervals.js";
import { prepareRiskSets, type RiskSets } from "./risk-sets.js";
import { remaining, robustVarianceOfLog } from "./robust-variance.js";
import type { TimeToEvent } from "./time-to-event.js";

export type VarianceKind = "greenwood" | "robust";

export interface CurveOptions {
  /** Confidence level of the pointwise interval. Default 0.95. */
  readonly level?: number;
  /** Scale of the pointwise interval. Default "log-log". */
  readonly interval?: IntervalScale;
  /** Default "robust" where there are weights or clusters, else "greenwood". */
  readonly variance?: VarianceKind;
}

/** A product-limit curve: one entry a different time, ascending. */
export interface Curve {
  readonly times: readonly number[];
  readonly atRisk: readonly number[];
  readonly events: readonly number[];
  readonly censored: readonly number[];
  /** Share without the event after each time. */
  readonly notYet: readonly number[];
  /** Of `notYet`; null where the curve is at 0. */
  readonly standardError: readonly (number | null)[];
  /** Pointwise limits of `notYet`; null before the first event and where the curve is at 0. */
  readonly lower: readonly (number | null)[];
  readonly upper: readonly (number | null)[];
  readonly level: number;
  readonly interval: IntervalScale;
  readonly variance: VarianceKind;
  /** Rows, whatever their weight. */
  readonly n: number;
  /** Sum of the weights; n where there are none. */
  readonly total: number;
  readonly totalEvents: number;
  /** Last time of event or censoring; null without rows. */
  readonly lastTime: number | null;
  /** Whether an event was seen at the last time. */
  readonly lastIsEvent: boolean;
  /** The curve came to 0 while others were, or later came, under observation (tiny early risk sets): useless, to be said. */
  readonly reachedZeroEarly: boolean;
  /** Entry times and the weight entered up to each, where entry was delayed. */
  readonly entered: { readonly times: readonly number[]; readonly total: readonly number[] } | null;
}

/** Variance of log S by Greenwood's sum; Infinity from where the curve is at 0. */
function greenwoodVarianceOfLog({ atRisk, events }: RiskSets): Float64Array {
  const variance = new Float64Array(atRisk.length);
  let sum = 0;
  for (let at = 0; at < atRisk.length; at++) {
    const d = events[at] as number;
    const n = atRisk[at] as number;
    const left = remaining(n, d);
    if (d > 0) sum = left === 0 ? Number.POSITIVE_INFINITY : sum + d / (n * left);
    variance[at] = sum;
  }
  return variance;
}

/** Products of (1 - d/n). */
export function sharesNotYet({ atRisk, events }: RiskSets): number[] {
  const shares: number[] = [];
  let share = 1;
  for (let at = 0; at < atRisk.length; at++) {
    const d = events[at] as number;
    const n = atRisk[at] as number;
    if (d > 0) share *= remaining(n, d) === 0 ? 0 : 1 - d / n;
    shares.push(share);
  }
  return shares;
}

/**
 * Product-limit estimate of the share without the event, with pointwise intervals.
 *
 * S(t) = product over event times u <= t of (1 - d_u / n_u); those censored at u are still at risk at u.
 * Greenwood: Var log S(t) = sum of d_u / (n_u (n_u - d_u)). Robust: infinitesimal jackknife, summed within clusters, each row its
 * own cluster where none are given; the one to use with fractional weights or several rows a person.
 *
 * @param columns see TimeToEvent
 * @returns an empty curve for no rows; a curve at 1 without events (limits null)
 * @throws ArgumentError naming the column and index of a value at fault, or the level
 * @source Kaplan & Meier 1958, J Am Stat Assoc 53:457; Greenwood 1926, Rep Public Health Med Subj 33:1
 * @example
 * productLimit({ times: [42, 56, 56, 70, 91, 120], events: [1, 1, 0, 1, 0, 1] }).notYet
 * // => [5/6, 2/3, 4/9, 4/9, 0], rounding apart
 */
export function productLimit(columns: TimeToEvent, options: CurveOptions = {}): Curve {
  return productLimitOf({ columns, riskSets: prepareRiskSets(columns) }, options);
}

/** The same from risk sets already prepared from these columns. */
export function productLimitOf(
  prepared: { readonly columns: TimeToEvent; readonly riskSets: RiskSets },
  options: CurveOptions = {},
): Curve {
  const { columns, riskSets } = prepared;
  const { level = 0.95, interval = "log-log" } = options;
  const variance = options.variance ?? (columns.weights || columns.clusters ? "robust" : "greenwood");
  const z = normalCritical(level);
  const ofLog =
    variance === "robust" ? robustVarianceOfLog(riskSets, columns) : greenwoodVarianceOfLog(riskSets);
  const notYet = sharesNotYet(riskSets);
  const limits = notYet.map((share, at) =>
    limitsOfShare({ share, errorOfLog: Math.sqrt(ofLog[at] as number) }, { scale: interval, z }),
  );
  const last = riskSets.times.length - 1;
  const firstZero = notYet.indexOf(0);
  return {
    times: Array.from(riskSets.times),
    atRisk: Array.from(riskSets.atRisk),
    events: Array.from(riskSets.events),
    censored: Array.from(riskSets.censored),
    notYet,
    standardError: notYet.map((share, at) => (share === 0 ? null : share * Math.sqrt(ofLog[at] as number))),
    lower: limits.map((pair) => pair?.[0] ?? null),
    upper: limits.map((pair) => pair?.[1] ?? null),
    level,
    interval,
    variance,
    n: riskSets.n,
    total: riskSets.total,
    totalEvents: riskSets.events.reduce((sum, d) => sum + d, 0),
    lastTime: riskSets.times[last] ?? null,
    lastIsEvent: (riskSets.events[last] ?? 0) > 0,
    reachedZeroEarly: firstZero >= 0 && firstZero < last,
    entered: riskSets.entered && {
      times: Array.from(riskSets.entered.times),
      total: Array.from(riskSets.entered.total),
    },
  };
}

/** Why a curve says nothing at a time, or null where it does. */
export function silenceOf(curve: Curve, time: number): Reason | null {
  if (curve.lastTime === null) return "no-rows";
  const stillWaiting = (curve.notYet[curve.notYet.length - 1] as number) > 0;
  return time > curve.lastTime && stillWaiting ? "beyond-follow-up" : null;
}
