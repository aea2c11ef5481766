import { dayNumber } from "../schema/dates.js";
import type { EntryRule } from "./question.js";
import type { LinkedInjury } from "./record.js";

/** Entry of a record that is at risk from day 0 on, day 0 included. */
const fromTheStart = -1;

/**
 * Day after which a record is at risk: it counts on (entry, time].
 *
 * With entry at the clock that is every day from day 0 on. With entry at the first visit it is the days after
 * that visit, since whoever was back by then could not have been seen to return; a first visit before day 0
 * leaves the record at risk from the start.
 *
 * Neither rule is right everywhere: entry at the first visit removes a bias of about 5 points where whoever was back is not in the
 * data, and makes one of about 4 where everybody is and those hurt worst come soonest
 * (tests/simulations/late-first-visits/README.md). The tables do not say which holds, so the study file does, and late first
 * visits are warned of.
 *
 * @param options dayZero: day number of day 0
 * @returns -1 for at risk from day 0 on; null where the first visit is needed and blank
 */
export function entryDay(
  { injury }: LinkedInjury,
  { entry, dayZero }: { readonly entry: EntryRule; readonly dayZero: number },
): number | null {
  if (entry === "clock") return fromTheStart;
  const { first_visit_date } = injury.values;
  return first_visit_date === null ? null : Math.max(fromTheStart, dayNumber(first_visit_date) - dayZero);
}
