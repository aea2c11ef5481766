import { ArgumentError, checkColumn, checkNumber, checkSameLength } from "../shared/arguments.js";
import { clusterIndex, rowsByIndex } from "../shared/clusters.js";
import { indexOfCodes } from "../shared/codes.js";
import type { Generator } from "../shared/random.js";

/** What is drawn again and again: rows, or persons with all their rows; within strata or over all. */
export interface ResampledRows {
  /** Number of rows. */
  readonly n: number;
  /** Whole numbers, one a row: rows with the same number are drawn together (fingers of one person). */
  readonly clusters?: ArrayLike<number>;
  /** Whole numbers, one a row: each stratum keeps its number of rows, or of persons. */
  readonly strata?: ArrayLike<number>;
}

/** The units that are drawn, in their strata. */
export interface ResamplingPlan {
  readonly n: number;
  /** Rows, or persons. */
  readonly units: number;
  readonly unitOfRow: Int32Array;
  /** Units in order of their stratum; those of stratum k from start[k] to before start[k + 1]. */
  readonly inOrder: Int32Array;
  readonly start: Int32Array;
}

/** @throws ArgumentError naming the column and index at fault; also for a person whose rows stand in two strata */
export function prepareResampling({ n, clusters, strata }: ResampledRows): ResamplingPlan {
  checkNumber({ name: "n", value: n }, "count");
  const rows = { name: "rows", values: { length: n } };
  for (const [name, values] of [
    ["clusters", clusters],
    ["strata", strata],
  ] as const) {
    if (values === undefined) continue;
    checkSameLength({ name, values }, rows);
    checkColumn({ name, values }, "code");
  }
  const { of, count } = clusterIndex({ times: rows.values, ...(clusters && { clusters }) });
  const { codes, index } = indexOfCodes(strata ?? new Int32Array(n));
  const stratumOfUnit = new Int32Array(count).fill(-1);
  for (let row = 0; row < n; row++) {
    const unit = of[row]!;
    const before = stratumOfUnit[unit]!;
    if (before >= 0 && before !== index[row])
      throw new ArgumentError({
        argument: "strata",
        index: row,
        expected: `${codes[before]}, as in the other rows of cluster ${clusters?.[row]}`,
        found: strata?.[row],
      });
    stratumOfUnit[unit] = index[row]!;
  }
  const ordered = rowsByIndex(stratumOfUnit, codes.length);
  return { n, units: count, unitOfRow: of, inOrder: ordered.rows, start: ordered.start };
}

/** A drawer of resamples: how often each row comes, written into `counts`. Reuses its own array. */
export function countDrawer(plan: ResamplingPlan): (generator: Generator, counts: Float64Array) => void {
  const { n, units, unitOfRow, inOrder, start } = plan;
  const ofUnit = new Float64Array(units);
  return (generator, counts) => {
    ofUnit.fill(0);
    for (let stratum = 0; stratum + 1 < start.length; stratum++) {
      const from = start[stratum]!;
      const size = start[stratum + 1]! - from;
      for (let draw = 0; draw < size; draw++)
        ofUnit[inOrder[from + Math.floor(generator.uniform() * size)]!]! += 1;
    }
    for (let row = 0; row < n; row++) counts[row] = ofUnit[unitOfRow[row]!]!;
  };
}

/** The rows of a resample, ascending, each as often as it is counted. */
export function rowsOfCounts(counts: ArrayLike<number>): Int32Array {
  let total = 0;
  for (let row = 0; row < counts.length; row++) total += counts[row]!;
  const rows = new Int32Array(total);
  let next = 0;
  for (let row = 0; row < counts.length; row++)
    for (let copy = 0; copy < counts[row]!; copy++) rows[next++] = row;
  return rows;
}
