import { checkNumber } from "../shared/arguments.js";
import type { NamesOf } from "../shared/options.js";

/** Two independent groups: a with the event and b without it in the first, c and d in the second. Whole numbers up to 2^53. */
export interface FourCells {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
}

export const fourCellsNames: NamesOf<FourCells> = { a: true, b: true, c: true, d: true };

/** @throws ArgumentError naming the cell at fault */
export function checkFourCells({ a, b, c, d }: FourCells): void {
  for (const [name, value] of Object.entries({ a, b, c, d })) checkNumber({ name, value }, "count");
}

/** Sizes of the two groups, and both together. */
export const sizesOf = ({ a, b, c, d }: FourCells): [number, number, number] => [a + b, c + d, a + b + c + d];

/** a d - b c, exact: the products of large counts agree in more digits than a number holds. */
export const crossOf = ({ a, b, c, d }: FourCells): number =>
  Number(BigInt(a) * BigInt(d) - BigInt(b) * BigInt(c));
