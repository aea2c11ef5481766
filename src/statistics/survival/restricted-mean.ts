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
import { lastObserved, sharesNotYet, varianceKinds } from "./product-limit.js";
import { prepareRiskSets, type RiskSets } from "./risk-sets.js";
import { remaining } from "./robust-variance.js";

export const restrictedMeanOptions = {
  /** Time up to which the mean is taken, above 0, in the unit of `times`. */
  horizon: needed(number("positive")),
  /** Default 0.95. */
  level: confidenceLevel,
  /** Default "robust" where there are weights or clusters, else "greenwood". */
  variance: oneOf(varianceKinds),
};

export interface RestrictedMeanOptions extends OptionsOf<typeof restrictedMeanOptions> {}

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

/** Area under the curve up to the horizon, and for each time the area still to come after it. */
export function areasUnder(riskSets: RiskSets, horizon: number): { area: number; later: Float64Array } {
  const { times } = riskSets;
  const shares = sharesNotYet(riskSets);
  const later = new Float64Array(times.length);
  let area = 0;
  let end = horizon;
  for (let at = times.length - 1; at >= 0; at--) {
    const time = times[at]!;
    if (time >= horizon) continue;
    area += (end - time) * shares[at]!;
    later[at] = area;
    end = time;
  }
  return { area: area + end, later };
}

function greenwoodVarianceOfArea({ atRisk, events }: RiskSets, later: Float64Array): number {
  let variance = 0;
  for (let at = 0; at < later.length; at++) {
    const area = later[at]!;
    const d = events[at]!;
    // where everybody left has the event no area is left to come: the term is 0, not 0/0
    if (area === 0 || d === 0) continue;
    const n = atRisk[at]!;
    variance += (area * area * d) / (n * remaining(n, d));
  }
  return variance;
}

/**
 * Derivative of a functional of the curve by the weight of each row, times that weight: its influence.
 *
 * @param gain what a unit change of log S at each time does to the functional from that time on: the area still to come for a
 *   restricted mean, S(t) at the times up to t for a share
 */
export function influences(
  prepared: { readonly columns: TimeToEvent; readonly riskSets: RiskSets },
  gain: Float64Array,
): Float64Array {
  const { columns, riskSets } = prepared;
  const { atRisk, events, rowTime, rowStart } = riskSets;
  const running = new Float64Array(gain.length + 1);
  const own = new Float64Array(gain.length);
  for (let at = 0; at < gain.length; at++) {
    const d = events[at]!;
    const n = atRisk[at]!;
    const counts = d > 0 && gain[at]! !== 0;
    const left = remaining(n, d);
    running[at + 1] = running[at]! + (counts ? gain[at]! * (1 / left - 1 / n) : 0);
    own[at] = counts ? gain[at]! / left : 0;
  }
  const moved = new Float64Array(riskSets.n);
  for (let row = 0; row < moved.length; row++) {
    const at = rowTime[row]!;
    const start = rowStart ? running[rowStart[row]!]! : 0;
    const event = columns.events[row] === 1 ? own[at]! : 0;
    moved[row] = (columns.weights?.[row] ?? 1) * (running[at + 1]! - start - event);
  }
  return moved;
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
  const { horizon, level, variance: chosen } = readOptions(restrictedMeanOptions, options);
  const z = normalCritical(level);
  const riskSets = prepareRiskSets(columns);
  const kind = chosen ?? (columns.weights || columns.clusters ? "robust" : "greenwood");
  const lastTime = riskSets.times[lastObserved(riskSets)] ?? null;
  const common = { horizon, level, n: riskSets.n, lastTime };
  if (lastTime === null) {
    const none = { estimate: null, standardError: null, lower: null, upper: null };
    return { ...common, ...none, eventsBeforeHorizon: 0, beyondFollowUp: false, reason: "no-rows" };
  }
  const { area, later } = areasUnder(riskSets, horizon);
  const variance =
    kind === "robust"
      ? clusteredSquares(columns, influences({ columns, riskSets }, later))
      : greenwoodVarianceOfArea(riskSets, later);
  const standardError = Math.sqrt(variance);
  const shares = sharesNotYet(riskSets);
  const eventsBeforeHorizon = riskSets.events.reduce(
    (sum, d, at) => (riskSets.times[at]! < horizon ? sum + d : sum),
    0,
  );
  const hasInterval = standardError > 0;
  return {
    ...common,
    estimate: area,
    standardError,
    lower: hasInterval ? area - z * standardError : null,
    upper: hasInterval ? area + z * standardError : null,
    eventsBeforeHorizon,
    beyondFollowUp: horizon > lastTime && shares[shares.length - 1]! > 0,
    reason: hasInterval ? null : eventsBeforeHorizon === 0 ? "no-events" : "no-variance",
  };
}
