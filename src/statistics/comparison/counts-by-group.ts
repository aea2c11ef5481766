import { countUpTo, distinctTimes, largestInTable } from "../shared/distinct-times.js";
import type { GroupedTimes } from "./grouped-times.js";

/** Counts by time and group in one stratum, flat by times. */
export interface CountsByGroup {
  /** Different times; for whole numbers every one from 0 to the largest, whether anything happens at it or not. */
  readonly count: number;
  readonly events: Float64Array;
  readonly atRisk: Float64Array;
  /** For each row listed, the index of its time. */
  readonly position: Int32Array;
  /** For each row listed, the index of the first time at which it is at risk; null: all from the start. */
  readonly start: Int32Array | null;
}

/** Where a row's time and entry stand among the times. */
interface Places {
  readonly count: number;
  readonly position: Int32Array;
  readonly start: Int32Array | null;
}

function placesOf(columns: Pick<GroupedTimes, "times" | "entries">, rows: Int32Array): Places {
  const { entries } = columns;
  const n = rows.length;
  const own = new Float64Array(n);
  for (let i = 0; i < n; i++) own[i] = columns.times[rows[i]!]!;
  const start = entries ? new Int32Array(n) : null;
  const largest = largestInTable(own);
  if (largest !== null) {
    // whole numbers are their own places
    if (entries && start)
      for (let i = 0; i < n; i++) start[i] = Math.max(0, Math.floor(entries[rows[i]!]!) + 1);
    return { count: n === 0 ? 0 : largest + 1, position: Int32Array.from(own), start };
  }
  const { times, position } = distinctTimes(own);
  if (entries && start) for (let i = 0; i < n; i++) start[i] = countUpTo(times, entries[rows[i]!]!);
  return { count: times.length, position, start };
}

/** @param stratum rows: of the stratum; group: of each row of the columns, from 0 to size - 1 */
export function countsByGroup(
  columns: Pick<GroupedTimes, "times" | "events" | "entries">,
  stratum: { readonly rows: Int32Array; readonly group: Int32Array; readonly size: number },
): CountsByGroup {
  const { rows, group, size } = stratum;
  const { count, position, start } = placesOf(columns, rows);
  const events = new Float64Array(count * size);
  const atRisk = new Float64Array(count * size); // first those who leave at each time
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i]!;
    const cell = position[i]! * size + group[row]!;
    atRisk[cell]!++;
    if (columns.events[row] === 1) events[cell]!++;
  }
  const starting = new Float64Array(start ? count * size : 0);
  if (start) for (let i = 0; i < rows.length; i++) starting[start[i]! * size + group[rows[i]!]!]!++;
  for (let cell = count * size - 1 - size; cell >= 0; cell--) {
    const later = atRisk[cell + size]! - (start ? starting[cell + size]! : 0);
    atRisk[cell]! += later;
  }
  return { count, events, atRisk, position, start };
}
