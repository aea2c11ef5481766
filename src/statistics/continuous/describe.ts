import { mean, median, quantile, sampleVariance } from "simple-statistics";
import { checkColumn } from "../shared/arguments.js";
import type { Reason } from "../shared/figure.js";

export interface Description {
  readonly n: number;
  readonly mean: number | null;
  /** With n - 1; null for a single value. */
  readonly standardDeviation: number | null;
  readonly minimum: number | null;
  readonly lowerQuartile: number | null;
  readonly median: number | null;
  readonly upperQuartile: number | null;
  readonly maximum: number | null;
  readonly reason: Reason | null;
}

/** Mean and n - 1 variance of values that are there. */
export function momentsOf(values: ArrayLike<number>): { n: number; mean: number; variance: number | null } {
  const list = Array.from(values);
  const n = list.length;
  // equal values have no spread, whatever the rounding of their mean
  const first = list[0]!;
  if (n > 0 && list.every((value) => value === first)) return { n, mean: first, variance: n > 1 ? 0 : null };
  return { n, mean: mean(list), variance: sampleVariance(list) };
}

/**
 * Mean, standard deviation (n - 1), median, quartiles and range.
 *
 * Quartiles of type 2 of Hyndman & Fan: the value below which a quarter lies, the mean of two neighbours where that falls between them.
 *
 * @returns nulls with `no-rows` for no values
 * @throws ArgumentError naming the index of a value that is not finite
 * @source Hyndman & Fan 1996, Am Stat 50:361
 */
export function describe(values: ArrayLike<number>): Description {
  checkColumn({ name: "values", values }, "finite");
  const list = Array.from(values);
  if (list.length === 0) {
    const none = { mean: null, standardDeviation: null, minimum: null, lowerQuartile: null };
    return { n: 0, ...none, median: null, upperQuartile: null, maximum: null, reason: "no-rows" };
  }
  const moments = momentsOf(list);
  const [lowerQuartile, upperQuartile] = quantile(list, [0.25, 0.75]) as [number, number];
  return {
    n: list.length,
    mean: moments.mean,
    standardDeviation: moments.variance === null ? null : Math.sqrt(moments.variance),
    minimum: list.reduce((least, value) => Math.min(least, value)),
    lowerQuartile,
    median: median(list),
    upperQuartile,
    maximum: list.reduce((most, value) => Math.max(most, value)),
    reason: null,
  };
}
