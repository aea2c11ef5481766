/** A calendar day, `YYYY-MM-DD`. */
export type IsoDate = string;

const millisecondsPerDay = 86_400_000;

/**
 * Number of a calendar day, counted from 1970-01-01 = 0, in no time zone.
 *
 * @param date an existing calendar day `YYYY-MM-DD`
 */
export function dayNumber(date: IsoDate): number {
  const month = twoDigits(date, 5);
  // years that begin in March have the leap day at their end
  const year = 100 * twoDigits(date, 0) + twoDigits(date, 2) - (month < marchIs ? 1 : 0);
  const monthsGone = month < marchIs ? month + 12 - marchIs : month - marchIs;
  const leapDays = Math.floor(year / 4) - Math.floor(year / 100) + Math.floor(year / 400);
  const daysGone = Math.floor((153 * monthsGone + 2) / 5);
  return 365 * year + leapDays + daysGone + twoDigits(date, 8) - 1 - daysTo1970;
}

const marchIs = 3;
/** Days from 1 March of the year 0 to 1 January 1970. */
const daysTo1970 = 719_468;

const zero = 48;
/** The number in two digits of a date: asked for millions of times, so without a text for each part. */
const twoDigits = (date: IsoDate, place: number): number =>
  10 * (date.charCodeAt(place) - zero) + date.charCodeAt(place + 1) - zero;

/** The calendar day of a day number; the inverse of `dayNumber`. */
export function dateOfDay(day: number): IsoDate {
  return new Date(day * millisecondsPerDay).toISOString().slice(0, 10);
}

/**
 * Whole days from one calendar day to another, negative when the second lies before the first.
 *
 * @example
 * daysBetween("2024-03-04", "2024-06-03") // => 91
 */
export function daysBetween(from: IsoDate, to: IsoDate): number {
  return dayNumber(to) - dayNumber(from);
}
