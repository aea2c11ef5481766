import { checkColumn, checkSameLength } from "../shared/arguments.js";
import { clusterIndex } from "../shared/clusters.js";
import type { Reason } from "../shared/figure.js";
import {
  checkColumnNames,
  type LevelOption,
  levelOption,
  type NamesOf,
  readOptions,
} from "../shared/options.js";
import { type EventCount, limitsOfCount } from "./event-rate.js";

/** One row a finger, or whatever was followed. */
export interface ClusteredEvents {
  /** Events of the row, whole numbers, 0 or more. */
  readonly events: ArrayLike<number>;
  /** Time for which it was followed, 0 or more. */
  readonly personTimes: ArrayLike<number>;
  /** Whole numbers; rows with the same number belong together. */
  readonly clusters: ArrayLike<number>;
}

export const clusteredEventsNames: NamesOf<ClusteredEvents> = {
  events: true,
  personTimes: true,
  clusters: true,
};

/** Events per person-time, allowing for rows that belong together. */
export interface ClusteredRate {
  readonly estimate: number | null;
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly events: number;
  readonly personTime: number;
  readonly clusters: number;
  /** Variance over that of independent events, 1 at least: by so much the events count for fewer. */
  readonly designEffect: number | null;
  /** Events and time that would tell as much if they were independent: for rateRatio. */
  readonly effective: EventCount | null;
  readonly level: number;
  readonly reason: Reason | null;
}

const sumOf = (values: ArrayLike<number>): number => {
  let sum = 0;
  for (let row = 0; row < values.length; row++) sum += values[row]!;
  return sum;
};

/**
 * Events per person-time where one person may have several events, or several fingers.
 *
 * r = D / T; with G clusters of d_g events in the time t_g, Var = G / (G - 1) sum (d_g - r t_g)^2 / T^2. The design effect, Var over the
 * Poisson variance D / T^2, 1 at least, divides events and time; the exact limits are taken on what is left. Without any event the design
 * effect is the number of rows a cluster. With each row its own cluster and no more spread than Poisson the limits are Garwood's.
 *
 * @returns nulls with `no-rows` where no time was followed; no limits with one cluster (`too-few-rows`)
 * @throws ArgumentError naming the column and index of a value at fault, or the level
 * @source Rao & Scott 1999, Stat Med 18:1373; limits: Garwood 1936, Biometrika 28:437
 * @example
 * clusteredRate({ events: [1, 1, 0, 0], personTimes: [10, 10, 10, 10], clusters: [1, 1, 2, 3] }).estimate // => 0.05
 */
export function clusteredRate(columns: ClusteredEvents, options: LevelOption = {}): ClusteredRate {
  checkColumnNames(clusteredEventsNames, { columns });
  const { level } = readOptions(levelOption, options);
  const first = { name: "events", values: columns.events };
  checkColumn(first, "count");
  for (const [name, kind] of [
    ["personTimes", "not negative"],
    ["clusters", "code"],
  ] as const) {
    checkSameLength({ name, values: columns[name] }, first);
    checkColumn({ name, values: columns[name] }, kind);
  }
  const [events, personTime] = [sumOf(columns.events), sumOf(columns.personTimes)];
  const cluster = clusterIndex({ times: columns.events, clusters: columns.clusters });
  const common = { events, personTime, clusters: cluster.count, level };
  const none = { standardError: null, lower: null, upper: null, designEffect: null, effective: null };
  if (personTime === 0) return { ...none, ...common, estimate: null, reason: "no-rows" };
  const estimate = events / personTime;
  if (cluster.count < 2) return { ...none, ...common, estimate, reason: "too-few-rows" };
  const above = new Float64Array(cluster.count);
  for (let row = 0; row < columns.events.length; row++)
    above[cluster.of[row]!]! += columns.events[row]! - estimate * columns.personTimes[row]!;
  const squares = above.reduce((sum, value) => sum + value * value, 0);
  const inEvents = (cluster.count / (cluster.count - 1)) * squares;
  const designEffect = events > 0 ? Math.max(1, inEvents / events) : columns.events.length / cluster.count;
  const effective = { events: events / designEffect, personTime: personTime / designEffect };
  const [lower, upper] = limitsOfCount(effective.events, level);
  return {
    ...common,
    estimate,
    standardError: Math.sqrt(inEvents) / personTime,
    lower: lower / effective.personTime,
    upper: upper / effective.personTime,
    designEffect,
    effective,
    reason: null,
  };
}
