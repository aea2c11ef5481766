import {
  boundAfter,
  elapsedDays,
  inWordsOfTime,
  periodAfter,
  type TimeBound,
  timeBound,
} from "../../../schema/cells/dates/elapsed-time.js";
import { writtenDateReader } from "../../../schema/cells/dates/read-written-date.js";
import { periodOf } from "../../../schema/cells/period.js";
import type { DateOrder } from "../../../schema/cells/read-date.js";
import { problem, type Reading } from "../../../schema/cells/reading.js";
import { dateOfDay, dayNumber } from "../../../schema/dates.js";

/** How the dates of a column are written. */
export interface DateForm {
  readonly order: DateOrder;
  /** Two-digit years up to this one are of 2000 and later; null leaves them a question. */
  readonly twoDigitYearsUntil: number | null;
  readonly dayNumbersFrom: 1900 | 1904 | null;
  /** Whether a month, a week or a span without a day can be handed on. */
  readonly periods: "taken" | "queried";
  /** What a plain number counts since the injury, where the column holds times and not dates. */
  readonly counted?: "days" | "weeks" | "months" | "asked" | undefined;
  /** Whether `5/7` and `3/12` are days and months; by default only where plain numbers are times too. */
  readonly fractions?: "times" | "asked" | undefined;
}

const plainNumber = /^\d{1,3}(?:[.,]\d)?$/;

/**
 * The reader of a column of dates: a date of the file in ISO 8601, or why it can't be told. A time since the injury
 * ("8 weeks") is the span of days in which it ended, a bound of it (">12") a day that it came later than.
 */
export function dateTextReader({
  order,
  twoDigitYearsUntil,
  dayNumbersFrom,
  periods,
  counted = "asked",
  fractions = counted === "asked" ? "asked" : "times",
}: DateForm): (cell: string, injury: string) => Reading {
  const read = writtenDateReader({
    order: order === "year-first" ? "undecided" : order,
    twoDigitYearsUntil,
    epoch: dayNumbersFrom,
  });
  const asked = (reading: Reading): Reading =>
    periods === "queried" && "value" in reading && String(reading.value).length !== 10
      ? problem(String(reading.value).startsWith(">") ? "date-unreadable" : "date-month-only")
      : reading;
  const timeOf = (cell: string): string =>
    counted !== "asked" && plainNumber.test(cell)
      ? `${cell} ${counted}`
      : fractions === "times"
        ? inWordsOfTime(cell)
        : cell;
  return (cell, injury) => {
    const bound = timeBound(cell);
    const elapsed = timeOf(bound?.rest ?? cell);
    if (elapsedDays(elapsed) !== null)
      return asked(
        bound === null ? periodAfter(injury, elapsed) : boundAfter(injury, { ...bound, rest: elapsed }),
      );
    const reading = asked(bound?.side === "later" ? laterThanDay(read(bound.rest), bound) : read(cell));
    const isUnread = "problem" in reading && reading.problem === "date-unreadable";
    return isUnread && periods === "taken" && mayBeTime(bound?.rest ?? cell)
      ? problem("time-without-unit")
      : reading;
  };
}

/** Whether a cell would be a time since the injury, were it known in what unit. */
const mayBeTime = (cell: string): boolean =>
  plainNumber.test(cell) || elapsedDays(inWordsOfTime(cell)) !== null;

/** What came later than a day that is known; "from that day on" is later than the day before. */
function laterThanDay(reading: Reading, { mayBeIt }: TimeBound): Reading {
  if ("problem" in reading) return reading;
  const day = periodOf(String(reading.value));
  if (day?.form !== "day") return problem("date-unreadable");
  return { value: `>${mayBeIt ? dateOfDay(dayNumber(day.first) - 1) : day.first}` };
}

/** A date of the file as a day; null for any other text. */
export function dayReader(form: Omit<DateForm, "periods" | "counted">): (cell: string) => string | null {
  const read = dateTextReader({ ...form, periods: "queried" });
  return (cell) => {
    const reading = read(cell, "");
    return "value" in reading && reading.value !== null ? String(reading.value) : null;
  };
}
