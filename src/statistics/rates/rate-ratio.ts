import { betaLowerTail, betaQuantile, betaUpperTail } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import {
  checkColumnNames,
  type LevelOption,
  levelOption,
  type NamesOf,
  readOptions,
} from "../shared/options.js";
import { checkEventCount, type EventCount, eventCountNames } from "./event-rate.js";

/** Events and person-time of two independent groups. */
export interface TwoEventCounts {
  readonly a: EventCount;
  readonly b: EventCount;
}

const twoNames: NamesOf<TwoEventCounts> = { a: true, b: true };

/** Rate of a over that of b. */
export interface RateRatio {
  /** Null where it is infinite or not defined. */
  readonly estimate: number | null;
  readonly lower: number | null;
  /** Null where there is no upper bound: no events in b. */
  readonly upper: number | null;
  /** Two-sided: twice the smaller tail, so that it is below 1 - level just where the limits leave 1 out. */
  readonly p: number | null;
  readonly level: number;
  readonly reason: Reason | null;
}

/**
 * Ratio of two rates with exact conditional limits: given all events, those of a are binomial with p = r T_a / (r T_a + T_b), and the
 * exact limits of p give those of r.
 *
 * They hold where events come independently at a constant rate in each group; effective numbers from clusteredRate may be passed, but
 * people with rows in both groups are not accounted for.
 *
 * @returns nulls with `no-rows` where a group was followed for no time, with `no-events` where neither has any; without events in b alone
 *   the estimate and the upper limit are null (`not-positive`), the lower limit is there
 * @throws ArgumentError naming the count at fault, or the level
 * @source conditional on all events: Przyborowski & Wilenski 1940, Biometrika 31:313; limits of the share: Clopper & Pearson 1934, Biometrika
 *   26:404
 * @example
 * rateRatio({ a: { events: 10, personTime: 100 }, b: { events: 5, personTime: 100 } }).estimate // => 2
 */
export function rateRatio(counts: TwoEventCounts, options: LevelOption = {}): RateRatio {
  checkColumnNames(twoNames, { counts });
  const { a, b } = counts;
  checkColumnNames(eventCountNames, { a, b });
  const { level } = readOptions(levelOption, options);
  checkEventCount(a, "a.");
  checkEventCount(b, "b.");
  const none = { estimate: null, lower: null, upper: null, p: null, level };
  if (a.personTime === 0 || b.personTime === 0) return { ...none, reason: "no-rows" };
  if (a.events + b.events === 0) return { ...none, reason: "no-events" };
  const times = b.personTime / a.personTime;
  const tail = (1 - level) / 2;
  // the odds of each limit by whichever of p and 1 - p the quantile is of, so that neither loses its digits
  const below = { a: a.events, b: b.events + 1 };
  const above = { a: a.events + 1, b: b.events };
  const odds = (p: number, q: number) => (p / q) * times;
  const lower =
    a.events === 0 ? 0 : odds(betaQuantile(tail, below), betaQuantile(1 - tail, { a: below.b, b: below.a }));
  const upper =
    b.events === 0
      ? null
      : odds(betaQuantile(1 - tail, above), betaQuantile(tail, { a: above.b, b: above.a }));
  const equal = a.personTime / (a.personTime + b.personTime);
  const atLeast = a.events === 0 ? 1 : betaLowerTail(equal, below);
  const atMost = b.events === 0 ? 1 : betaUpperTail(equal, above);
  return {
    estimate: b.events === 0 ? null : (a.events / b.events) * times,
    lower,
    upper,
    p: Math.min(1, 2 * Math.min(atLeast, atMost)),
    level,
    reason: b.events === 0 ? "not-positive" : null,
  };
}
