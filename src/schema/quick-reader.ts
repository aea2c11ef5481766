import { yearsOfDates } from "./cells/day.js";
import { hasPlainEdges } from "./cells/reading.js";
import type { Field } from "./field.js";
import { longestName } from "./limits.js";

/**
 * Reads the usual form of a cell without looking closely: `undefined` says that the cell needs the full reader, any
 * other answer is the one that the full reader and the row's schema give. Most cells of most files are in the usual
 * form, so that this is what a large file costs.
 */
export type QuickReader = (cell: string) => string | number | undefined;

/** The quick reader of a field; one that never answers where the kind of the field has no usual form. */
export function quickReaderOf({ kind, minimum, maximum }: Field): QuickReader {
  switch (kind) {
    case "text":
      return (cell) => (hasPlainEdges(cell) ? cell : undefined);
    case "identifier":
      return plainIdentifier;
    case "date":
    case "period":
      return plainDate;
    case "number":
    case "bounded":
      return plainNumber({ minimum, maximum });
    case "integer":
      return plainNumber({ minimum, maximum, whole: true });
    default:
      return () => undefined;
  }
}

const zero = 48;
const nine = 57;

/** Ends with a digit, as no word for "nothing" does, and has visible ASCII characters and spaces only. */
function plainIdentifier(cell: string): string | undefined {
  const last = cell.charCodeAt(cell.length - 1);
  if (last < zero || last > nine || cell.length > longestName || !hasPlainEdges(cell)) return undefined;
  for (let i = 1; i < cell.length; i++) {
    const code = cell.charCodeAt(i);
    if (code < 32 || code > 126) return undefined;
  }
  return cell;
}

const daysOfMonth = [0, 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;
const hyphen = 45;

/** `YYYY-MM-DD`; 29 February is left to the full reader. */
function plainDate(cell: string): string | undefined {
  if (cell.length !== 10 || cell.charCodeAt(4) !== hyphen || cell.charCodeAt(7) !== hyphen) return undefined;
  const year = digits(cell, 0, 4);
  const month = digits(cell, 5, 7);
  const day = digits(cell, 8, 10);
  if (year < yearsOfDates.from || year > yearsOfDates.to || month < 1 || month > 12 || day < 1)
    return undefined;
  return day <= daysOfMonth[month]! ? cell : undefined;
}

/** The number in some digits of a text; -1 where one of them is none. */
function digits(text: string, from: number, to: number): number {
  let value = 0;
  for (let i = from; i < to; i++) {
    const digit = text.charCodeAt(i) - zero;
    if (digit < 0 || digit > 9) return -1;
    value = value * 10 + digit;
  }
  return value;
}

const powersOfTen = Float64Array.of(
  1,
  1e1,
  1e2,
  1e3,
  1e4,
  1e5,
  1e6,
  1e7,
  1e8,
  1e9,
  1e10,
  1e11,
  1e12,
  1e13,
  1e14,
  1e15,
);
const point = 46;

/**
 * Digits, with or without a point among them: the whole number of all digits over a power of ten, which is the
 * nearest double, since both are exact.
 */
function plainNumber({
  minimum = Number.NEGATIVE_INFINITY,
  maximum = Number.POSITIVE_INFINITY,
  whole = false,
}: {
  readonly minimum: number | undefined;
  readonly maximum: number | undefined;
  readonly whole?: boolean;
}): QuickReader {
  return (cell) => {
    const { length } = cell;
    if (length === 0 || length > 15) return undefined;
    let ofDigits = 0;
    let pointAt = length;
    for (let i = 0; i < length; i++) {
      const code = cell.charCodeAt(i);
      if (code === point && !whole && i > 0 && i < length - 1 && pointAt === length) {
        pointAt = i;
        continue;
      }
      const digit = code - zero;
      if (digit < 0 || digit > 9) return undefined;
      ofDigits = ofDigits * 10 + digit;
    }
    const decimals = pointAt === length ? 0 : length - pointAt - 1;
    const value = ofDigits / powersOfTen[decimals]!;
    return value >= minimum && value <= maximum ? value : undefined;
  };
}
