import { dateOfDay, dayNumber, type IsoDate } from "../schema/dates.js";
import type { Precision } from "../schema/terms.js";

/** Day numbers (1970-01-01 = 0) from the first to the last day that a date may stand for, both included. */
export interface CalendarSpan {
  readonly first: number;
  readonly last: number;
}

/** A date known to the week stands for itself and three days either side. */
const daysEitherSide = 3;

/**
 * The days that a date of a given precision may stand for: `day` the date itself, `week` three days either
 * side of it, `month` the calendar month that holds it.
 *
 * @param precision blank (null) is read as day
 * @example
 * calendarSpan("2024-02-10", "month") // => { first: dayNumber("2024-02-01"), last: dayNumber("2024-02-29") }
 */
export function calendarSpan(date: IsoDate, precision: Precision | null): CalendarSpan {
  const day = dayNumber(date);
  switch (precision) {
    case "week":
      return { first: day - daysEitherSide, last: day + daysEitherSide };
    case "month": {
      const first = firstOfMonth(date);
      // 31 days after the first of a month lie in the next month, whatever its length.
      return { first, last: firstOfMonth(dateOfDay(first + 31)) - 1 };
    }
    default:
      return { first: day, last: day };
  }
}

const firstOfMonth = (date: IsoDate) => dayNumber(`${date.slice(0, 8)}01`);
