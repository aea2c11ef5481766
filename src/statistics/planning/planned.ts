import { normalCritical, normalQuantile } from "../shared/distributions.js";
import { confidenceLevel, number } from "../shared/options.js";

/** What every plan of two groups takes. */
export const plannedOptions = {
  /** Of the interval that should exclude no difference; default 0.95: a two-sided test at 5 in 100. */
  level: confidenceLevel,
  /** Part of the studies that should find the difference. Default 0.8. */
  power: number("open share", 0.8),
  /** Size of the second group over that of the first. Default 1. */
  ratio: number("positive", 1),
};

/** Normal quantiles of the level and of the power, added. */
export const bothQuantiles = ({ level, power }: { readonly level: number; readonly power: number }): number =>
  normalCritical(level) + normalQuantile(power);

/** Sizes of two groups, not rounded: a plan rounds each up. */
export interface GroupSizes {
  readonly first: number;
  readonly second: number;
}

export const sizesOf = (first: number, ratio: number): GroupSizes => ({ first, second: ratio * first });
