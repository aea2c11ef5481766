import type { TimeToEvent } from "../shared/time-to-event.js";
import { type CompetingEvents, checkCauses } from "./competing-events.js";
import { sharesNotYet } from "./product-limit.js";
import { prepareRiskSets, type RiskSets } from "./risk-sets.js";

/** Shares of an event that may have competitors, after each time: 1 = notYet - competed + own incidence. */
export interface SharesOfEvent {
  /** Without any event. */
  readonly eventFree: readonly number[];
  /** With a competing end; null where none are told apart. */
  readonly competed: Float64Array | null;
  /** Without the event: event-free or with a competing end. */
  readonly notYet: number[];
}

/** Counts at each time: all events, and the two kinds of which they are. */
export interface CountsOfEvent {
  readonly atRisk: ArrayLike<number>;
  readonly events: ArrayLike<number>;
  readonly own: ArrayLike<number>;
  readonly competing: ArrayLike<number> | null;
}

/** One event and its competitors in rows sorted once. */
export interface PreparedEvent extends SharesOfEvent {
  /** Its events are of all kinds. */
  readonly riskSets: RiskSets;
  readonly own: Float64Array;
  readonly competing: Float64Array | null;
  /** Of each row: 0 follow-up ended, 1 the event, 2 a competing end. */
  readonly ends: ArrayLike<number>;
  readonly weights: ArrayLike<number> | undefined;
}

/**
 * The share without the event is that without any plus that with a competing end: so it is the product-limit curve to the last digit where
 * nobody had a competing end, and 0 exactly where everybody had the event. Where nobody has the event it stays as it is to the last digit.
 */
export function sharesOfEvent({ atRisk, events, own, competing }: CountsOfEvent): SharesOfEvent {
  const eventFree = sharesNotYet({ atRisk, events });
  if (competing === null) return { eventFree, competed: null, notYet: eventFree };
  const competed = new Float64Array(eventFree.length);
  const notYet = new Array<number>(eventFree.length);
  let before = 1;
  let sum = 0;
  let share = 1;
  for (let i = 0; i < notYet.length; i++) {
    sum += (before * competing[i]!) / atRisk[i]!;
    before = eventFree[i]!;
    if (own[i]! > 0) share = Math.min(share, before + sum);
    competed[i] = sum;
    notYet[i] = share;
  }
  return { eventFree, competed, notYet };
}

/** An event without competitors. @throws ArgumentError naming the column and index of a value at fault */
export function preparedEvent(columns: TimeToEvent): PreparedEvent {
  const riskSets = prepareRiskSets(columns);
  const { atRisk, events } = riskSets;
  return {
    riskSets,
    own: events,
    competing: null,
    ends: columns.events,
    weights: columns.weights,
    ...sharesOfEvent({ atRisk, events, own: events, competing: null }),
  };
}

/** One cause beside the others. @throws ArgumentError naming the column and index of a value at fault */
export function preparedCause(
  { causes, ...rest }: CompetingEvents,
  { cause }: { readonly cause: number },
): PreparedEvent {
  checkCauses({ causes, ...rest });
  const ends = Uint8Array.from(causes, (one) => (one === 0 ? 0 : one === cause ? 1 : 2));
  const riskSets = prepareRiskSets({ ...rest, events: ends.map((end) => Math.min(end, 1)) });
  const { atRisk, events, rowTime } = riskSets;
  const own = new Float64Array(events.length);
  const competing = new Float64Array(events.length);
  for (let row = 0; row < ends.length; row++) {
    const into = ends[row] === 1 ? own : competing;
    if (ends[row]! > 0) into[rowTime[row]!]!++;
  }
  return {
    riskSets,
    own,
    competing,
    ends,
    weights: undefined,
    ...sharesOfEvent({ atRisk, events, own, competing }),
  };
}
