import { normalCritical } from "../distributions.js";
import { type Difference, differenceFrom } from "./contrast.js";
import { sharesNotYet } from "./product-limit.js";
import { areasUnder, clusteredSquares, influences } from "./restricted-mean.js";
import { prepareRiskSets, type RiskSets } from "./risk-sets.js";
import { remaining } from "./robust-variance.js";
import type { GroupedInStrata, StandardisedValue } from "./standardised-types.js";
import { rowsOf, type TimeToEvent } from "./time-to-event.js";

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
  const last = riskSets.times[riskSets.times.length - 1] as number;
  return last < horizon && (sharesNotYet(riskSets).at(-1) as number) > 0;
}

export function shareOf(cell: Cell, time: number): CellFigure {
  const { times } = cell.riskSets;
  const shares = sharesNotYet(cell.riskSets);
  let value = 1;
  for (let at = 0; at < times.length && (times[at] as number) <= time; at++) value = shares[at] as number;
  const gain = Float64Array.from(times, (one) => (one <= time ? value : 0));
  return { value: 1 - value, gain };
}

export function areaOf(cell: Cell, horizon: number): CellFigure {
  const { area, later } = areasUnder(cell.riskSets, horizon);
  return { value: area, gain: later };
}

function greenwood({ riskSets }: Cell, gain: Float64Array): number {
  let variance = 0;
  for (let at = 0; at < gain.length; at++) {
    const d = riskSets.events[at] as number;
    const n = riskSets.atRisk[at] as number;
    const g = gain[at] as number;
    if (d > 0 && g !== 0) variance += (g * g * d) / (n * remaining(n, d));
  }
  return variance;
}

export type Pair<T> = readonly [T, T];

interface Standardisable {
  readonly columns: GroupedInStrata;
  readonly strata: readonly { readonly weight: number; readonly cells: Pair<Cell> }[];
  readonly level: number;
}

/** Weighted means over strata of a figure for both groups, and their difference. */
export function standardise(
  input: Standardisable,
  figure: (cell: Cell) => CellFigure,
): { groups: Pair<StandardisedValue>; difference: Difference } {
  const { columns, strata, level } = input;
  const robust = Boolean(columns.weights ?? columns.clusters);
  const z = normalCritical(level);
  const moved: Pair<Float64Array> = [
    new Float64Array(columns.times.length),
    new Float64Array(columns.times.length),
  ];
  const estimates: [number, number] = [0, 0];
  const variances: [number, number] = [0, 0];
  for (const { weight, cells } of strata)
    for (const group of [0, 1] as const) {
      const cell = cells[group];
      const { value, gain } = figure(cell);
      estimates[group] += weight * value;
      if (!robust) variances[group] += weight * weight * greenwood(cell, gain);
      else
        influences(cell, gain).forEach((amount, index) => {
          moved[group][cell.rows[index] as number] = weight * amount;
        });
    }
  if (robust) for (const group of [0, 1] as const) variances[group] = clusteredSquares(columns, moved[group]);
  const between = robust
    ? clusteredSquares(
        columns,
        moved[1].map((amount, row) => amount - (moved[0][row] as number)),
      )
    : variances[0] + variances[1];
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
