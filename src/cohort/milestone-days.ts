import { dayNumber } from "../schema/dates.js";
import { type Milestone, milestones, type Precision } from "../schema/terms.js";
import { calendarSpan } from "./calendar-span.js";
import { type MilestoneFields, milestoneFields } from "./milestone-fields.js";
import type { LinkedInjury } from "./record.js";

/** A milestone on the calendar, in day numbers (1970-01-01 = 0): reached in (left, right]. */
export interface MilestoneDays {
  /** Last day known to be before it; -Infinity where no day is. */
  readonly left: number;
  /** Infinity where nothing is known after that day, not even whether it was reached. */
  readonly right: number;
  /** The day written down for it; null where it is known from contacts only. */
  readonly dated: number | null;
  readonly known: Precision | "visits";
}

/**
 * When a milestone was reached, on the calendar. The first of these that has something to say is taken:
 *
 * 1. its date: day d (d - 1, d]; week (d - 4, d + 3]; month, the calendar month that holds d. Narrowed by
 *    not_before and not_after, (not_before, not_after]; where the two have no day in common the date is kept.
 *    Whoever is known to be back by a last contact was back by then, so the interval also ends there.
 * 2. contacts: it ends at not_after or, where that is blank, at the first visit after not_before that says
 *    'yes'; it begins at not_before or, where that is blank, at the last visit before its end that says 'no'.
 *    A 'no' after the first 'yes' changes nothing.
 * 3. a higher milestone: who is back at the previous level climbs fully, who climbs fully climbs. This gives an
 *    end only (the day by which the higher one was reached) and is never more exact than that: the interval
 *    begins at the last contact that said 'not yet'. It is withdrawn where a contact on or after that day
 *    still said 'not yet'.
 *
 * 4. not_before alone, where that is all that is known: it ends nowhere.
 *
 * @returns null where nothing says that it was reached
 */
export function milestoneDays(linked: LinkedInjury, milestone: Milestone): MilestoneDays | null {
  const fields = milestoneFields(linked, milestone);
  return (
    fromDate(fields, dayNumber(linked.injury.values.last_contact_date)) ??
    fromContacts(fields) ??
    fromHigherMilestone(linked, { milestone, fields }) ??
    fromBoundAlone(fields)
  );
}

function fromDate(fields: MilestoneFields, lastContact: number): MilestoneDays | null {
  const { date, precision, notBefore, notAfter } = fields;
  if (date === null) return null;
  const { first, last } = calendarSpan(date, precision);
  const dated = dayNumber(date);
  const left = Math.max(first - 1, notBefore ?? Number.NEGATIVE_INFINITY);
  const right = Math.min(last, notAfter ?? Number.POSITIVE_INFINITY);
  const kept = left < right ? { left, right } : { left: first - 1, right: last };
  return {
    left: kept.left,
    right: dated <= lastContact && kept.left < lastContact ? Math.min(kept.right, lastContact) : kept.right,
    dated,
    known: precision ?? "day",
  };
}

function fromContacts({ notBefore, notAfter, no, yes }: MilestoneFields): MilestoneDays | null {
  const right = notAfter ?? yes.find((day) => notBefore === null || day > notBefore);
  if (right === undefined) return null;
  const left = notBefore ?? no.findLast((day) => day < right) ?? Number.NEGATIVE_INFINITY;
  return { left, right, dated: null, known: "visits" };
}

function fromBoundAlone({ isOpen, notBefore, no }: MilestoneFields): MilestoneDays | null {
  if (!isOpen || notBefore === null) return null;
  return { left: Math.max(notBefore, ...no), right: Number.POSITIVE_INFINITY, dated: null, known: "visits" };
}

function fromHigherMilestone(
  linked: LinkedInjury,
  { milestone, fields: { no, notBefore } }: { milestone: Milestone; fields: MilestoneFields },
): MilestoneDays | null {
  // The next one up looks further up by itself.
  const next = milestones[milestones.indexOf(milestone) + 1];
  const higher = next === undefined ? null : milestoneDays(linked, next);
  if (higher === null || higher.right === Number.POSITIVE_INFINITY) return null;
  const lastNotYet = Math.max(Number.NEGATIVE_INFINITY, notBefore ?? Number.NEGATIVE_INFINITY, ...no);
  if (lastNotYet >= higher.right) return null;
  return { left: lastNotYet, right: higher.right, dated: null, known: "visits" };
}
