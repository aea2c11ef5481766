import type { clusterIndex } from "../shared/clusters.js";
import { normalCritical } from "../shared/distributions.js";
import { rowsOf, type TimeToEvent, timeToEventNames } from "../shared/time-to-event.js";
import { type CompetingEvents, competingEventsNames } from "./competing-events.js";
import { type Difference, differenceFrom } from "./contrast.js";
import { deltaVarianceOf, type Functional, influences } from "./functionals.js";
import { type PreparedEvent, preparedCause, preparedEvent } from "./prepared-event.js";
import { squaresWithin } from "./restricted-mean.js";
import type { GroupedInStrata, StandardisedValue } from "./standardised-types.js";

export interface Cell {
  readonly rows: Int32Array;
  readonly prepared: PreparedEvent;
}

export function cellOf(
  columns: GroupedInStrata,
  { rows, cause }: { readonly rows: Int32Array; readonly cause: number },
): Cell {
  const prepared =
    "causes" in columns
      ? preparedCause(rowsOf<CompetingEvents>(columns, { rows, names: competingEventsNames }), { cause })
      : preparedEvent(rowsOf<TimeToEvent>(columns, { rows, names: timeToEventNames }));
  return { rows, prepared };
}

/** A curve is known at the horizon if somebody was followed that long, or nobody is left who might still have the event. */
export function endsBefore(horizon: number, { prepared: { riskSets, eventFree } }: Cell): boolean {
  const last = riskSets.times[riskSets.times.length - 1]!;
  return last < horizon && eventFree.at(-1)! > 0;
}

/** Weighted amounts of the rows of a cell, into the column of all rows. */
function place(
  amounts: Float64Array,
  { weight, rows, into }: { readonly weight: number; readonly rows: Int32Array; readonly into: Float64Array },
): void {
  for (let index = 0; index < amounts.length; index++) into[rows[index]!] = weight * amounts[index]!;
}

export type Pair<T> = readonly [T, T];

interface Standardisable {
  /** How many rows there are. */
  readonly n: number;
  /** The clusters of all rows where the variance is the robust one, else null. */
  readonly clusters: ReturnType<typeof clusterIndex> | null;
  readonly strata: readonly { readonly weight: number; readonly cells: Pair<Cell> }[];
  readonly level: number;
}

/** Weighted means over strata of a figure for both groups, and their difference. */
export function standardise(
  input: Standardisable,
  figure: (prepared: PreparedEvent) => Functional,
): { groups: Pair<StandardisedValue>; difference: Difference } {
  const { n, clusters, strata, level } = input;
  const z = normalCritical(level);
  const moved: Pair<Float64Array> = [new Float64Array(n), new Float64Array(n)];
  const estimates: [number, number] = [0, 0];
  const variances: [number, number] = [0, 0];
  for (const { weight, cells } of strata)
    for (const group of [0, 1] as const) {
      const cell = cells[group];
      const functional = figure(cell.prepared);
      estimates[group] += weight * functional.value;
      if (clusters === null) variances[group] += weight * weight * deltaVarianceOf(cell.prepared, functional);
      else place(influences(cell.prepared, functional), { weight, rows: cell.rows, into: moved[group] });
    }
  let between = variances[0] + variances[1];
  if (clusters !== null) {
    for (const group of [0, 1] as const) variances[group] = squaresWithin(clusters, moved[group]);
    for (let row = 0; row < n; row++) moved[1][row]! -= moved[0][row]!;
    between = squaresWithin(clusters, moved[1]);
  }
  const summary = (group: 0 | 1): StandardisedValue => {
    const estimate = estimates[group];
    const standardError = Math.sqrt(variances[group]);
    const half = standardError > 0 ? z * standardError : null;
    return {
      estimate,
      standardError,
      lower: half === null ? null : estimate - half,
      upper: half === null ? null : estimate + half,
      reason: half === null ? "no-variance" : null,
    };
  };
  return {
    groups: [summary(0), summary(1)],
    difference: differenceFrom(
      { difference: estimates[1] - estimates[0], standardError: Math.sqrt(between) },
      { level },
    ),
  };
}
