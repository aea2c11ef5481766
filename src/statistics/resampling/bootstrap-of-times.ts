import type { TimeToEvent } from "../survival/time-to-event.js";
import { type Bootstrap, type BootstrapOptions, bootstrap } from "./bootstrap.js";
import {
  type CountedFigure,
  countedQuantileTime,
  countedRestrictedMean,
  countedShare,
} from "./counted-curve.js";
import { type CountedHazardColumns, countedLogHazardRatio, type HazardTies } from "./counted-hazard.js";

/** Rows of one group; those of a person and of a stratum are drawn together and within it. */
export interface ResampledTimes extends TimeToEvent {
  /** Whole numbers: each stratum keeps its number of rows, or of persons. The curve is that of all rows together. */
  readonly strata?: ArrayLike<number>;
}

function ofCurve(
  columns: ResampledTimes,
  how: { figure: CountedFigure; options: BootstrapOptions },
): Bootstrap {
  const { clusters, strata } = columns;
  const drawn = {
    n: columns.times.length,
    ...(clusters !== undefined && { clusters }),
    ...(strata !== undefined && { strata }),
  };
  return bootstrap({ ...drawn, statistic: { ofCounts: how.figure } }, how.options);
}

/**
 * Bootstrap of the restricted mean up to a horizon; rows are sorted once and counted anew for each resample.
 *
 * @returns see bootstrap
 * @throws ArgumentError naming the column and index at fault, or the option
 * @source Efron 1981, J Am Stat Assoc 76:312
 */
export const bootstrapRestrictedMean = (
  columns: ResampledTimes,
  options: BootstrapOptions & { readonly horizon: number },
): Bootstrap => ofCurve(columns, { figure: countedRestrictedMean(columns, options), options });

/** Bootstrap of the share without the event at a time; resamples not followed so long count as failed. */
export const bootstrapShare = (
  columns: ResampledTimes,
  options: BootstrapOptions & { readonly time: number },
): Bootstrap => ofCurve(columns, { figure: countedShare(columns, options), options });

/** Bootstrap of the time by which a share p has had the event; resamples that do not come down to it count as failed. */
export const bootstrapQuantileTime = (
  columns: ResampledTimes,
  options: BootstrapOptions & { readonly p: number },
): Bootstrap => ofCurve(columns, { figure: countedQuantileTime(columns, options), options });

/**
 * Bootstrap of the log hazard ratio of one covariate, with standard errors for the studentised interval. For several covariates give
 * `bootstrap` a statistic of rows that fits the whole regression.
 *
 * @param columns strata are those of the regression, each with a baseline of its own, and of the resampling
 * @throws ArgumentError naming the column and index at fault, or the option
 * @source Burr 1994, J Am Stat Assoc 89:1290
 */
export function bootstrapLogHazardRatio(
  columns: CountedHazardColumns & { readonly clusters?: ArrayLike<number> },
  options: BootstrapOptions & { readonly ties?: HazardTies },
): Bootstrap {
  const { clusters, strata } = columns;
  const figure = countedLogHazardRatio(columns, options);
  const drawn = {
    n: columns.times.length,
    ...(clusters !== undefined && { clusters }),
    ...(strata !== undefined && { strata }),
  };
  return bootstrap({ ...drawn, statistic: { ofCounts: figure } }, options);
}
