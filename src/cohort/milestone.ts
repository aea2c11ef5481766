import { type Precision, precisions } from "../schema/terms.js";
import type { ClockStart } from "./clock.js";
import type { MilestoneDays } from "./milestone-days.js";
import type { MilestoneTime } from "./record.js";

/** A milestone that was reached, in whole days from day 0: in (left, right]. */
export type ReachedTime = MilestoneTime & { readonly right: number };

/** Before day 0 nothing is counted, so that an interval never begins earlier than this. */
const dayBeforeClock = -1;

/**
 * A milestone as known when the data were closed: null where it was not yet known to be reached.
 *
 * One that is dated by the close was reached by the close. One that is dated later, or that lies between two
 * contacts of which only the first fell before the close, was not yet known.
 *
 * @param close day number of the close; infinite where none is stated
 */
export function reachedByClose(days: MilestoneDays, close: number): MilestoneDays | null {
  const told =
    (days.right <= close && days.right < Number.POSITIVE_INFINITY) ||
    (days.dated !== null && days.dated <= close);
  return told && days.left < close ? { ...days, right: Math.min(days.right, close) } : null;
}

/**
 * A milestone in days from day 0, widened by what is unknown of day 0 itself.
 *
 * With the true day 0 up to `earlierBy` days before the recorded one and up to `laterBy` after it, a milestone in
 * (L, R] on the calendar lies in (L - day 0 - laterBy, R - day 0 + earlierBy]. What it rests on is then the
 * coarser of the two dates. The interval begins at -1 at the earliest.
 *
 * @returns right is negative where the milestone was surely reached before day 0
 */
export function milestoneTime(
  days: MilestoneDays,
  { day, precision, earlierBy, laterBy }: ClockStart,
): ReachedTime {
  const right = days.right - day + earlierBy;
  return {
    left: Math.max(days.left - day - laterBy, Math.min(dayBeforeClock, right - 1)),
    right,
    known: coarser(days.known, precision),
  };
}

/**
 * The milestone of a record that ended without it.
 *
 * @param knownUntil last day, from the recorded day 0, that is known to be before the milestone
 */
export function notReached(knownUntil: number, { laterBy }: Pick<ClockStart, "laterBy">): MilestoneTime {
  return { left: Math.max(dayBeforeClock, knownUntil - laterBy), right: null, known: "not_reached" };
}

/** The less exact of two precisions; contacts are no date, and stay what they are. */
function coarser(known: MilestoneDays["known"], precision: Precision): MilestoneDays["known"] {
  if (known === "visits") return known;
  return precisions.indexOf(known) < precisions.indexOf(precision) ? precision : known;
}
