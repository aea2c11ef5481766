/**
 * Where each reading lies among those of the other state: the structural components of the area under the ROC curve.
 *
 * Kept as counts: below plus half the equal ones, times two, so that the area is a ratio of whole numbers.
 */
export interface Placements {
  readonly affected: number;
  readonly healthy: number;
  /** Of each affected row: healthy rows that read lower, ties one half; as a share of the healthy. */
  readonly ofAffected: Float64Array;
  /** Of each healthy row: affected rows that read higher, ties one half; as a share of the affected. */
  readonly ofHealthy: Float64Array;
  /** Rows of either kind, in the order of the arrays above. */
  readonly affectedRows: Int32Array;
  readonly healthyRows: Int32Array;
  readonly area: number;
}

/** Does a high or a low reading speak for the affected state? */
export const directions = ["high", "low"] as const;
export type Direction = (typeof directions)[number];

/** Two sorts and a binary search a row, n log n. Null where one of the states is missing. */
export function placementsOf(
  columns: { readonly values: ArrayLike<number>; readonly states: ArrayLike<number> },
  direction: Direction,
): Placements | null {
  const { values, states } = columns;
  const sign = direction === "high" ? 1 : -1;
  const rows: readonly [number[], number[]] = [[], []];
  for (let row = 0; row < values.length; row++) rows[states[row] as 0 | 1].push(row);
  const [healthyRows, affectedRows] = rows.map((list) => Int32Array.from(list)) as [Int32Array, Int32Array];
  const healthy = healthyRows.length;
  const affected = affectedRows.length;
  if (healthy === 0 || affected === 0) return null;
  const readings = (list: Int32Array) => Float64Array.from(list, (row) => sign * values[row]!);
  const affectedReadings = readings(affectedRows);
  const healthyReadings = readings(healthyRows);
  const sortedAffected = affectedReadings.slice().sort();
  const sortedHealthy = healthyReadings.slice().sort();
  let doubled = 0;
  const ofAffected = affectedReadings.map((value) => {
    const below = firstAtLeast(sortedHealthy, value) + firstAbove(sortedHealthy, value);
    doubled += below;
    return below / (2 * healthy);
  });
  const ofHealthy = healthyReadings.map((value) => {
    const notAbove = firstAtLeast(sortedAffected, value) + firstAbove(sortedAffected, value);
    return 1 - notAbove / (2 * affected);
  });
  const area = doubled / (2 * affected * healthy);
  return { affected, healthy, ofAffected, ofHealthy, affectedRows, healthyRows, area };
}

/** Place of the first value >= the one given. */
function firstAtLeast(sorted: Float64Array, value: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (sorted[middle]! < value) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Place of the first value > the one given. */
function firstAbove(sorted: Float64Array, value: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (sorted[middle]! <= value) low = middle + 1;
    else high = middle;
  }
  return low;
}
