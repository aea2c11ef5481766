import { type CellProblem, problem, type Reading } from "./reading.js";

/** The years in which a date may lie; those outside are slips of the keyboard: 0204, 1924. */
export const yearsOfDates = { from: 1950, to: 2099 } as const;

/** A day of the calendar as `YYYY-MM-DD`, or why it is none. */
export function dayReading(year: number, month: number, day: number): Reading {
  const wrong = dayProblem(year, month, day);
  if (wrong !== null) return wrong;
  return { value: `${year}-${String(month).padStart(2, "0")}-${String(day).padStart(2, "0")}` };
}

/** Why there is no such day; null where there is. */
export function dayProblem(year: number, month: number, day: number): CellProblem | null {
  if (month < 1 || month > 12 || day < 1 || day > daysIn(year, month)) return problem("date-impossible");
  if (year < yearsOfDates.from || year > yearsOfDates.to) return problem("date-year-doubtful", yearsOfDates);
  return null;
}

/** Days of a month in the Gregorian calendar. */
export const daysIn = (year: number, month: number): number => {
  if (month === 2) return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
};
