import { dateOfDay, dayNumber, type IsoDate } from "../dates.js";
import { dayProblem } from "./day.js";
import { daysOfWeek } from "./iso-week.js";

/** How a period is written, which also says how exactly a day is known. */
export type PeriodForm = "day" | "week" | "month" | "span";

/** The days that a text stands for, the first and the last included. */
export interface Period {
  readonly form: PeriodForm;
  readonly first: IsoDate;
  readonly last: IsoDate;
}

/** The forms of a period as one pattern, for schemas; whether the days exist is for `periodOf`. */
export const periodPattern = /^\d{4}-(?:\d{2}(?:-\d{2}(?:\/\d{4}-\d{2}-\d{2})?)?|W\d{2})$/;

/**
 * The days that a period in canonical text stands for: a day `2024-03-04`, a month `2024-03`, a calendar week
 * `2024-W10` (Monday to Sunday), a span `2024-03-01/2024-03-31` (some day from the first to the last, both included).
 * Null for any other text, for days that do not exist, and for a span that ends before it begins.
 *
 * @source ISO 8601-1:2019, 5.2 and 5.5
 * @example
 * periodOf("2024-W10") // => { form: "week", first: "2024-03-04", last: "2024-03-10" }
 */
export function periodOf(text: string): Period | null {
  if (!periodPattern.test(text)) return null;
  if (text.length === 10) return isDay(text) ? { form: "day", first: text, last: text } : null;
  const [first = "", last] = text.split("/");
  if (last !== undefined)
    return isDay(first) && isDay(last) && first <= last ? { form: "span", first, last } : null;
  const year = Number(first.slice(0, 4));
  if (first[5] === "W") {
    const days = daysOfWeek(year, Number(first.slice(6)));
    return days === null ? null : { form: "week", ...days };
  }
  const firstDay = `${first}-01`;
  if (!isDay(firstDay)) return null;
  // 31 days after the first of a month lie in the next month, whatever its length
  const next = `${dateOfDay(dayNumber(firstDay) + 31).slice(0, 8)}01`;
  return { form: "month", first: firstDay, last: dateOfDay(dayNumber(next) - 1) };
}

const isDay = (text: string): boolean =>
  dayProblem(Number(text.slice(0, 4)), Number(text.slice(5, 7)), Number(text.slice(8, 10))) === null;
