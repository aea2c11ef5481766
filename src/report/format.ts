import { counted } from "../schema/counted.js";
import type { Count } from "../study/results.js";

export { counted };

/**
 * Numbers as text: no locale, a true minus sign, rounding half away from zero.
 * This is the only place where a number changes on its way from the results to a reader, and it only loses digits.
 */
const minus = "\u2212";
const hardSpace = "\u00a0";

/**
 * A number rounded to a count of decimals, half away from zero in the decimal system.
 *
 * The value is first read to 12 significant digits: a product that should be 0.625 and came out as
 * 0.6249999999999999 rounds as 0.625 does, on every machine.
 *
 * @param value finite
 * @param options decimals: digits after the point, 0 to 12; shift: powers of ten the point moves right first
 * @throws RangeError for a value that is not finite
 * @example rounded(-0.145, { decimals: 0, shift: 2 }) // => "\u221215"
 */
export function rounded(
  value: number,
  { decimals, shift = 0 }: { decimals: number; shift?: number },
): string {
  if (!Number.isFinite(value))
    throw new RangeError(`value must be a finite number to be shown; found ${value}`);
  const read = Number(Math.abs(value).toPrecision(12));
  const whole = Math.round(movePoint(read, decimals + shift));
  const text = movePoint(whole, -decimals).toFixed(decimals);
  return value < 0 && whole !== 0 ? minus + text : text;
}

/** Moves the decimal point exactly: multiplying by a power of ten would add noise in the last digit. */
function movePoint(value: number, places: number): number {
  const [digits, exponent = "0"] = String(value).split("e");
  return Number(`${digits}e${Number(exponent) + places}`);
}

/** 0.62 as "62 %". */
export const share = (value: number, decimals = 0): string => `${shareDigits(value, decimals)}${hardSpace}%`;
const shareDigits = (value: number, decimals = 0): string => rounded(value, { decimals, shift: 2 });

/** How many people injuries are of, after "of". */
export const peopleOf = (persons: Count): string =>
  typeof persons === "number" ? counted(persons, "person", "people") : "people whose number is left out";

/** A number with at most that many decimals, none of them a trailing zero: "13", "6.5". */
export function plainNumber(value: number, decimals = 2): string {
  const text = rounded(value, { decimals });
  return text.includes(".") ? text.replace(/\.?0+$/, "") : text;
}

/** "13 weeks", "1 week", "6.5 weeks". */
export const weeks = (value: number): string => `${plainNumber(value)} ${value === 1 ? "week" : "weeks"}`;

/** A time in days as "13.4 weeks (94 days)", with a remark in the brackets if there is one; below two weeks in days alone. */
export function days(value: number, remark = ""): string {
  const whole = rounded(value, { decimals: 0 });
  const inDays = `${whole} ${whole === "1" ? "day" : "days"}`;
  const after = remark === "" ? "" : `, ${remark}`;
  if (Math.abs(value) < 14) return remark === "" ? inDays : `${inDays} (${remark})`;
  return `${plainNumber(value / 7, 1)} weeks (${inDays}${after})`;
}

/** A day as the week it ends, where it is a whole number of weeks: "13 weeks"; else "day 94". */
export const byDay = (day: number): string =>
  day % 7 === 0 && day > 0 ? weeks(day / 7) : `day ${plainNumber(day)}`;

/** A ratio to two decimals. */
export const ratio = (value: number): string => rounded(value, { decimals: 2 });

/** A level as "95 %", "97.5 %". */
export const level = (value: number): string => `${plainNumber(movePoint(value, 2), 1)}${hardSpace}%`;

/** A p-value: "< 0.001" below that, never 0; three decimals below 0.1, else two; "> 0.99" above that. */
export function pValue(p: number): string {
  if (p < 0.001) return `<${hardSpace}0.001`;
  if (p > 0.99) return p === 1 ? "1" : `>${hardSpace}0.99`;
  return rounded(p, { decimals: p < 0.1 ? 3 : 2 });
}

/** How the figures of one unit are written. */
/** "time" is a number of days since day 0, "days" a difference of such times. */
export type Unit = "share" | "percentage points" | "time" | "days" | "ratio" | "mm";

const decimalsOf: Readonly<Record<Unit, number>> = {
  share: 0,
  "percentage points": 0,
  time: 0,
  days: 1,
  ratio: 2,
  mm: 2,
};
/** The value that stands for no difference, where there is one. */
const noneOf: Readonly<Record<Unit, number | null>> = {
  share: null,
  "percentage points": 0,
  time: null,
  days: 0,
  ratio: 1,
  mm: 0,
};

/** The digits of one figure without its unit; `extra` adds decimals. */
export function digitsOf(value: number, { unit, extra = 0 }: { unit: Unit; extra?: number }): string {
  const shift = unit === "share" || unit === "percentage points" ? 2 : 0;
  return rounded(value, { decimals: decimalsOf[unit] + extra, shift });
}

/**
 * The two limits of an interval, "48 to 76". A limit that is not the value of no difference must not
 * look like it: such an interval gets up to three more decimals.
 */
export function limits({ lower, upper }: { lower: number; upper: number }, unit: Unit): string {
  const extra = extraDecimals([lower, upper], unit);
  return `${digitsOf(lower, { unit, extra })} to ${digitsOf(upper, { unit, extra })}`;
}

/** How many decimals more than usual keep every one of these values apart from no difference. */
export function extraDecimals(values: readonly number[], unit: Unit): number {
  const none = noneOf[unit];
  if (none === null) return 0;
  const looksLikeNone = (value: number, extra: number) =>
    value !== none && digitsOf(value, { unit, extra }) === digitsOf(none, { unit, extra });
  return [0, 1, 2].find((extra) => !values.some((value) => looksLikeNone(value, extra))) ?? 3;
}

/** "a", "a and b", "a, b and c". */
export function listed(items: readonly string[]): string {
  const last = items.at(-1) ?? "";
  return items.length < 2 ? last : `${items.slice(0, -1).join(", ")} and ${last}`;
}

/** The sentence's first letter as a capital. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
