const figures = /^(\d{1,4})\s?[-/. ]\s?(\d{1,2})\s?[-/. ]\s?'?(\d{2,4})(?:[T ]\d{1,2}:\d{2}.*)?$/;
const monthByName = /^(?:\d{1,2}\.?[ -]?)?\p{L}{3,10}\.?[ -]?\d{0,2},?[ -]?'?\d{2,4}$/u;
const monthAndYear = /^(?:\d{1,2}[-/.]\d{4}|\d{4}[-/]\d{1,2})$/;
const week = /^(?:(?:kw|cw|week|wk|sem)\s?\d{1,2}[\s/.-]*\d{2,4}|\d{4}-?W\d{2})$/i;
/** Day numbers of a spreadsheet from 1995 to 2064: other whole numbers of five figures are no dates. */
const serial = /^(?:3[5-9]|4\d|5\d)\d{3}(?:[.,]\d+)?$/;

/** Whether a cell is written like a date, whatever comes first in it. */
export function looksLikeDate(cell: string): boolean {
  const parts = figures.exec(cell);
  if (parts !== null) {
    const [first, second, third] = parts.slice(1, 4).map(Number) as [number, number, number];
    const yearFirst = parts[1]!.length === 4;
    const [day, month] = yearFirst ? [third, second] : [first, second];
    return Math.max(day, month) <= 31 && Math.min(day, month) <= 12 && Math.min(day, month) >= 1;
  }
  return [monthByName, monthAndYear, week, serial].some((shape) => shape.test(cell));
}

/** The two figures before the year of a date that puts the year last; null for any other text. */
export function figuresBeforeYear(
  cell: string,
): { readonly first: number; readonly second: number; readonly year: number } | null {
  const parts = figures.exec(cell);
  if (parts === null || parts[1]!.length > 2) return null;
  return { first: Number(parts[1]), second: Number(parts[2]), year: Number(parts[3]) };
}
