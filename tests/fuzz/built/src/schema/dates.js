const millisecondsPerDay = 86_400_000;
/**
 * Number of a calendar day, counted from 1970-01-01 = 0, in no time zone.
 *
 * @param date an existing calendar day `YYYY-MM-DD`
 */
export function dayNumber(date) {
    return (Date.UTC(Number(date.slice(0, 4)), Number(date.slice(5, 7)) - 1, Number(date.slice(8, 10))) /
        millisecondsPerDay);
}
/** The calendar day of a day number; the inverse of `dayNumber`. */
export function dateOfDay(day) {
    return new Date(day * millisecondsPerDay).toISOString().slice(0, 10);
}
/**
 * Whole days from one calendar day to another, negative when the second lies before the first.
 *
 * @example
 * daysBetween("2024-03-04", "2024-06-03") // => 91
 */
export function daysBetween(from, to) {
    return dayNumber(to) - dayNumber(from);
}
