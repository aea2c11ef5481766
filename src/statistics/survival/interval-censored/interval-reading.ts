import { checkColumn, checkNumber } from "../../shared/arguments.js";
import { countBelow, countUpTo } from "../../shared/distinct-times.js";
import type { Figure } from "../../shared/figure.js";
import { checkResult } from "../../shared/options.js";
import type { IntervalCurve } from "./interval-curve.js";

/** Share without the event at a time: between these two, which are equal where the curve is determined. */
export interface IntervalShare {
  readonly time: number;
  /** Null without rows. */
  readonly lower: number | null;
  readonly upper: number | null;
  readonly undetermined: boolean;
}

/** Ends of the intervals that hold mass, Infinity for an open one. */
const endsOf = (curve: IntervalCurve): number[] => curve.to.map((to) => to ?? Number.POSITIVE_INFINITY);

/** Share left after the first `count` intervals. */
const leftAfter = (curve: IntervalCurve, count: number): number =>
  count === 0 ? 1 : curve.notYetAfter[count - 1]!;

/**
 * Share without the event at given times. Inside an interval that holds mass (after `from`, before `to`) the data do not say where
 * the curve falls: the share lies between that before the interval and that after it.
 *
 * @param times 0 or more, any order
 * @returns one entry a time; null for a curve without rows. After the last interval with an end, up to the last share: `undetermined`.
 * @throws ArgumentError for a time that is not finite or is negative
 * @source Turnbull 1976, J R Stat Soc B 38:290
 */
export function intervalShares(curve: IntervalCurve, times: ArrayLike<number>): IntervalShare[] {
  checkResult({ curve }, { expected: "a result of intervalCurve", has: ["from", "to", "notYetAfter"] });
  checkColumn({ name: "times", values: times }, "not negative");
  const ends = endsOf(curve);
  return Array.from(times, (time) => {
    if (ends.length === 0) return { time, lower: null, upper: null, undetermined: true };
    const ended = countUpTo(ends, time);
    const begun = Math.max(ended, countBelow(curve.from, time));
    const undetermined = begun > ended;
    return { time, lower: leftAfter(curve, begun), upper: leftAfter(curve, ended), undetermined };
  });
}

/** When a share has had the event: after `earliest` and no later than `latest`; both the same for an exact time. */
export interface IntervalQuantile {
  readonly earliest: Figure;
  readonly latest: Figure;
}

/** Masses come from iterations: shares closer than this are one. */
const sameShare = 1e-9;

/**
 * The time by which a share p has had the event (0.5: the median), as the interval that holds it.
 *
 * The first interval of the curve after which at most 1 - p are without the event. Where the curve stays at exactly 1 - p for a while, its
 * start counts.
 *
 * @returns `latest` is `not-reached` where that interval has no end; `no-rows` without rows. An interval from before time 0 starts at 0.
 * @throws ArgumentError for p outside (0, 1)
 */
export function intervalQuantile(curve: IntervalCurve, p: number): IntervalQuantile {
  checkResult({ curve }, { expected: "a result of intervalCurve", has: ["from", "to", "notYetAfter"] });
  checkNumber({ name: "p", value: p }, "open share");
  const at = curve.notYetAfter.findIndex((share) => share <= 1 - p + sameShare);
  if (at < 0) {
    const none: Figure = { value: null, reason: curve.reason ?? "not-reached" };
    return { earliest: none, latest: none };
  }
  const to = curve.to[at] as number | null;
  return {
    earliest: { value: Math.max(0, curve.from[at]!) },
    latest: to === null ? { value: null, reason: "not-reached" } : { value: to },
  };
}
