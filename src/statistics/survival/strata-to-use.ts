import { checkColumn, checkSameLength } from "../shared/arguments.js";
import { clusterIndex } from "../shared/clusters.js";
import type { Reason } from "../shared/figure.js";
import type { Read } from "../shared/options.js";
import { type Cell, cellOf, endsBefore, type Pair } from "./standardised-cells.js";
import type { Standardisable } from "./standardised-sums.js";
import type {
  GroupedInStrata,
  StandardisedCurves,
  StratumLeftOut,
  standardisedOptions,
} from "./standardised-types.js";

/** Rows of each group in each stratum, strata in ascending order of their code; a row of weight 0 is in none. */
function rowsByStratum(columns: GroupedInStrata): [stratum: number, rows: Pair<number[]>][] {
  const weights = "weights" in columns ? columns.weights : undefined;
  const found = new Map<number, Pair<number[]>>();
  for (let row = 0; row < columns.times.length; row++) {
    if (weights?.[row] === 0) continue;
    const stratum = columns.strata[row]!;
    const pair = found.get(stratum) ?? [[], []];
    found.set(stratum, pair);
    pair[columns.groups[row] as 0 | 1].push(row);
  }
  return [...found].sort(([a], [b]) => a - b);
}

/** @throws ArgumentError naming the column and index of a value at fault */
export function checkGroupsAndStrata(columns: Pick<GroupedInStrata, "times" | "groups" | "strata">): void {
  const times = { name: "times", values: columns.times };
  const groups = { name: "groups", values: columns.groups };
  const strata = { name: "strata", values: columns.strata };
  checkSameLength(groups, times);
  checkSameLength(strata, times);
  checkColumn(groups, "zero or one");
  checkColumn(strata, "code");
}

/** The strata in which both groups can be followed to the horizon, and those left out; no input, and why, where there are none. */
export type StrataToUse = Pick<StandardisedCurves, "used" | "leftOut"> &
  (
    | { readonly input: Standardisable; readonly reason: null }
    | { readonly input: null; readonly reason: Reason }
  );

type Asked = Pick<Read<typeof standardisedOptions>, "horizon" | "smallest" | "stratumWeights" | "cause">;

/** @param columns checked */
export function strataToUse(
  columns: GroupedInStrata,
  { horizon, smallest, stratumWeights, cause }: Asked,
): StrataToUse {
  const weights = "weights" in columns ? columns.weights : undefined;
  const leftOut: StratumLeftOut[] = [];
  const kept: { stratum: number; n: Pair<number>; raw: number; cells: Pair<Cell> }[] = [];
  for (const [stratum, rows] of rowsByStratum(columns)) {
    const n: Pair<number> = [rows[0].length, rows[1].length];
    if (Math.min(...n) < Math.max(1, smallest)) {
      leftOut.push({ stratum, n, reason: "too-few-rows" });
      continue;
    }
    const cells: Pair<Cell> = [
      cellOf(columns, { rows: Int32Array.from(rows[0]), cause }),
      cellOf(columns, { rows: Int32Array.from(rows[1]), cause }),
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
    return { used: [], leftOut, input: null, reason };
  }
  const input: Standardisable = {
    n: columns.times.length,
    clusters: clusterIndex(columns),
    robust: (weights ?? columns.clusters) !== undefined,
    strata: kept.map(({ raw, cells }) => ({ weight: raw / whole, cells })),
  };
  const used = kept.map(({ stratum, n, raw }) => ({ stratum, n, weight: raw / whole }));
  return { used, leftOut, input, reason: null };
}
