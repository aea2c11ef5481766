import type { clusterIndex } from "../shared/clusters.js";
import { normalCritical } from "../shared/distributions.js";
import { rowsOf, type TimeToEvent } from "../shared/time-to-event.js";
import { type Difference, differenceFrom } from "./contrast.js";
import { sharesNotYet } from "./product-limit.js";
import { areasUnder, influences, squaresWithin } from "./restricted-mean.js";
import { prepareRiskSets, type RiskSets } from "./risk-sets.js";
import { remaining } from "./robust-variance.js";
import type { GroupedInStrata, StandardisedValue } from "./standardised-types.js";

export interface Cell {
  readonly columns: TimeToEvent;
  readonly rows: Int32Array;
  readonly riskSets: RiskSets;
}

/** A figure of one cell: its value, Greenwood variance, and how much each row moves it. */
interface CellFigure {
  readonly value: number;
  readonly gain: Float64Array;
}

export function cellOf(columns: GroupedInStrata, rows: Int32Array): Cell {
  const own = rowsOf(columns, rows);
  return { columns: own, rows, riskSets: prepareRiskSets(own) };
}

/** A curve is known at the horizon if somebody was followed that long, or everybody had the event. */
export function endsBefore(horizon: number, { riskSets }: Cell): boolean {
  const last = riskSets.times[riskSets.times.length - 1]!;
  return last < horizon && sharesNotYet(riskSets).at(-1)! > 0;
}

export function shareOf(cell: Cell, time: number): CellFigure {
  const { times } = cell.riskSets;
  const shares = sharesNotYet(cell.riskSets);
  let value = 1;
  for (let at = 0; at < times.length && times[at]! <= time; at++) value = shares[at]!;
  const gain = new Float64Array(times.length);
  for (let at = 0; at < gain.length; at++) gain[at] = times[at]! <= time ? value : 0;
  return { value: 1 - value, gain };
}

export function areaOf(cell: Cell, horizon: number): CellFigure {
  const { area, later } = areasUnder(cell.riskSets, horizon);
  return { value: area, gain: later };
}

function greenwood({ riskSets }: Cell, gain: Float64Array): number {
  let variance = 0;
  for (let at = 0; at < gain.length; at++) {
    const d = riskSets.events[at]!;
    const n = riskSets.atRisk[at]!;
    const g = gain[at]!;
    if (d > 0 && g !== 0) variance += (g * g * d) / (n * remaining(n, d));
  }
  return variance;
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
  figure: (cell: Cell) => CellFigure,
): { groups: Pair<StandardisedValue>; difference: Difference } {
  const { n, clusters, strata, level } = input;
  const z = normalCritical(level);
  const moved: Pair<Float64Array> = [new Float64Array(n), new Float64Array(n)];
  const estimates: [number, number] = [0, 0];
  const variances: [number, number] = [0, 0];
  for (const { weight, cells } of strata)
    for (const group of [0, 1] as const) {
      const cell = cells[group];
      const { value, gain } = figure(cell);
      estimates[group] += weight * value;
      if (clusters === null) variances[group] += weight * weight * greenwood(cell, gain);
      else place(influences(cell, gain), { weight, rows: cell.rows, into: moved[group] });
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
