import { dayReading } from "./day.js";
import { problem } from "./reading.js";
const forms = [
    [/^\d{4}[-/.]\d{1,2}[-/.]\d{1,2}[T ]\d/, problem("date-with-time")],
    [/^\d{1,2}([-/. ])\s?\d{1,2}\1\s?\d{4}$/, problem("date-day-or-month-first")],
    [/^\d{1,2}([-/. ])\s?\d{1,2}\1\s?'?\d{2}$/, problem("date-two-digit-year")],
    [/^\d{5}([.,]\d+)?$/, problem("date-serial")],
    [/^\d{4}[-/.]\d{1,2}$/, problem("date-month-only")],
    [/^\d{1,2}[-/.]\d{4}$/, problem("date-month-only")],
    [/^\p{L}{3,}\.?[ -]'?(\d{2}|\d{4})$/u, problem("date-month-only")],
    [/^\d{4}$/, problem("date-month-only")],
];
/** A day in figures with the year last and of four digits: 4.3.2024, 04/03/2024, 4-3-2024. */
const yearLast = /^(\d{1,2})([-/. ])\s?(\d{1,2})\2\s?(\d{4})$/;
/**
 * Reads a day written `YYYY-MM-DD` and, where the study says which comes first, one with the year last.
 * Any other form gives the query that fits it, never a guess.
 */
export const dateReader = (order) => (text) => {
    const iso = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
    if (iso !== null)
        return dayReading(Number(iso[1]), Number(iso[2]), Number(iso[3]));
    const last = order === "year-first" ? null : yearLast.exec(text);
    if (last === null)
        return forms.find(([form]) => form.test(text))?.[1] ?? problem("date-unreadable");
    const [first, second, year] = [Number(last[1]), Number(last[3]), Number(last[4])];
    return order === "day-first" ? dayReading(year, second, first) : dayReading(year, first, second);
};
