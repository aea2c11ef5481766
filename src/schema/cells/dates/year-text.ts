import { problem, type Reading } from "../reading.js";

/** How the dates of a column are written. */
export interface DateForms {
  /** Which comes first in dates that do not put the year first; "undecided" reads only what is the same both ways. */
  readonly order: "day-first" | "month-first" | "undecided";
  /** 25 reads 00 to 25 as 2000 to 2025 and 26 to 99 as 1926 to 1999; null: years of two digits are asked about. */
  readonly twoDigitYearsUntil: number | null;
  /** The year from which day numbers such as 45385 count; null: they are asked about. */
  readonly epoch: 1900 | 1904 | null;
}

/** The year of two or four digits; null where two digits do not tell it. */
export function yearOf(
  digits: string,
  { twoDigitYearsUntil: until }: Pick<DateForms, "twoDigitYearsUntil">,
): number | null {
  const year = Number(digits);
  if (digits.length === 4) return year;
  if (until === null) return null;
  return year <= until ? 2000 + year : 1900 + year;
}

export const twoDigits: Reading = problem("date-two-digit-year");
