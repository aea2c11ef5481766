import { clusterIndex } from "../shared/clusters.js";
import { normalCritical } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import {
  checkColumnNames,
  confidenceLevel,
  needed,
  number,
  type OptionsOf,
  oneOf,
  readOptions,
} from "../shared/options.js";
import type { TimeToEvent } from "../shared/time-to-event.js";
import { timeToEventNames } from "../shared/time-to-event.js";
import { type CompetingEvents, competingEventsNames } from "./competing-events.js";
import { lastObserved, type VarianceKind, varianceKinds } from "./curve.js";
import { areaFunctional, deltaVarianceOf, influences } from "./functionals.js";
import { causeOption } from "./incidence-curve.js";
import { type PreparedEvent, preparedCause, preparedEvent } from "./prepared-event.js";

export const restrictedMeanOptions = {
  /** Time up to which the mean is taken, above 0, in the unit of `times`. */
  horizon: needed(number("positive")),
  /** Default 0.95. */
  level: confidenceLevel,
  /** Default "robust" where there are weights or clusters, else "greenwood". */
  variance: oneOf(varianceKinds),
};

export interface RestrictedMeanOptions extends OptionsOf<typeof restrictedMeanOptions> {}

export const restrictedIncidenceMeanOptions = { ...restrictedMeanOptions, ...causeOption };

export interface RestrictedIncidenceMeanOptions extends OptionsOf<typeof restrictedIncidenceMeanOptions> {}

/** Mean time without the event within the horizon. */
export interface RestrictedMean {
  readonly horizon: number;
  readonly estimate: number | null;
  /** 0 where no event was seen before the horizon: then there is no interval either. */
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly level: number;
  readonly n: number;
  readonly eventsBeforeHorizon: number;
  /** Last time of event or censoring. */
  readonly lastTime: number | null;
  /** The horizon lies after the last follow-up while not everybody had the event: the curve was carried flat. */
  readonly beyondFollowUp: boolean;
  /** Why there is no estimate, or no interval. */
  readonly reason: Reason | null;
}

/** Sum over clusters of the squared sum of what their rows contribute. */
export function clusteredSquares(
  columns: { readonly times: ArrayLike<number>; readonly clusters?: ArrayLike<number> },
  contribution: Float64Array,
): number {
  return squaresWithin(clusterIndex(columns), contribution);
}

/** The same for clusters that are numbered already. */
export function squaresWithin(cluster: ReturnType<typeof clusterIndex>, contribution: Float64Array): number {
  const sums = new Float64Array(cluster.count);
  let apart = 0;
  for (let row = 0; row < contribution.length; row++) {
    const value = contribution[row]!;
    sums[cluster.of[row]!]! += value;
    apart += value * value;
  }
  let total = 0;
  for (let k = 0; k < sums.length; k++) total += sums[k]! * sums[k]!;
  // contributions that cancel within their cluster leave rounding behind, not a variance
  return total > 1e-20 * apart ? total : 0;
}

/**
 * Restricted mean: the mean time without the event within a horizon, the area under the product-limit curve up to it.
 *
 * Variance: sum over event times of (area from there to the horizon)^2 d / (n (n - d)), without small-sample factor; robust: squared
 * influences summed within clusters. Interval: normal.
 *
 * Past the last follow-up the curve is carried flat at its last value and `beyondFollowUp` says so. No rows, or all of weight 0: null, `no-rows`. No
 * event before the horizon: the estimate is the horizon, standard error 0, no interval (`no-events`).
 *
 * @throws ArgumentError naming the column and index of a value at fault, the horizon or the level
 * @source Irwin 1949, J Hyg 47:188; variance: Klein & Moeschberger 2003, Survival Analysis, section 4.5
 * @example
 * restrictedMean({ times: [2, 4, 6, 8], events: [1, 1, 1, 1] }, { horizon: 8 }).estimate // => 5
 */
export function restrictedMean(columns: TimeToEvent, options: RestrictedMeanOptions): RestrictedMean {
  checkColumnNames(timeToEventNames, { columns });
  const asked = readOptions(restrictedMeanOptions, options);
  const together = columns.weights !== undefined || columns.clusters !== undefined;
  const { variance = together ? "robust" : "greenwood" } = asked;
  return meanOf({ columns, prepared: preparedEvent(columns) }, { ...asked, variance });
}

/**
 * Restricted mean beside competing ends: the mean time not yet with the event within a horizon, the area under 1 - F up to it, F being the
 * cumulative incidence of one cause. Whoever had a competing end counts as without the event from then to the horizon.
 *
 * Variance: the delta method (see functionals.ts), Greenwood's sum without competing ends; robust, the default with clusters: squared influences
 * summed within clusters. Interval and degenerate data as for restrictedMean, `beyondFollowUp` being false where everybody had some event.
 *
 * @throws ArgumentError naming the column and index of a value at fault, the horizon, the cause or the level
 * @source Andersen 2013, Stat Med 32:5278
 * @example
 * restrictedIncidenceMean({ times: [2, 4, 6, 8], causes: [1, 2, 1, 1] }, { horizon: 8 }).estimate // => 6
 */
export function restrictedIncidenceMean(
  columns: CompetingEvents,
  options: RestrictedIncidenceMeanOptions,
): RestrictedMean {
  checkColumnNames(competingEventsNames, { columns });
  const asked = readOptions(restrictedIncidenceMeanOptions, options);
  const { variance = columns.clusters ? "robust" : "greenwood" } = asked;
  return meanOf({ columns, prepared: preparedCause(columns, asked) }, { ...asked, variance });
}

function meanOf(
  given: {
    readonly columns: Parameters<typeof clusteredSquares>[0];
    readonly prepared: PreparedEvent;
  },
  asked: { readonly horizon: number; readonly level: number; readonly variance: VarianceKind },
): RestrictedMean {
  const { columns, prepared } = given;
  const { horizon, level, variance: kind } = asked;
  const { riskSets, own, eventFree } = prepared;
  const z = normalCritical(level);
  const lastTime = riskSets.times[lastObserved(riskSets)] ?? null;
  const common = { horizon, level, n: riskSets.n, lastTime };
  if (lastTime === null) {
    const none = { estimate: null, standardError: null, lower: null, upper: null };
    return { ...common, ...none, eventsBeforeHorizon: 0, beyondFollowUp: false, reason: "no-rows" };
  }
  const area = areaFunctional(prepared, horizon);
  const variance =
    kind === "robust"
      ? clusteredSquares(columns, influences(prepared, area))
      : deltaVarianceOf(prepared, area);
  const standardError = Math.sqrt(variance);
  const eventsBeforeHorizon = own.reduce((sum, d, at) => (riskSets.times[at]! < horizon ? sum + d : sum), 0);
  const hasInterval = standardError > 0;
  return {
    ...common,
    estimate: area.value,
    standardError,
    lower: hasInterval ? area.value - z * standardError : null,
    upper: hasInterval ? area.value + z * standardError : null,
    eventsBeforeHorizon,
    beyondFollowUp: horizon > lastTime && eventFree[eventFree.length - 1]! > 0,
    reason: hasInterval ? null : eventsBeforeHorizon === 0 ? "no-events" : "no-variance",
  };
}
