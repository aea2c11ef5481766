import type { Estimate } from "../study/results.js";
import { reasonWords } from "./words.js";

/** How the numbers of one unit are written; the digits are those of the report's tables. */
export interface NumberLook {
  readonly decimals: number;
  /** Powers of ten the point moves right: 2 for a share in per cent. */
  readonly shift: number;
  /** The value that means no difference, which no other value may look like. */
  readonly none: number | null;
}

export const looks = {
  percent: { decimals: 0, shift: 2, none: null },
  percentagePoints: { decimals: 0, shift: 2, none: 0 },
  weeks: { decimals: 1, shift: 0, none: null },
  days: { decimals: 1, shift: 0, none: 0 },
  ratio: { decimals: 2, shift: 0, none: 1 },
  millimetres: { decimals: 2, shift: 0, none: 0 },
  standardised: { decimals: 2, shift: 0, none: null },
} as const satisfies Record<string, NumberLook>;

/**
 * A number in decimals, half away from zero, with a true minus sign and none before nought.
 * It is read to 12 significant digits first, so that noise in the last place does not decide a half.
 */
export function numberWords(value: number, { decimals, shift }: Omit<NumberLook, "none">): string {
  const whole = Math.round(Number((Math.abs(value) * powerOfTen(decimals + shift)).toPrecision(12)));
  const text = (whole / powerOfTen(decimals)).toFixed(decimals);
  return value < 0 && whole !== 0 ? `\u2212${text}` : text;
}

/** The double nearest to a power of ten, read from its digits: an engine's own powers differ in the last digit. */
export const powerOfTen = (exponent: number): number => Number(`1e${exponent}`);

/** An estimate and its limits, such as '9 (\u22124 to 22)'; what is missing is said in words. */
export function estimateWords({ value, lower, upper, reason }: Estimate, look: NumberLook): string {
  if (value === null) return reasonWords(reason);
  const [from, to] = digits([lower, upper], look);
  return `${digits([value], look)[0]} (${intervalWords(from!, to!)})`;
}

function intervalWords(from: string | null, to: string | null): string {
  if (from === null && to === null) return "no interval";
  if (from === null) return `up to ${to}`;
  return to === null ? `from ${from}` : `${from} to ${to}`;
}

/** The values with as many decimals more, at most three, as keep each apart from no difference. */
function digits(values: readonly (number | null)[], look: NumberLook): (string | null)[] {
  const known = values.filter((value) => value !== null);
  const { none } = look;
  const seems = (value: number, decimals: number) =>
    none !== null &&
    value !== none &&
    numberWords(value, { ...look, decimals }) === numberWords(none, { ...look, decimals });
  const more = [0, 1, 2].find((extra) => !known.some((value) => seems(value, look.decimals + extra))) ?? 3;
  return values.map((value) =>
    value === null ? null : numberWords(value, { ...look, decimals: look.decimals + more }),
  );
}

/** An estimate in days, written in weeks. */
export function weeksEstimateWords({ value, lower, upper, reason }: Estimate): string {
  const weeks = (days: number | null) => (days === null ? null : days / 7);
  return estimateWords(
    { value: weeks(value), lower: weeks(lower), upper: weeks(upper), reason },
    looks.weeks,
  );
}

/** A whole number as it is, another with one decimal. */
export const weekWords = (weeks: number): string =>
  numberWords(weeks, { decimals: Number.isInteger(weeks) ? 0 : 1, shift: 0 });
