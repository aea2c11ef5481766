import { ArgumentError } from "../../shared/arguments.js";
import { countUpTo } from "../../shared/distinct-times.js";
import type { Reason } from "../../shared/figure.js";
import {
  checkColumnNames,
  confidenceLevel,
  type NamesOf,
  number,
  type OptionsOf,
  oneOf,
  readOptions,
} from "../../shared/options.js";
import type { TimeToEvent } from "../../shared/time-to-event.js";
import type { Curve } from "../curve.js";
import { type IntervalScale, intervalScales, limitsOfShare } from "../curve-intervals.js";
import { productLimit } from "../product-limit.js";
import { type BandRange, equalPrecisionCritical, hallWellnerCritical } from "./critical-values.js";

export const bandKinds = ["equal-precision", "hall-wellner"] as const;
export type BandKind = (typeof bandKinds)[number];

export const bandLimits = {
  /** Scale on which the band is symmetric. Default "log-log". */
  scale: oneOf(intervalScales, "log-log"),
  /** Probability that the whole curve lies within. Default 0.95. */
  level: confidenceLevel,
  /** The band holds from this time on. Default: the first event. An earlier time means the first event. */
  from: number("not negative"),
  /** ... to this time. Default: the last event that leaves the curve above 0. A time past the end of follow-up means that end. */
  to: number("not negative"),
};

export const bandOptions = {
  /** Default "equal-precision". */
  kind: oneOf(bandKinds, "equal-precision"),
  ...bandLimits,
};

export interface BandOptions extends OptionsOf<typeof bandOptions> {}

/** One entry a different time of event or censoring from `from` to `to` at which the curve lies between 0 and 1. */
export interface SimultaneousBand {
  readonly times: readonly number[];
  readonly notYet: readonly number[];
  readonly lower: readonly number[];
  readonly upper: readonly number[];
  /** On the scale a(t) = n s2(t) / (1 + n s2(t)); null where there is no band. */
  readonly range: BandRange | null;
  readonly criticalValue: number | null;
  readonly kind: BandKind;
  readonly scale: IntervalScale;
  readonly level: number;
  /** Why there is no band. */
  readonly reason: Reason | null;
}

/** From when to when a band is asked for. */
type Reach = Pick<BandOptions, "from" | "to">;

/** Index of the step in force when the band starts and of the last one in it, or why there is none. */
export function bandSteps(curve: Curve, { from, to }: Reach): { first: number; last: number } | Reason {
  if (curve.times.length === 0) return "no-rows";
  if (curve.totalEvents === 0) return "no-events";
  const inside = curve.notYet.map((share) => share > 0 && share < 1);
  const firstEvent = inside.indexOf(true);
  if (firstEvent < 0) return "all-returned";
  const lastInside = inside.lastIndexOf(true);
  let lastEvent = lastInside;
  while (curve.events[lastEvent]! === 0) lastEvent--;
  const first = from === undefined ? firstEvent : Math.max(firstEvent, countUpTo(curve.times, from) - 1);
  const last = to === undefined ? lastEvent : Math.min(lastInside, countUpTo(curve.times, to) - 1);
  if (first > lastInside) return "beyond-follow-up";
  return last < first ? "no-events" : { first, last };
}

/** @throws ArgumentError for `to` before `from` */
export function checkOrder({ from, to }: Reach): void {
  if (from !== undefined && to !== undefined && to < from)
    throw new ArgumentError({
      argument: "to",
      index: null,
      expected: `at or after from, which is ${from}`,
      found: to,
    });
}

const simultaneousBandNames: NamesOf<Parameters<typeof simultaneousBand>[0]> = {
  times: true,
  events: true,
  entries: true,
  weights: true,
};

/**
 * Band that holds the whole product-limit curve between two times with the stated probability, where pointwise limits would each hold
 * one point.
 *
 * With s the standard error of log S(t) by Greenwood's sum, n the rows and a(t) = n s^2 / (1 + n s^2), the half-width on the scale of
 * log S is c s (equal precision: pointwise intervals widened alike) or k (1 + n s^2) / sqrt(n) (Hall-Wellner: wider at the ends), carried
 * to the scale chosen as the pointwise limits are. c and k are solved exactly for the range of a(t) from the first time to the last. With
 * delayed entry the equal-precision band stays valid, for it depends on the ratio of the variances only; Hall-Wellner's is then one of a family,
 * n standing for the total entered.
 *
 * @param columns times, events, entries as in TimeToEvent; weights: repeat counts. With clusters the increments of the curve depend on
 *   each other: clusteredBand.
 * @returns an empty band with `no-rows`, `no-events` (none up to `to`), `all-returned` (the first event leaves nobody) or `beyond-follow-up`
 * @throws ArgumentError naming the column and index, the option at fault, or `to` before `from`
 * @source Nair 1984, Technometrics 26:265; Hall & Wellner 1980, Biometrika 67:133; scales: Borgan & Liestol 1990, Scand J Stat 17:35
 * @example
 * simultaneousBand({ times: [3, 5, 8, 9], events: [1, 1, 1, 1] }).times // => [3, 5, 8]
 */
export function simultaneousBand(
  columns: Omit<TimeToEvent, "clusters">,
  options: BandOptions = {},
): SimultaneousBand {
  checkColumnNames(simultaneousBandNames, { columns });
  const { kind, scale, level, ...reach } = readOptions(bandOptions, options);
  checkOrder(reach);
  const curve = productLimit(columns, { variance: "greenwood" });
  const found = bandSteps(curve, reach);
  const common = { kind, scale, level };
  if (typeof found === "string")
    return {
      times: [],
      notYet: [],
      lower: [],
      upper: [],
      range: null,
      criticalValue: null,
      ...common,
      reason: found,
    };
  const n = curve.total;
  const errorAt = (index: number): number => curve.standardError[index]! / curve.notYet[index]!;
  const position = (index: number): number => 1 / (1 + 1 / (n * errorAt(index) ** 2));
  const range = { from: position(found.first), to: position(found.last) };
  const criticalValue =
    kind === "equal-precision"
      ? equalPrecisionCritical(range, { level })
      : hallWellnerCritical(range, { level });
  const halfWidth = (error: number): number =>
    kind === "equal-precision"
      ? criticalValue * error
      : (criticalValue * (1 + n * error * error)) / Math.sqrt(n);
  const listed = curve.times
    .map((_, i) => i)
    .filter((index) => index >= found.first && index <= found.last)
    .filter((index) => curve.times[index]! >= (reach.from ?? 0));
  const limits = listed.map((index) =>
    limitsOfShare({ share: curve.notYet[index]!, errorOfLog: halfWidth(errorAt(index)) }, { scale, z: 1 }),
  );
  return {
    times: listed.map((index) => curve.times[index]!),
    notYet: listed.map((index) => curve.notYet[index]!),
    lower: limits.map((pair) => pair?.[0] ?? 0),
    upper: limits.map((pair) => pair?.[1] ?? 1),
    range,
    criticalValue,
    ...common,
    reason: null,
  };
}
