import { elapsedDays, inWordsOfTime, timeBound } from "../../../schema/cells/dates/elapsed-time.js";
import { writtenDateReader } from "../../../schema/cells/dates/read-written-date.js";

const figures = /^(\d{1,2})\s?[-/. ]\s?(\d{1,2})\s?[-/. ]\s?'?(\d{2,4})(?:[T ]\d{1,2}:\d{2}.*)?$/;
const readAny = writtenDateReader({ order: "undecided", twoDigitYearsUntil: 69, epoch: null });
/** Day numbers of a spreadsheet from 1995 to 2064: other whole numbers of five figures are no dates. */
const dayNumber = /^(?:3[5-9]|4\d|5\d)\d{3}(?:[.,]\d+)?$/;
const eightDigits = /^(?:19|20)\d{2}(?:0[1-9]|1[0-2])(?:0[1-9]|[12]\d|3[01])$/;
const bareNumber = /^\d+(?:[.,]\d+)?$/;

/** Whether a cell stands for a day by its number, as a spreadsheet stores it. */
export const looksLikeDayNumber = (cell: string): boolean => dayNumber.test(cell);

/** Whether a cell is written like a date, whatever comes first in it. */
export function looksLikeDate(cell: string): boolean {
  if (bareNumber.test(cell)) return dayNumber.test(cell) || eightDigits.test(cell);
  const reading = readAny(cell);
  return (
    "value" in reading || (reading.problem !== "date-unreadable" && reading.problem !== "date-impossible")
  );
}

/** Whether a cell is a time since the injury, as "8 weeks", or a bound of it. */
export const looksLikeTimeSince = (cell: string): boolean =>
  elapsedDays(timeBound(cell)?.rest ?? cell) !== null;

const plainNumber = /^\d{1,3}(?:[.,]\d)?$/;

/** Whether a cell is a plain number, or a bound of one, as a column of weeks has them. */
export const looksLikeCount = (cell: string): boolean => plainNumber.test(timeBound(cell)?.rest ?? cell);

/** Whether a cell is a time over 7 or 12, as "3/12", that may be a date without a year as well. */
export const looksLikeFraction = (cell: string): boolean => {
  const text = timeBound(cell)?.rest ?? cell;
  return inWordsOfTime(text) !== text && elapsedDays(inWordsOfTime(text)) !== null;
};

/** Whether a cell is a bound of a plain number, as ">12", which is of a time though it does not say in what unit. */
export const looksLikeBoundOfCount = (cell: string): boolean =>
  timeBound(cell) !== null && looksLikeCount(cell);

/** The two figures before the year of a date that puts the year last; null for any other text. */
export function figuresBeforeYear(
  cell: string,
): { readonly first: number; readonly second: number; readonly year: number } | null {
  const parts = figures.exec(cell);
  if (parts === null) return null;
  return { first: Number(parts[1]), second: Number(parts[2]), year: Number(parts[3]) };
}
