import { checkColumn, checkSameLength } from "../shared/arguments.js";
import type { NamesOf } from "../shared/options.js";

/** Two methods (or raters, or days) on the same subjects, row by row. */
export interface PairedReadings {
  readonly first: ArrayLike<number>;
  readonly second: ArrayLike<number>;
}

export const pairedReadingsNames: NamesOf<PairedReadings> = { first: true, second: true };

/** @throws ArgumentError naming the column and index of a value at fault */
export function checkPairs({ first, second }: PairedReadings): void {
  checkSameLength({ name: "second", values: second }, { name: "first", values: first });
  checkColumn({ name: "first", values: first }, "finite");
  checkColumn({ name: "second", values: second }, "finite");
}

/** first - second, row by row. */
export const differencesOf = ({ first, second }: PairedReadings): Float64Array =>
  Float64Array.from(first, (value, row) => value - second[row]!);

/** Mean of the two, row by row: the best that is known of the size of what was measured. */
export const magnitudesOf = ({ first, second }: PairedReadings): Float64Array =>
  Float64Array.from(first, (value, row) => (value + second[row]!) / 2);
