import { checkColumnNames, type NamesOf, type OptionsOf, readOptions } from "../shared/options.js";
import type { TimeToEvent } from "../shared/time-to-event.js";
import { type Bootstrap, type BootstrapOptions, bootstrap, bootstrapOptions } from "./bootstrap.js";
import {
  type CountedFigure,
  countedQuantileTime,
  countedQuantileTimeOptions,
  countedRestrictedMean,
  countedRestrictedMeanOptions,
  countedShare,
  countedShareOptions,
} from "./counted-curve.js";
import { type CountedHazardColumns, countedHazardOptions, countedLogHazardRatio } from "./counted-hazard.js";

/** Rows of one group; those of a person and of a stratum are drawn together and within it. */
export interface ResampledTimes extends TimeToEvent {
  /** Whole numbers: each stratum keeps its number of rows, or of persons. The curve is that of all rows together. */
  readonly strata?: ArrayLike<number>;
}

export const resampledTimesNames: NamesOf<ResampledTimes> = {
  strata: true,
  times: true,
  events: true,
  entries: true,
  weights: true,
  clusters: true,
};

export const bootstrapRestrictedMeanOptions = { ...bootstrapOptions, ...countedRestrictedMeanOptions };
export interface BootstrapRestrictedMeanOptions extends OptionsOf<typeof bootstrapRestrictedMeanOptions> {}

export const bootstrapShareOptions = { ...bootstrapOptions, ...countedShareOptions };
export interface BootstrapShareOptions extends OptionsOf<typeof bootstrapShareOptions> {}

export const bootstrapQuantileTimeOptions = { ...bootstrapOptions, ...countedQuantileTimeOptions };
export interface BootstrapQuantileTimeOptions extends OptionsOf<typeof bootstrapQuantileTimeOptions> {}

export const bootstrapHazardRatioOptions = {
  ...bootstrapOptions,
  /** Of events at one time, in the regression. Default "efron". */
  hazardTies: countedHazardOptions.ties,
};
export interface BootstrapHazardRatioOptions extends OptionsOf<typeof bootstrapHazardRatioOptions> {}

/** Without the strata, which the curve does not know. */
function timesOf({ strata: _, ...times }: ResampledTimes): TimeToEvent {
  return times;
}

function ofCurve(
  columns: ResampledTimes,
  settings: { figure: CountedFigure; options: BootstrapOptions },
): Bootstrap {
  const { clusters, strata } = columns;
  const drawn = {
    n: columns.times.length,
    ...(clusters !== undefined && { clusters }),
    ...(strata !== undefined && { strata }),
  };
  return bootstrap({ ...drawn, statistic: { ofCounts: settings.figure } }, settings.options);
}

/**
 * Bootstrap of the restricted mean up to a horizon; rows are sorted once and counted anew for each resample.
 *
 * @returns see bootstrap
 * @throws ArgumentError naming the column and index at fault, or the option
 * @source Efron 1981, J Am Stat Assoc 76:312
 */
export function bootstrapRestrictedMean(
  columns: ResampledTimes,
  options: BootstrapRestrictedMeanOptions,
): Bootstrap {
  checkColumnNames(resampledTimesNames, { columns });
  const { horizon, ...drawing } = readOptions(bootstrapRestrictedMeanOptions, options);
  return ofCurve(columns, { figure: countedRestrictedMean(timesOf(columns), { horizon }), options: drawing });
}

/** Bootstrap of the share without the event at a time; resamples not followed so long count as failed. */
export function bootstrapShare(columns: ResampledTimes, options: BootstrapShareOptions): Bootstrap {
  checkColumnNames(resampledTimesNames, { columns });
  const { time, ...drawing } = readOptions(bootstrapShareOptions, options);
  return ofCurve(columns, { figure: countedShare(timesOf(columns), { time }), options: drawing });
}

/** Bootstrap of the time by which a share p has had the event; resamples that do not come down to it count as failed. */
export function bootstrapQuantileTime(
  columns: ResampledTimes,
  options: BootstrapQuantileTimeOptions,
): Bootstrap {
  checkColumnNames(resampledTimesNames, { columns });
  const { p, ...drawing } = readOptions(bootstrapQuantileTimeOptions, options);
  return ofCurve(columns, { figure: countedQuantileTime(timesOf(columns), { p }), options: drawing });
}

const bootstrapLogHazardRatioNames: NamesOf<Parameters<typeof bootstrapLogHazardRatio>[0]> = {
  times: true,
  events: true,
  covariate: true,
  strata: true,
  clusters: true,
};

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
  options: BootstrapHazardRatioOptions,
): Bootstrap {
  checkColumnNames(bootstrapLogHazardRatioNames, { columns });
  const { hazardTies, ...drawing } = readOptions(bootstrapHazardRatioOptions, options);
  const { clusters, ...counted } = columns;
  const { strata } = columns;
  const figure = countedLogHazardRatio(counted, { ties: hazardTies });
  const drawn = {
    n: columns.times.length,
    ...(clusters !== undefined && { clusters }),
    ...(strata !== undefined && { strata }),
  };
  return bootstrap({ ...drawn, statistic: { ofCounts: figure } }, drawing);
}
