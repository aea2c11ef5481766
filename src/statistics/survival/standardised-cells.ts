import { rowsOf, type TimeToEvent, timeToEventNames } from "../shared/time-to-event.js";
import { type CompetingEvents, competingEventsNames } from "./competing-events.js";
import { type PreparedEvent, preparedCause, preparedEvent } from "./prepared-event.js";
import type { GroupedInStrata } from "./standardised-types.js";

export interface Cell {
  readonly rows: Int32Array;
  readonly prepared: PreparedEvent;
}

export function cellOf(
  columns: GroupedInStrata,
  { rows, cause }: { readonly rows: Int32Array; readonly cause: number },
): Cell {
  const prepared =
    "causes" in columns
      ? preparedCause(rowsOf<CompetingEvents>(columns, { rows, names: competingEventsNames }), { cause })
      : preparedEvent(rowsOf<TimeToEvent>(columns, { rows, names: timeToEventNames }));
  return { rows, prepared };
}

/** A curve is known at the horizon if somebody was followed that long, or nobody is left who might still have the event. */
export function endsBefore(horizon: number, { prepared: { riskSets, eventFree } }: Cell): boolean {
  const last = riskSets.times[riskSets.times.length - 1]!;
  return last < horizon && eventFree.at(-1)! > 0;
}

export type Pair<T> = readonly [T, T];
