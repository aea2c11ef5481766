import { dayNumber } from "../schema/dates.js";
import type { Precision } from "../schema/terms.js";
import { calendarSpan } from "./calendar-span.js";
import type { Question } from "./question.js";
import type { ExclusionCode, LinkedInjury } from "./record.js";
import { firstTreatment } from "./treatment.js";

/** Day 0 of a record, and how far the true one may lie from it. */
export interface ClockStart {
  /** Day number of day 0, 1970-01-01 = 0. */
  readonly day: number;
  /** How exactly it is known. */
  readonly precision: Precision;
  /** Days by which the true day 0 may lie before the recorded one, and after it; 0 for an exact day. */
  readonly earlierBy: number;
  readonly laterBy: number;
}

/**
 * Day 0 under the question's clock: the day of the injury, of the first visit as the injuries table has it,
 * or of the first treatment of interest.
 *
 * Only an injury may be dated roughly: known to the week its true day lies up to 3 days either side, known to
 * the month anywhere in that calendar month. The first visit is never guessed from the visits table, whose
 * first row may be a later one.
 *
 * @returns a code where the day that the clock needs was not recorded
 */
export function clockStart(linked: LinkedInjury, question: Question): ClockStart | ExclusionCode {
  const { injury_date, injury_date_precision, first_visit_date } = linked.injury.values;
  switch (question.clock) {
    case "injury": {
      const day = dayNumber(injury_date);
      const { first, last } = calendarSpan(injury_date, injury_date_precision);
      return { day, precision: injury_date_precision ?? "day", earlierBy: day - first, laterBy: last - day };
    }
    case "first_visit":
      return first_visit_date === null ? "no-first-visit" : exactly(dayNumber(first_visit_date));
    case "treatment_start": {
      const first = firstTreatment(linked, question);
      if (first === null) return "no-treatment-to-start-the-clock";
      return first.day === null ? "treatment-without-start" : exactly(first.day);
    }
  }
}

const exactly = (day: number): ClockStart => ({ day, precision: "day", earlierBy: 0, laterBy: 0 });
