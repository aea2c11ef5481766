import { ArgumentError, checkIsColumn, checkSameLength } from "../../shared/arguments.js";
import { normalCritical } from "../../shared/distributions.js";
import {
  checkColumnNames,
  type LevelOption,
  levelOption,
  type NamesOf,
  readOptions,
  shown,
} from "../../shared/options.js";
import type { SiteEstimates } from "./site-estimates.js";

/** Median times of sites with their limits. */
export interface SiteMedians {
  /** Above 0; null where half were not reached. */
  readonly medians: ArrayLike<number | null>;
  /** Above 0, or null. */
  readonly lower: ArrayLike<number | null>;
  /** Above 0, or null where follow-up ended before. */
  readonly upper: ArrayLike<number | null>;
}

const siteMediansNames: NamesOf<SiteMedians> = { medians: true, lower: true, upper: true };

function checkTimes(name: string, values: ArrayLike<unknown>): void {
  for (let i = 0; i < values.length; i++) {
    const value = values[i];
    if (value === null || (typeof value === "number" && value > 0 && value < Infinity)) continue;
    throw new ArgumentError({
      argument: name,
      index: i,
      expected: "a finite number above 0, or null",
      found: shown(value),
    });
  }
}

/**
 * Median times of sites as logarithms with variances, to be pooled by `randomEffects` and taken back by the exponential.
 *
 * The variance is that which the limits imply: ((log U - log L) / (2 z))^2. A site without a median or one of its limits has no estimate:
 * leaving it out favours short medians, so the pooled curve at landmarks is the better answer where a site has none.
 *
 * @param options level: that of the limits
 * @throws ArgumentError naming column and index of a time that is not above 0, or the level
 * @source McGrath, Zhao, Qin, Steele & Benedetti 2019, Stat Med 38:969
 * @example
 * logMedians({ medians: [80], lower: [60], upper: [110] }).estimates // => [Math.log(80)]
 */
export function logMedians(columns: SiteMedians, options: LevelOption = {}): SiteEstimates {
  checkColumnNames(siteMediansNames, { columns });
  const { level } = readOptions(levelOption, options);
  const first = { name: "medians", values: columns.medians as ArrayLike<number> };
  checkIsColumn(first);
  for (const name of ["lower", "upper"] as const)
    checkSameLength({ name, values: columns[name] as ArrayLike<number> }, first);
  for (const name of ["medians", "lower", "upper"] as const) checkTimes(name, columns[name]);
  const z = normalCritical(level);
  const { medians, lower, upper } = columns;
  return {
    estimates: Array.from(medians, (median) => (median === null ? null : Math.log(median))),
    variances: Array.from(medians, (_, i) => {
      const [low, high] = [lower[i]!, upper[i]!];
      return low === null || high === null ? null : (Math.log(high / low) / (2 * z)) ** 2;
    }),
  };
}
