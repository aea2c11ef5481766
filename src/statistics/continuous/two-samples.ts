import { checkColumn } from "../shared/arguments.js";
import type { NamesOf } from "../shared/options.js";

/** Values of two independent groups; what is compared is a against b, a - b. */
export interface TwoSamples {
  readonly a: ArrayLike<number>;
  readonly b: ArrayLike<number>;
}

export const twoSamplesNames: NamesOf<TwoSamples> = { a: true, b: true };

/** @throws ArgumentError naming the side and index of a value that is not finite */
export function checkTwoSamples({ a, b }: TwoSamples): void {
  checkColumn({ name: "a", values: a }, "finite");
  checkColumn({ name: "b", values: b }, "finite");
}
