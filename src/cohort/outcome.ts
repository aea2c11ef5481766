import { afterReturn } from "./after-return.js";
import type { ClockStart } from "./clock.js";
import { closeDay } from "./close.js";
import { dayOfEnd, type EndDay, firstCompetingEnd } from "./ends.js";
import { lastContactDay } from "./follow-up.js";
import { milestoneTime, notReached, type ReachedTime, reachedByClose } from "./milestone.js";
import { type MilestoneDays, milestoneDays } from "./milestone-days.js";
import type { Question } from "./question.js";
import type { ExclusionCode, LinkedInjury, OutcomeRecord, Span } from "./record.js";
import { singleDay } from "./time.js";

/** How a record ended, and when. */
export type Outcome = Pick<
  OutcomeRecord,
  "milestone" | "time" | "end" | "span" | "after" | "ruptureWithinReturn"
>;

/**
 * The milestone, the competing end or the end of follow-up, whichever came first.
 *
 * The milestone's day is the one that stands in for its interval under `question.inexactDates`; a competing end
 * on that same day comes after it, so that the milestone counts. Without either, the record is censored at the
 * last contact or at the close of the data, whichever is earlier; where the milestone was seen after the close,
 * at the last day that is known to be before it, since nobody knew the state on the days between; and likewise where all that is
 * known of the milestone is such a day, whatever came later.
 *
 * `milestone.right` is a number exactly where `end` is "milestone".
 *
 * @returns a code where the milestone surely lies before day 0, or where nothing is known from day 0 on
 */
export function outcomeOf(
  linked: LinkedInjury,
  { question, clock }: { readonly question: Question; readonly clock: ClockStart },
): Outcome | ExclusionCode {
  const days = milestoneDays(linked, question.milestone);
  const seen = days === null ? null : reachedByClose(days, closeDay(question.closedOn));
  const reached = seen === null ? null : milestoneTime(seen, clock);
  if (reached !== null && reached.right < 0) return "milestone-before-clock";

  const competing = endBefore(firstCompetingEnd(linked, question), days);
  const ruptureWithinReturn = seen !== null && liesWithin(seen, dayOfEnd.new_rupture(linked, question));
  if (seen !== null && reached !== null) {
    const day = standInDay(seen, { question, clock });
    if (competing === null || competing.day >= day) {
      const time = singleDay(reached, question.inexactDates);
      const after = afterReturn(linked, { question, dayZero: clock.day, day, time });
      const span = spanBefore(reached, {
        time,
        later: competing === null ? null : competing.day - clock.day,
      });
      return { milestone: reached, time, end: "milestone", span, after, ruptureWithinReturn };
    }
  }
  const { end, day } = competing ?? endOfFollowUp(linked, { question, days });
  const time = day - clock.day;
  if (time < 0) return "no-follow-up";
  const knownUntil = Math.min(time, (days?.left ?? Number.POSITIVE_INFINITY) - clock.day);
  const milestone = notReached(knownUntil, clock);
  const span =
    competing === null ? { left: milestone.left, right: null } : competingSpan(competing, { clock, time });
  return { milestone, time, end, span, after: null, ruptureWithinReturn };
}

/** Where nothing is known of the milestone after a day, no end after that day is known to have come before it. */
const endBefore = (competing: EndDay | null, days: MilestoneDays | null): EndDay | null =>
  days !== null && days.right === Number.POSITIVE_INFINITY && competing !== null && competing.day > days.left
    ? null
    : competing;

/** The span of a milestone that came before another end: no later than that, and never without the day that stands in for it. */
function spanBefore(
  { left, right }: ReachedTime,
  { time, later }: { readonly time: number; readonly later: number | null },
): Span {
  return { left, right: later === null ? right : Math.min(right, Math.max(time, later)) };
}

/** The span of a competing end, widened by what is unknown of day 0. */
function competingSpan(
  { knownBefore }: EndDay,
  { clock, time }: { readonly clock: ClockStart; readonly time: number },
): Span {
  const left = Math.max(-1, knownBefore - clock.day - clock.laterBy);
  return { left: Math.min(left, time - 1), right: time + clock.earlierBy };
}

/**
 * Day number that stands in for the milestone beside other dates, from which a competing end counts as later. Counted from the recorded day
 * 0: what is unknown of day 0 moves both together and can't turn their order round.
 */
function standInDay(
  seen: MilestoneDays,
  { question, clock }: { readonly question: Question; readonly clock: ClockStart },
): number {
  const exactClock = { ...clock, earlierBy: 0, laterBy: 0 };
  return clock.day + singleDay(milestoneTime(seen, exactClock), question.inexactDates);
}

/** Whether a day lies within the interval of a milestone; on its last day the milestone comes first, as on a day that is known. */
const liesWithin = ({ left, right }: MilestoneDays, day: number | null): boolean =>
  day !== null && left < day && day < right;

function endOfFollowUp(
  linked: LinkedInjury,
  { question, days }: { question: Question; days: MilestoneDays | null },
): { readonly end: "censored"; readonly day: number } {
  const known = days === null ? lastContactDay(linked, question.milestone) : days.left;
  return { end: "censored", day: Math.min(known, closeDay(question.closedOn)) };
}
