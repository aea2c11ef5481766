import { dayNumber } from "../schema/dates.js";
import { levelRank } from "../schema/levels.js";
import type { CompetingEnd } from "../schema/terms.js";
import { closeDay } from "./close.js";
import { dayOfEnd, daysOfSurgery } from "./ends.js";
import { lastContactDay } from "./follow-up.js";
import type { Question } from "./question.js";
import type { AfterReturn, LevelKept, LinkedInjury } from "./record.js";

/** The return that the rest came after. */
interface Returned {
  readonly question: Question;
  readonly dayZero: number;
  /** Day number that stands in for the milestone beside other dates. */
  readonly day: number;
  /** The record's time: the day of the milestone from day 0, what is unknown of day 0 allowed for. */
  readonly time: number;
}

/**
 * What came after the milestone by the close of the data.
 *
 * - newRupture: new_rupture_date. One before the return is no new rupture after it: it is the competing end `new_rupture` where the question
 *   names that, and nothing where it does not.
 * - surgery: the first that began on that day or later, whatever the first treatment was.
 * - gaveUp, died: as the competing ends, where the question names them.
 * - followedUntil: the last contact or visit, or the last of these where that is later.
 * - level: level_after beside level_before; with that blank, level_now of the last visit that has one. Only the order of two levels is read.
 *
 * On the day of the return itself the return comes first.
 */
export function afterReturn(linked: LinkedInjury, returned: Returned): AfterReturn {
  const { question, dayZero, day, time } = returned;
  const close = closeDay(question.closedOn);
  const since = (found: number | null): number | null =>
    found === null || found < day || found > close ? null : Math.max(found - dayZero, time);
  const named = (end: CompetingEnd): number | null =>
    question.competingEnds.includes(end) ? since(dayOfEnd[end](linked, question)) : null;
  const surgery = daysOfSurgery(linked).find((operated) => operated >= day) ?? null;
  const events = {
    newRupture: since(dayOfEnd.new_rupture(linked, question)),
    surgery: since(surgery),
    gaveUp: named("gave_up"),
    died: named("died"),
  };
  const days = Object.values(events).filter((found) => found !== null);
  const known = Math.min(lastKnownDay(linked, question), close) - dayZero;
  return {
    ...events,
    followedUntil: Math.max(time, known, ...days),
    level: levelKept(linked, { day, close }),
  };
}

function lastKnownDay(linked: LinkedInjury, { milestone }: Question): number {
  const last = linked.visits.at(-1);
  const contact = lastContactDay(linked, milestone);
  return last === undefined ? contact : Math.max(contact, dayNumber(last.values.date));
}

function levelKept(
  { injury: { values }, visits }: LinkedInjury,
  { day, close }: { readonly day: number; readonly close: number },
): LevelKept | null {
  const { level_scale, level_before, level_after, last_contact_date } = values;
  if (level_scale === null || level_before === null) return null;
  const isAfter = (date: string) => dayNumber(date) >= day && dayNumber(date) <= close;
  const atVisit = visits.findLast((visit) => visit.values.level_now !== null && isAfter(visit.values.date));
  const atLast = isAfter(last_contact_date) ? level_after : null;
  const level = atLast ?? atVisit?.values.level_now ?? null;
  const before = levelRank(level_before, level_scale);
  const now = level === null ? null : levelRank(level, level_scale);
  if (before === null || now === null) return null;
  return now < before ? "below" : now > before ? "above" : "same";
}
