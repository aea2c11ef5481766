import { ArgumentError, checkColumn, checkNumber, checkSameLength } from "../shared/arguments.js";
import { clusterIndex } from "../shared/clusters.js";
import { checkColumnNames, type Read, readOptions } from "../shared/options.js";
import { checkTimeToEvent } from "../shared/time-to-event.js";
import {
  areaOf,
  type Cell,
  cellOf,
  endsBefore,
  type Pair,
  shareOf,
  standardise,
} from "./standardised-cells.js";
import type {
  GroupedInStrata,
  StandardisedCurves,
  StandardisedOptions,
  StratumLeftOut,
} from "./standardised-types.js";
import { groupedInStrataNames, standardisedOptions } from "./standardised-types.js";

/** Rows of each group in each stratum, strata in ascending order of their code; a row of weight 0 is in none. */
function rowsByStratum(columns: GroupedInStrata): [stratum: number, rows: Pair<number[]>][] {
  const found = new Map<number, Pair<number[]>>();
  for (let row = 0; row < columns.times.length; row++) {
    if (columns.weights?.[row] === 0) continue;
    const stratum = columns.strata[row]!;
    const pair = found.get(stratum) ?? [[], []];
    found.set(stratum, pair);
    pair[columns.groups[row] as 0 | 1].push(row);
  }
  return [...found].sort(([a], [b]) => a - b);
}

function checkArguments(columns: GroupedInStrata, options: Read<typeof standardisedOptions>): void {
  checkTimeToEvent(columns);
  const times = { name: "times", values: columns.times };
  const groups = { name: "groups", values: columns.groups };
  const strata = { name: "strata", values: columns.strata };
  checkSameLength(groups, times);
  checkSameLength(strata, times);
  checkColumn(groups, "zero or one");
  checkColumn(strata, "code");
  options.times.forEach((time, index) => {
    if (!(Number.isFinite(time) && time >= 0 && time <= options.horizon))
      throw new ArgumentError({
        argument: "times",
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
  checkColumnNames(groupedInStrataNames, { columns });
  const asked = readOptions(standardisedOptions, options);
  checkArguments(columns, asked);
  const { horizon, smallest, level, times, stratumWeights } = asked;
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
    const reason = leftOut.length === 0 && kept.length === 0 ? "no-rows" : "no-overlap";
    return { used: [], leftOut, level, horizon, shares: null, restrictedMean: null, reason };
  }
  const input = {
    n: columns.times.length,
    clusters: (columns.weights ?? columns.clusters) ? clusterIndex(columns) : null,
    strata: kept.map(({ raw, cells }) => ({ weight: raw / whole, cells })),
    level,
  };
  return {
    used: kept.map(({ stratum, n, raw }) => ({ stratum, n, weight: raw / whole })),
    leftOut,
    level,
    horizon,
    shares: times.map((time) => {
      const { groups, difference } = standardise(input, (cell) => shareOf(cell, time));
      return { time, returned: groups, difference };
    }),
    restrictedMean: standardise(input, (cell) => areaOf(cell, horizon)),
    reason: null,
  };
}
