import { type Period, periodOf } from "../../../schema/cells/period.js";
import type { Reading } from "../../../schema/cells/reading.js";
import { dateOfDay, dayNumber, type IsoDate } from "../../../schema/dates.js";
import type { Field } from "../../../schema/field.js";
import { type DateForm, dateTextReader } from "./date-text.js";

/** Whether a field is the age at the injury. */
export const isAge = ({ sharing }: Pick<Field, "sharing">): boolean =>
  typeof sharing === "object" && "band" in sharing && sharing.band === "age";

/** Whether a column holds dates of birth or years of birth. */
export type BirthColumn = "dates" | "years";

/** Stands for a birth from which no age can be told: the birth itself goes no further. */
export const birthNotRead = "? date of birth";

const anAge = /^\d{1,3}$/;
const fourDigits = /^\d{4}$/;

/**
 * The reader of a column of births: the age in completed years on the day of the injury, as text.
 *
 * A date of birth gives it exactly. A year of birth, where the column holds years, is counted from 1 July, so that the
 * age may be one off. Where the injury is known to a week or a month, its middle day counts. Years of two digits are
 * the last such years before the injury. A number of up to three digits is an age already. "" where the day of the
 * injury is not known; `birthNotRead` for what is no birth, and for a birth without its day that leaves two ages.
 */
export function ageReader(
  form: Pick<DateForm, "order" | "dayNumbersFrom">,
  births: BirthColumn,
): (cell: string, injury: string) => string {
  const readers = new Map<number, ReturnType<typeof dateTextReader>>();
  const readerUntil = (year: number) => {
    const known =
      readers.get(year) ?? dateTextReader({ ...form, twoDigitYearsUntil: year, periods: "taken" });
    readers.set(year, known);
    return known;
  };
  return (cell, injury) => {
    if (anAge.test(cell)) return cell;
    const day = middleOf(injury);
    if (day === null) return "";
    if (births === "years" && fourDigits.test(cell)) return String(completedYears(`${cell}-07-01`, day));
    const until = Number(day.slice(2, 4));
    const read = (text: string) => periodIn(readerUntil(until)(text, ""));
    const own = read(cell);
    const birth = own ?? read(laterBy(cell, until));
    if (birth === null) return birthNotRead;
    const [most, least] = [completedYears(birth.first, day), completedYears(birth.last, day)];
    return most === least ? String(own === null ? most + cycles : most) : birthNotRead;
  };
}

const periodIn = (reading: Reading): Period | null =>
  "value" in reading ? periodOf(String(reading.value)) : null;

/** Days of the month and leap years repeat after this many years, from 1901 to 2099. */
const cycles = 56;

/** A date of before 1950, which is a slip of the keyboard for anything but a birth, as one of `cycles` years later. */
const laterBy = (cell: string, until: number): string =>
  /\d{4}/.test(cell)
    ? cell.replace(/(?<!\d)19[0-4]\d(?=\d{4}$|\D|$)/, (year) => String(Number(year) + cycles))
    : cell.replace(/(?<=\D)\d{2}$/, (year) =>
        Number(year) > until && Number(year) < 50 ? String(1900 + cycles + Number(year)) : year,
      );

function middleOf(injury: string): IsoDate | null {
  const period = periodOf(injury);
  return period === null
    ? null
    : dateOfDay(Math.floor((dayNumber(period.first) + dayNumber(period.last)) / 2));
}

/**
 * Completed years from a birth to a day; whoever is born on 29 February is a year older on 1 March of other years.
 *
 * @example
 * completedYears("1995-03-05", "2024-03-04") // => 28
 */
export function completedYears(birth: IsoDate, day: IsoDate): number {
  const years = Number(day.slice(0, 4)) - Number(birth.slice(0, 4));
  return day.slice(5) >= birth.slice(5) ? years : years - 1;
}
