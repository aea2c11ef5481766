import { ArgumentError, checkColumn, checkNumber, checkSameLength } from "../arguments.js";
import { normalCritical } from "../distributions.js";
import type { Reason } from "../figure.js";
import { type Difference, differenceFrom } from "./contrast.js";
import { sharesNotYet } from "./product-limit.js";
import { areasUnder, clusteredSquares, influences } from "./restricted-mean.js";
import { prepareRiskSets, type RiskSets } from "./risk-sets.js";
import { remaining } from "./robust-variance.js";
import { checkTimeToEvent, rowsOf, type TimeToEvent } from "./time-to-event.js";

/** TimeToEvent with the group (0 or 1) and the stratum (a whole number) of each row. */
export interface GroupedInStrata extends TimeToEvent {
  readonly groups: ArrayLike<number>;
  readonly strata: ArrayLike<number>;
}

export interface StandardisedOptions {
  /** Times at which the shares are wanted. Default none. */
  readonly times?: readonly number[];
  /** Horizon of the restricted means; shares are wanted up to it too. */
  readonly horizon: number;
  /** Weight of each stratum by its code, 0 or more; scaled to sum to 1 over those used. Default: its share of the rows used. */
  readonly stratumWeights?: ReadonlyMap<number, number>;
  /** Fewest rows that each group needs in a stratum. Default 5. */
  readonly smallest?: number;
  /** Default 0.95. */
  readonly level?: number;
}

export interface StandardisedValue {
  readonly estimate: number;
  readonly standardError: number;
  readonly lower: number | null;
  readonly upper: number | null;
}

export interface StandardisedShare {
  readonly time: number;
  /** Share with the event, for group 0 and group 1. */
  readonly returned: readonly [StandardisedValue, StandardisedValue];
  /** Group 1 minus group 0. */
  readonly difference: Difference;
}

export interface StratumUsed {
  readonly stratum: number;
  /** Rows of group 0 and group 1. */
  readonly n: readonly [number, number];
  readonly weight: number;
}

export interface StratumLeftOut {
  readonly stratum: number;
  readonly n: readonly [number, number];
  /** `too-few-rows`: a group below the smallest size; `beyond-follow-up`: a curve that ends before the horizon. */
  readonly reason: "too-few-rows" | "beyond-follow-up";
}

export interface StandardisedCurves {
  readonly used: readonly StratumUsed[];
  readonly leftOut: readonly StratumLeftOut[];
  readonly level: number;
  readonly horizon: number;
  /** One a time asked for, in that order; null where no stratum could be used. */
  readonly shares: readonly StandardisedShare[] | null;
  readonly restrictedMean: {
    readonly groups: readonly [StandardisedValue, StandardisedValue];
    /** Group 1 minus group 0. */
    readonly difference: Difference;
  } | null;
  readonly reason: Reason | null;
}

interface Cell {
  readonly columns: TimeToEvent;
  readonly rows: Int32Array;
  readonly riskSets: RiskSets;
}

/** A figure of one cell: its value, Greenwood variance, and how much each row moves it. */
interface CellFigure {
  readonly value: number;
  readonly gain: Float64Array;
}

function cellOf(columns: GroupedInStrata, rows: Int32Array): Cell {
  const own = rowsOf(columns, rows);
  return { columns: own, rows, riskSets: prepareRiskSets(own) };
}

/** A curve is known at the horizon if somebody was followed that long, or everybody had the event. */
function endsBefore(horizon: number, { riskSets }: Cell): boolean {
  const last = riskSets.times[riskSets.times.length - 1] as number;
  return last < horizon && (sharesNotYet(riskSets).at(-1) as number) > 0;
}

function shareOf(cell: Cell, time: number): CellFigure {
  const { times } = cell.riskSets;
  const shares = sharesNotYet(cell.riskSets);
  let value = 1;
  for (let at = 0; at < times.length && (times[at] as number) <= time; at++) value = shares[at] as number;
  const gain = Float64Array.from(times, (one) => (one <= time ? value : 0));
  return { value: 1 - value, gain };
}

