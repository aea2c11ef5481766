import { checkColumn } from "../../shared/arguments.js";

/** @throws ArgumentError naming the index of a factor that is not 0 or more */
export const checkFactors = (factors: ArrayLike<number>): void =>
  checkColumn({ name: "factors", values: factors }, "not negative");
