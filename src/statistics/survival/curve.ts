import { normalCritical } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import { checkResult, confidenceLevel, type OptionsOf, oneOf, type Read } from "../shared/options.js";
import { plainArray } from "../shared/plain-array.js";
import { type IntervalScale, intervalScales, limitsOfCurve } from "./curve-intervals.js";
import type { TimeCounts } from "./time-counts.js";

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

/** A curve of the share without an event: one entry a different time, ascending. */
export interface Curve {
  readonly times: readonly number[];
  readonly atRisk: readonly number[];
  readonly events: readonly number[];
  readonly censored: readonly number[];
  /** Ends after which the event can no longer come; null where none are told apart from censoring (a product-limit curve). */
  readonly competing: readonly number[] | null;
  /** Share without the event after each time; whoever had a competing end stays without it. */
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
  /** Rows that are independent: clusters under a robust variance with clusters, else n. */
  readonly units: number;
  /** Sum of the weights; n where there are none. */
  readonly total: number;
  readonly totalEvents: number;
  /** Last time of event, competing end or censoring; null without rows, or where all weigh 0. */
  readonly lastTime: number | null;
  /** Whether an event was seen at the last time. */
  readonly lastIsEvent: boolean;
  /** Nobody is left who might still have the event (the event or a competing end came to all), so that the curve is known for ever after. */
  readonly complete: boolean;
  /** Nobody was left while others were, or later came, under observation (tiny early risk sets): useless, to be said. */
  readonly reachedZeroEarly: boolean;
  /** Entry times and the weight entered up to each, where entry was delayed. */
  readonly entered: { readonly times: readonly number[]; readonly total: readonly number[] } | null;
}

/** @throws ArgumentError where it is not what productLimit or incidenceCurve returns */
export function checkCurve(given: Readonly<Record<string, Curve>>): void {
  checkResult(given, {
    expected: "a result of productLimit or incidenceCurve",
    has: ["times", "notYet", "lower", "upper", "complete"],
  });
}

/** What a curve is made of, all at the times of the counts. */
export interface CurveParts {
  /** Events of any kind. */
  readonly counts: TimeCounts;
  /** Of these the events in question, and the competing ones; null where there are no others. */
  readonly own: ArrayLike<number>;
  readonly competing: ArrayLike<number> | null;
  /** Share without the event, and without any. */
  readonly notYet: number[];
  readonly eventFree: readonly number[];
  /** Standard error of the logarithm of `notYet`. */
  readonly errorsOfLog: Float64Array;
  readonly units: number;
}

export function curveOf(
  { counts, own, competing, notYet, eventFree, errorsOfLog, units }: CurveParts,
  asked: Read<typeof curveOptions> & { readonly variance: VarianceKind },
): Curve {
  const { level, interval, variance } = asked;
  const { times, n, total, entered } = counts;
  const last = lastObserved(counts);
  const nobodyLeft = eventFree.indexOf(0);
  return {
    times: plainArray(times),
    atRisk: plainArray(counts.atRisk),
    events: plainArray(own),
    censored: plainArray(counts.censored),
    competing: competing && plainArray(competing),
    notYet,
    standardError: errorsOfShares(notYet, errorsOfLog),
    ...limitsOfCurve({ shares: notYet, errorsOfLog }, { scale: interval, z: normalCritical(level) }),
    level,
    interval,
    variance,
    n,
    units,
    total,
    totalEvents: sumOf(own),
    lastTime: times[last] ?? null,
    lastIsEvent: (own[last] ?? 0) > 0,
    complete: nobodyLeft >= 0,
    reachedZeroEarly: nobodyLeft >= 0 && nobodyLeft < last,
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
  for (let i = 0; i < shares.length; i++) {
    const share = shares[i]!;
    errors[i] = share === 0 ? null : share * errorsOfLog[i]!;
  }
  return errors;
}

function sumOf(values: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i]!;
  return sum;
}

/** Why a curve says nothing at a time, or null where it does. */
export function reasonAt({ lastTime, complete }: Curve, time: number): Reason | null {
  if (lastTime === null) return "no-rows";
  return time > lastTime && !complete ? "beyond-follow-up" : null;
}