function areaOf(cell: Cell, horizon: number): CellFigure {
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

type Pair<T> = readonly [T, T];

interface Standardisable {
  readonly columns: GroupedInStrata;
  readonly strata: readonly { readonly weight: number; readonly cells: Pair<Cell> }[];
  readonly level: number;
  /** Sign that turns a change of log S into a change of the figure: -1 for the share returned. */
  readonly sign: 1 | -1;
}

/** Weighted means over strata of a figure for both groups, and their difference. */
function standardise(
  input: Standardisable,
  figure: (cell: Cell) => CellFigure,
): { groups: Pair<StandardisedValue>; difference: Difference } {
  const { columns, strata, level, sign } = input;
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
          moved[group][cell.rows[index] as number] = sign * weight * amount;
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

/** Rows of each group in each stratum, strata in ascending order of their code. */
function rowsByStratum(columns: GroupedInStrata): [stratum: number, rows: Pair<number[]>][] {
  const found = new Map<number, Pair<number[]>>();
  for (let row = 0; row < columns.times.length; row++) {
    const stratum = columns.strata[row] as number;
    const pair = found.get(stratum) ?? [[], []];
    found.set(stratum, pair);
    pair[columns.groups[row] as 0 | 1].push(row);
  }
  return [...found].sort(([a], [b]) => a - b);
}

function checkArguments(columns: GroupedInStrata, options: StandardisedOptions): void {
  checkTimeToEvent(columns);
  const times = { name: "times", values: columns.times };
  const groups = { name: "groups", values: columns.groups };
  const strata = { name: "strata", values: columns.strata };
  checkSameLength(groups, times);
  checkSameLength(strata, times);
  checkColumn(groups, "zero or one");
  checkColumn(strata, "code");
  checkNumber({ name: "horizon", value: options.horizon }, "positive");
  checkNumber({ name: "smallest", value: options.smallest ?? 5 }, "count");
  (options.times ?? []).forEach((time, index) => {
    if (!(time >= 0 && time <= options.horizon))
      throw new ArgumentError({
        argument: "options.times",
        index,
        expected: `between 0 and the horizon, which is ${options.horizon}`,
        found: time,
      });
  });
  for (const weight of options.stratumWeights?.values() ?? [])
    checkNumber({ name: "stratumWeights", value: weight }, "not negative");
}

/**
 * Shares and restricted means of two groups, standardised to one mix of strata (direct standardisation), and their differences.
 *
 * In each stratum and group a product-limit curve; over strata the weighted mean. Variance: sum of w^2 times the variance within, the
 * weights being taken as fixed numbers. With `weights` or `clusters` in the columns the variance is the robust one, clusters being
 * summed across strata and groups, so that somebody with a finger in each group counts once. Intervals: normal, not cut to [0, 1].
 *
 * Left out and listed: strata where either group has fewer than `smallest` rows, or where either curve ends before the horizon.
 * None left: null, `no-overlap`. Nothing is carried past follow-up.
 *
 * @throws ArgumentError naming the column and index of a value at fault, or the option
 * @source direct standardisation of product-limit curves: Makuch 1982, J Chronic Dis 35:437; Zucker 1998, J Am Stat Assoc 93:702
 *   (restricted means)
 */
export function standardisedCurves(
  columns: GroupedInStrata,
  options: StandardisedOptions,
): StandardisedCurves {
  checkArguments(columns, options);
  const { horizon, smallest = 5, level = 0.95, times = [], stratumWeights } = options;
  const leftOut: StratumLeftOut[] = [];
  const kept: { stratum: number; n: Pair<number>; raw: number; cells: Pair<Cell> }[] = [];
  for (const [stratum, rows] of rowsByStratum(columns)) {
    const n: Pair<number> = [rows[0].length, rows[1].length];
    if (Math.min(...n) < Math.max(1, smallest)) {
      leftOut.push({ stratum, n, reason: "too-few-rows" });
      continue;
    }
    const cells: Pair<Cell> = [
      cellOf(columns, Int32Array.from(rows[0])),
      cellOf(columns, Int32Array.from(rows[1])),
    ];
    if (cells.some((cell) => endsBefore(horizon, cell))) {
      leftOut.push({ stratum, n, reason: "beyond-follow-up" });
      continue;
    }
    kept.push({ stratum, n, raw: stratumWeights ? (stratumWeights.get(stratum) ?? 0) : n[0] + n[1], cells });
  }
  const whole = kept.reduce((sum, one) => sum + one.raw, 0);
  if (whole === 0) {
    const reason = columns.times.length === 0 ? "no-rows" : "no-overlap";
    return { used: [], leftOut, level, horizon, shares: null, restrictedMean: null, reason };
  }
  const strata = kept.map(({ raw, cells }) => ({ weight: raw / whole, cells }));
  return {
    used: kept.map(({ stratum, n, raw }) => ({ stratum, n, weight: raw / whole })),
    leftOut,
    level,
    horizon,
    shares: times.map((time) => {
      const { groups, difference } = standardise({ columns, strata, level, sign: -1 }, (cell) =>
        shareOf(cell, time),
      );
      return { time, returned: groups, difference };
    }),
    restrictedMean: standardise({ columns, strata, level, sign: 1 }, (cell) => areaOf(cell, horizon)),
    reason: null,
  };
}
