import { closeDay } from "../../cohort/close.js";
import type { Question } from "../../cohort/question.js";
import type { LinkedInjury } from "../../cohort/record.js";
import { dayNumber } from "../../schema/dates.js";
import type { Analysed } from "./analysed.js";
import { numbersOf } from "./numbers.js";
import type { ExactDescription } from "./site-description.js";

/**
 * When people were seen: contacts an injury, days from one to the next, and the longest time between two. The last contact of
 * a record is no visit by itself, since it is often the day on which the data were closed.
 */
export function scheduleOf(
  analysed: readonly Analysed[],
  { closedOn }: Pick<Question, "closedOn">,
): ExactDescription["schedule"] {
  const close = closeDay(closedOn);
  const contacts = analysed
    .map(({ linked }) => contactDays(linked).filter((day) => day <= close))
    .filter((days) => days.length > 0);
  const between = contacts.map((days) => days.slice(1).map((day, i) => day - days[i]!));
  return {
    seen: contacts.length,
    contacts: numbersOf(contacts.map((days) => days.length)),
    days_between: numbersOf(between.flat()),
    longest_gap: numbersOf(between.flatMap((gaps) => (gaps.length === 0 ? [] : [Math.max(...gaps)]))),
  };
}

/** Days of the visits and of the first visit, each once, in order. */
function contactDays({ injury, visits }: LinkedInjury): number[] {
  const { first_visit_date } = injury.values;
  const days = visits.map(({ values }) => dayNumber(values.date));
  if (first_visit_date !== null) days.push(dayNumber(first_visit_date));
  return [...new Set(days)].sort((one, other) => one - other);
}
