import { normalCritical } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import {
  checkColumnNames,
  checkResult,
  confidenceLevel,
  type NamesOf,
  type OptionsOf,
  oneOf,
  type Read,
  readOptions,
} from "../shared/options.js";
import { plainArray } from "../shared/plain-array.js";
import type { TimeToEvent } from "../shared/time-to-event.js";
import { timeToEventNames } from "../shared/time-to-event.js";
import { type IntervalScale, intervalScales, limitsOfCurve } from "./curve-intervals.js";
import { prepareRiskSets, type RiskSets } from "./risk-sets.js";
import { remaining, robustVarianceOfLog } from "./robust-variance.js";
import { type TimeCounts, timeCounts } from "./time-counts.js";

export const varianceKinds = ["greenwood", "robust"] as const;
export type VarianceKind = (typeof varianceKinds)[number];

export const curveOptions = {
  /** Confidence level of the pointwise interval. Default 0.95. */
  level: confidenceLevel,
  /** Scale of the pointwise interval. Default "log-log". */
  interval: oneOf(intervalScales, "log-log"),
  /** Default "robust" where there are weights or clusters, else "greenwood". */
  variance: oneOf(varianceKinds),
};

export interface CurveOptions extends OptionsOf<typeof curveOptions> {}

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
  /** Last time of event or censoring; null without rows, or where all weigh 0. */
  readonly lastTime: number | null;
  /** Whether an event was seen at the last time. */
  readonly lastIsEvent: boolean;
  /** The curve came to 0 while others were, or later came, under observation (tiny early risk sets): useless, to be said. */
  readonly reachedZeroEarly: boolean;
  /** Entry times and the weight entered up to each, where entry was delayed. */
  readonly entered: { readonly times: readonly number[]; readonly total: readonly number[] } | null;
}

/** @throws ArgumentError where it is not what productLimit returns */
export function checkCurve(given: Readonly<Record<string, Curve>>): void {
  checkResult(given, { expected: "a result of productLimit", has: ["times", "notYet", "lower", "upper"] });
}

/** Standard error of log S by Greenwood's sum; Infinity from where the curve is at 0. */
function greenwoodErrorsOfLog({ atRisk, events }: TimeCounts): Float64Array {
  const errors = new Float64Array(atRisk.length);
  let sum = 0;
  let error = 0;
  for (let at = 0; at < errors.length; at++) {
    const d = events[at]!;
    if (d > 0) {
      const n = atRisk[at]!;
      const left = remaining(n, d);
      sum = left === 0 ? Number.POSITIVE_INFINITY : sum + d / (n * left);
      error = Math.sqrt(sum);
    }
    errors[at] = error;
  }
  return errors;
}

/** Products of (1 - d/n). */
export function sharesNotYet({ atRisk, events }: Pick<TimeCounts, "atRisk" | "events">): number[] {
  const shares = new Array<number>(atRisk.length);
  let share = 1;
  for (let at = 0; at < shares.length; at++) {
    const d = events[at]!;
    const n = atRisk[at]!;
    if (d > 0) share *= remaining(n, d) === 0 ? 0 : 1 - d / n;
    shares[at] = share;
  }
  return shares;
}

type Asked = Read<typeof curveOptions>;

const varianceKind = (columns: TimeToEvent, { variance }: Asked): VarianceKind =>
  variance ?? (columns.weights || columns.clusters ? "robust" : "greenwood");

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
 * // => [5/6, 2/3, 4/9, 4/9, 0]
 */
export function productLimit(columns: TimeToEvent, options: CurveOptions = {}): Curve {
  checkColumnNames(timeToEventNames, { columns });
  // which row stands where matters to the robust variance only
  const asked = readOptions(curveOptions, options);
  return varianceKind(columns, asked) === "robust"
    ? robustCurve({ columns, riskSets: prepareRiskSets(columns) }, asked)
    : greenwoodCurve(timeCounts(columns), asked);
}

const productLimitOfNames: NamesOf<Parameters<typeof productLimitOf>[0]> = { columns: true, riskSets: true };

/** The same from risk sets already prepared from these columns. */
export function productLimitOf(
  prepared: { readonly columns: TimeToEvent; readonly riskSets: RiskSets },
  options: CurveOptions = {},
): Curve {
  checkColumnNames(productLimitOfNames, { prepared });
  const asked = readOptions(curveOptions, options);
  return varianceKind(prepared.columns, asked) === "greenwood"
    ? greenwoodCurve(prepared.riskSets, asked)
    : robustCurve(prepared, asked);
}

function robustCurve(
  { columns, riskSets }: { readonly columns: TimeToEvent; readonly riskSets: RiskSets },
  asked: Asked,
): Curve {
  const errorsOfLog = robustVarianceOfLog(riskSets, columns);
  for (let at = 0; at < errorsOfLog.length; at++) errorsOfLog[at] = Math.sqrt(errorsOfLog[at]!);
  return curveOf({ counts: riskSets, errorsOfLog }, { ...asked, variance: "robust" });
}

const greenwoodCurve = (counts: TimeCounts, asked: Asked): Curve =>
  curveOf({ counts, errorsOfLog: greenwoodErrorsOfLog(counts) }, { ...asked, variance: "greenwood" });

function curveOf(
  counted: { readonly counts: TimeCounts; readonly errorsOfLog: Float64Array },
  asked: Asked & { readonly variance: VarianceKind },
): Curve {
  const { counts, errorsOfLog } = counted;
  const { level, interval, variance } = asked;
  const { times, events, n, total, entered } = counts;
  const notYet = sharesNotYet(counts);
  const last = lastObserved(counts);
  const firstZero = notYet.indexOf(0);
  return {
    times: plainArray(times),
    atRisk: plainArray(counts.atRisk),
    events: plainArray(events),
    censored: plainArray(counts.censored),
    notYet,
    standardError: errorsOfShares(notYet, errorsOfLog),
    ...limitsOfCurve({ shares: notYet, errorsOfLog }, { scale: interval, z: normalCritical(level) }),
    level,
    interval,
    variance,
    n,
    total,
    totalEvents: sumOf(events),
    lastTime: times[last] ?? null,
    lastIsEvent: (events[last] ?? 0) > 0,
    reachedZeroEarly: firstZero >= 0 && firstZero < last,
    entered: entered && { times: plainArray(entered.times), total: plainArray(entered.total) },
  };
}

/** Index of the last time at which anybody of some weight was under observation; -1 where there is none. */
export function lastObserved({ atRisk }: Pick<TimeCounts, "atRisk">): number {
  let last = atRisk.length - 1;
  while (last >= 0 && !(atRisk[last]! > 0)) last--;
  return last;
}

function errorsOfShares(shares: readonly number[], errorsOfLog: Float64Array): (number | null)[] {
  const errors = new Array<number | null>(shares.length);
  for (let at = 0; at < shares.length; at++) {
    const share = shares[at]!;
    errors[at] = share === 0 ? null : share * errorsOfLog[at]!;
  }
  return errors;
}

function sumOf(values: ArrayLike<number>): number {
  let sum = 0;
  for (let at = 0; at < values.length; at++) sum += values[at]!;
  return sum;
}

/** Why a curve says nothing at a time, or null where it does. */
export function reasonAt(curve: Curve, time: number): Reason | null {
  if (curve.lastTime === null) return "no-rows";
  const stillWaiting = curve.notYet[curve.notYet.length - 1]! > 0;
  return time > curve.lastTime && stillWaiting ? "beyond-follow-up" : null;
}
