import { rounded } from "./numbers.js";

/**
 * What a number counts, and with it how it is written. "time" is a number of days since day 0, "days" a difference of such
 * times, "weeks" a time in weeks, "standardised" a difference in standard deviations.
 */
export type Unit =
  | "share"
  | "percentage points"
  | "time"
  | "days"
  | "weeks"
  | "ratio"
  | "rate"
  | "mm"
  | "standardised";

interface UnitWords {
  /** After the digits, with the blank before it; the second after a 1. */
  readonly after: readonly [many: string, one: string];
  readonly decimals: number;
  /** Powers of ten by which the point moves right: 2 for a share in per cent. */
  readonly shift: number;
  /** The value that stands for no difference, which no other value may look like. */
  readonly none: number | null;
}

const hardSpace = "\u00a0";

const units: Readonly<Record<Unit, UnitWords>> = {
  share: { after: [`${hardSpace}%`, `${hardSpace}%`], decimals: 0, shift: 2, none: null },
  "percentage points": { after: [" points", " point"], decimals: 0, shift: 2, none: 0 },
  time: { after: [" days", " day"], decimals: 0, shift: 0, none: null },
  days: { after: [" days", " day"], decimals: 1, shift: 0, none: 0 },
  weeks: { after: [" weeks", " week"], decimals: 1, shift: 0, none: null },
  ratio: { after: ["", ""], decimals: 2, shift: 0, none: 1 },
  rate: { after: ["", ""], decimals: 1, shift: 0, none: null },
  mm: { after: [" mm", " mm"], decimals: 2, shift: 0, none: 0 },
  standardised: { after: ["", ""], decimals: 2, shift: 0, none: null },
};

/** The unit as it stands after these digits: " days", " day" after a 1. */
export const unitAfter = (digits: string, unit: Unit): string =>
  units[unit].after[digits === "1" || digits === "\u22121" ? 1 : 0];

/** The digits of one figure without its unit; `extra` adds decimals. */
export function digitsOf(value: number, { unit, extra = 0 }: { unit: Unit; extra?: number }): string {
  const { decimals, shift } = units[unit];
  return rounded(value, { decimals: decimals + extra, shift });
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
  const { none } = units[unit];
  if (none === null) return 0;
  const looksLikeNone = (value: number, extra: number) =>
    value !== none && digitsOf(value, { unit, extra }) === digitsOf(none, { unit, extra });
  return [0, 1, 2].find((extra) => !values.some((value) => looksLikeNone(value, extra))) ?? 3;
}
