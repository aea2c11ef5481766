/** A figure as it is printed, in its printed unit; null where a report says that it cannot be given or has no interval. */
export interface PrintedFigure {
  readonly value: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
}

export const notGiven: PrintedFigure = { value: null, lower: null, upper: null };

const down = ["fewer", "shorter"];
const number = "(-?\\d+(?:\\.\\d+)?)(?: (fewer|more|shorter|longer))?";
const both = new RegExp(`${number} to ${number}`);
const from = new RegExp(`from ${number}`);
const upTo = new RegExp(`up to ${number}`);

/** A size with its direction in words: "9 fewer" is -9. */
export const signed = (digits: string, way: string | undefined): number =>
  way !== undefined && down.includes(way) ? -Number(digits) : Number(digits);

/**
 * The limits told after a figure, "49 to 86 %", "9 fewer to 36 more", "from 63 days, no upper limit". A limit that is not there is no limit:
 * infinite.
 */
export function withLimits(value: number, told: string): PrintedFigure {
  const two = both.exec(told);
  if (two !== null) return { value, lower: signed(two[1]!, two[2]), upper: signed(two[3]!, two[4]) };
  const one = from.exec(told);
  if (one !== null) return { value, lower: signed(one[1]!, one[2]), upper: Number.POSITIVE_INFINITY };
  const other = upTo.exec(told);
  if (other !== null) return { value, lower: Number.NEGATIVE_INFINITY, upper: signed(other[1]!, other[2]) };
  return notGiven;
}

/** The figure of a cell, or of two cells of which the second has the interval: "68 % [47 to 84 %]", "1.2 (0.1 to 4.2)". */
export function figureInCells(value: string, interval = value.replace(/^[^[(]*/, "")): PrintedFigure {
  const digits = /^-?\d+(\.\d+)?/.exec(value);
  return digits === null ? notGiven : withLimits(Number(digits[0]), interval);
}
