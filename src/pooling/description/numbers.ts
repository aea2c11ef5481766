import { describe } from "../../statistics/index.js";
import type { ExactNumbers } from "./site-description.js";

/** How the values of a number are distributed. */
export function numbersOf(values: readonly number[]): ExactNumbers {
  const { n, mean, standardDeviation, median, lowerQuartile, upperQuartile } = describe(values);
  return {
    n,
    mean,
    standard_deviation: standardDeviation,
    median,
    lower_quartile: lowerQuartile,
    upper_quartile: upperQuartile,
  };
}
