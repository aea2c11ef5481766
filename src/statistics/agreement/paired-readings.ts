import { checkColumn, checkSameLength } from "../arguments.js";

/** Two methods (or raters, or days) on the same subjects, row by row. */
export interface PairedReadings {
  readonly first: ArrayLike<number>;
  readonly second: ArrayLike<number>;
}

/** @throws ArgumentError naming the column and index of a value at fault */
export function checkPairs({ first, second }: PairedReadings): void {
  checkSameLength({ name: "second", values: second }, { name: "first", values: first });
  checkColumn({ name: "first", values: first }, "finite");
  checkColumn({ name: "second", values: second }, "finite");
}

/** first - second, row by row. */
export const differencesOf = ({ first, second }: PairedReadings): Float64Array =>
  Float64Array.from(first, (value, row) => value - (second[row] as number));

/** Mean of the two, row by row: the best that is known of the size of what was measured. */
export const magnitudesOf = ({ first, second }: PairedReadings): Float64Array =>
  Float64Array.from(first, (value, row) => (value + (second[row] as number)) / 2);

/** Differences that vary by rounding only do not vary: 3.1 - 2.1 is not 4.1 - 3.1 to the last bit. */
export function spreadIsRounding(deviation: number, { first, second }: PairedReadings): boolean {
  let largest = 0;
  for (let row = 0; row < first.length; row++)
    largest = Math.max(largest, Math.abs(first[row] as number), Math.abs(second[row] as number));
  return deviation <= 4 * Number.EPSILON * largest;
}
