import { dateOfDay, dayNumber } from "../dates.js";
/** 1970-01-01, day number 0, was a Thursday: Mondays leave a remainder of 4 when divided by 7. */
const mondayRemainder = 4;
/** Number of the Monday on or before a day. */
const mondayBefore = (day) => day - ((((day - mondayRemainder) % 7) + 7) % 7);
/** The Monday of week 1, which is the week that holds 4 January. */
const firstMonday = (year) => mondayBefore(dayNumber(`${year}-01-04`));
/**
 * How many weeks a year of weeks has: 52 or 53.
 *
 * @source ISO 8601-1:2019, 4.3.8 (week 1 is the one that holds the first Thursday of the year)
 */
export const weeksOfYear = (year) => firstMonday(year + 1) - firstMonday(year) === 371 ? 53 : 52;
/**
 * Monday and Sunday of a calendar week; null where the year has no such week.
 *
 * @example
 * daysOfWeek(2024, 10) // => { first: "2024-03-04", last: "2024-03-10" }
 */
export function daysOfWeek(year, week) {
    if (week < 1 || week > weeksOfYear(year))
        return null;
    const monday = firstMonday(year) + (week - 1) * 7;
    return { first: dateOfDay(monday), last: dateOfDay(monday + 6) };
}
/** A week as ISO 8601 writes it: `2024-W10`. */
export const weekText = (year, week) => `${year}-W${String(week).padStart(2, "0")}`;
