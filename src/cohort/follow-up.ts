import { dayNumber } from "../schema/dates.js";
import type { Milestone } from "../schema/terms.js";
import { milestoneDates, milestoneFields } from "./milestone-fields.js";
import type { LinkedInjury } from "./record.js";

/**
 * Day number of the last contact at which the state of a milestone was known: the latest of
 * last_contact_date, whatever contact answers for that milestone (a visit saying yes or no, a bound), and the
 * date of any milestone, since whoever reports one has been in contact. A milestone left blank is then read as
 * not reached by that day.
 */
export function lastContactDay(linked: LinkedInjury, milestone: Milestone): number {
  const { values } = linked.injury;
  const { notBefore, notAfter, no, yes } = milestoneFields(linked, milestone);
  let last = dayNumber(values.last_contact_date);
  for (const column of milestoneDates) {
    const date = values[column];
    if (date !== null) last = Math.max(last, dayNumber(date));
  }
  return Math.max(last, notBefore ?? last, notAfter ?? last, ...no, ...yes);
}
