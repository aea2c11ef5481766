import { problem } from "./reading.js";
/** Years outside are slips of the keyboard: 0204, 1924. */
const years = { from: 1950, to: 2099 };
/** A day of the calendar as `YYYY-MM-DD`, or why it is none. */
export function dayReading(year, month, day) {
    if (month < 1 || month > 12 || day < 1 || day > daysIn(year, month))
        return problem("date-impossible");
    if (year < years.from || year > years.to)
        return problem("date-year-doubtful", years);
    return { value: `${year}-${String(month).padStart(2, "0")}-${String(day).padStart(2, "0")}` };
}
/** Days of a month in the Gregorian calendar. */
export const daysIn = (year, month) => {
    if (month === 2)
        return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28;
    return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
};
