/** How a whole number is shown: `P` and three digits show 7 as P007. */
export interface PaddedForm {
  readonly before: string;
  readonly digits: number;
}

/** Literal text, whether in quotation marks, behind a backslash, or one of the signs that need neither. */
const padded = /^(?:\[[^\]]*\])?((?:"[^"]*"|\\.|[-_/():+ ])*)(0+)$/;

/**
 * Number formats that show a whole number with leading zeros or with letters about it, which is how sheets write
 * codes: `000` shows 7 as 007, `"P"00` as P07. Null for every other format, also for words with spaces.
 *
 * @source ECMA-376-1:2016, 18.8.30 (numFmt) and 18.8.31 (format codes)
 */
export function paddedForm(code: string): PaddedForm | null {
  const [, literal = "", zeros = ""] = padded.exec(code.split(";")[0] ?? "") ?? [];
  const before = literal.replaceAll(/"([^"]*)"|\\(.)/g, "$1$2");
  const isCode = zeros.length >= 2 || (zeros.length === 1 && /\p{L}/u.test(before));
  return isCode && !/\s/.test(before) ? { before, digits: zeros.length } : null;
}

/** A number as its form shows it; null where it is no whole number of zero or more. */
export const paddedText = (number: string, { before, digits }: PaddedForm): string | null =>
  /^\d{1,15}$/.test(number) ? `${before}${number.padStart(digits, "0")}` : null;
