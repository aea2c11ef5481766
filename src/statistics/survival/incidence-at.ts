import { countUpTo } from "../shared/distinct-times.js";
import type { Reason } from "../shared/figure.js";
import { checkResult, needed, number, type OptionsOf, readOptions } from "../shared/options.js";
import type { CumulativeIncidence } from "./cumulative-incidence.js";
import { atRiskAt } from "./risk-sets.js";

/** What the curves say at one time about one cause. */
export interface IncidenceAt {
  readonly time: number;
  readonly cause: number;
  readonly incidence: number | null;
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly eventFree: number | null;
  readonly atRisk: number;
  /** Events of this cause up to and including this time. */
  readonly cumulativeEvents: number;
  /** Why there is no incidence. */
  readonly reason: Reason | null;
  /** Why there is an incidence and no interval: no event of this cause yet, or nobody left. */
  readonly limitsReason: Reason | null;
}

export const incidenceQuestion = {
  time: needed(number("not negative")),
  /** Which event: 1, 2, ... */
  cause: needed(number("positive count")),
};

export interface IncidenceQuestion extends OptionsOf<typeof incidenceQuestion> {}

/**
 * Cumulative incidence of a cause at any time; null, `beyond-follow-up`, after the last follow-up unless everybody had some event.
 *
 * @param options time: 0 or more; cause: 1 or more. A cause that nobody had has incidence 0 without interval.
 * @throws ArgumentError for a time or cause out of range
 */
export function incidenceAt(curves: CumulativeIncidence, options: IncidenceQuestion): IncidenceAt {
  checkResult(
    { curves },
    { expected: "a result of cumulativeIncidence", has: ["times", "causes", "eventFree"] },
  );
  const { time, cause } = readOptions(incidenceQuestion, options);
  const reached = countUpTo(curves.times, time);
  const own = curves.causes.find((one) => one.cause === cause);
  let cumulativeEvents = 0;
  for (let i = 0; own && i < reached; i++) cumulativeEvents += own.events[i]!;
  const counts = { time, cause, atRisk: atRiskAt(curves, time), cumulativeEvents };
  const last = curves.eventFree[curves.eventFree.length - 1] ?? 1;
  const silent =
    curves.lastTime === null ? "no-rows" : time > curves.lastTime && last > 0 ? "beyond-follow-up" : null;
  if (silent !== null) {
    const none = { incidence: null, standardError: null, lower: null, upper: null, eventFree: null };
    return { ...counts, ...none, reason: silent, limitsReason: silent };
  }
  const incidence = own?.incidence[reached - 1] ?? 0;
  const lower = own?.lower[reached - 1] ?? null;
  const without = cumulativeEvents === 0 ? "no-events" : incidence < 1 ? "no-variance" : "all-returned";
  return {
    ...counts,
    incidence,
    standardError: own?.standardError[reached - 1] ?? 0,
    lower,
    upper: own?.upper[reached - 1] ?? null,
    eventFree: curves.eventFree[reached - 1] ?? 1,
    reason: null,
    limitsReason: lower === null ? without : null,
  };
}
