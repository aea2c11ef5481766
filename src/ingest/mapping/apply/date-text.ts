import { type DateOrder, dateReader } from "../../../schema/cells/read-date.js";
import { type DateEpoch, serialDay } from "../../../schema/cells/serial-day.js";

/** How the dates of a column are written. */
export interface DateForm {
  readonly order: DateOrder;
  /** Two-digit years up to this one are of 2000 and later; null leaves them a question. */
  readonly twoDigitYearsUntil: number | null;
  readonly dayNumbersFrom: DateEpoch | null;
  /** Whether a month or week without a day can be handed on. */
  readonly periods: "taken" | "queried";
}

const twoDigitYear = /^(\d{1,2})([-/. ])\s?(\d{1,2})\2\s?'?(\d{2})$/;
const dayNumber = /^\d{5}$/;
const yearMonth = /^(\d{4})[-/.](\d{1,2})$/;
const monthYear = /^(\d{1,2})[-/.](\d{4})$/;
const week = /^(?:kw|cw|week|wk|sem\.?)\s?(\d{1,2})[\s/.-]+(\d{4})$/i;
const midnight = /[T ]0{1,2}:00(?::00(?:\.0+)?)?$/;

/**
 * A date of the file in ISO 8601: a day, or where that is taken a month (`2024-03`) or a week (`2024-W10`).
 * Null for what is no date or could be two: that stays a question.
 */
export function dateText(
  cell: string,
  { order, twoDigitYearsUntil, dayNumbersFrom, periods }: DateForm,
): string | null {
  const text = cell.replace(midnight, "");
  if (dayNumbersFrom !== null && dayNumber.test(text)) return serialDay(Number(text), dayNumbersFrom);
  const reading = dateReader(order)(withFullYear(text, twoDigitYearsUntil));
  if ("value" in reading) return String(reading.value);
  return periods === "taken" ? periodText(text) : null;
}

function withFullYear(text: string, until: number | null): string {
  const parts = until === null ? null : twoDigitYear.exec(text);
  if (parts === null || until === null) return text;
  const year = Number(parts[4]);
  return `${parts[1]}.${parts[3]}.${year <= until ? 2000 + year : 1900 + year}`;
}

function periodText(text: string): string | null {
  const [, month = "", year = ""] = monthYear.exec(text) ?? reversed(yearMonth.exec(text)) ?? [];
  if (year !== "")
    return Number(month) >= 1 && Number(month) <= 12 ? `${year}-${month.padStart(2, "0")}` : null;
  const [, number = "", yearOfWeek = ""] = week.exec(text) ?? [];
  return yearOfWeek === "" ? null : `${yearOfWeek}-W${number.padStart(2, "0")}`;
}

const reversed = (found: RegExpExecArray | null): readonly string[] | null =>
  found === null ? null : [found[0], found[2]!, found[1]!];
