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

/** A number with at most that many decimals, none of them a trailing zero: "13", "6.5". */
export function plainNumber(value: number, decimals = 2): string {
  const text = rounded(value, { decimals });
  return text.includes(".") ? text.replace(/\.?0+$/, "") : text;
}

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
