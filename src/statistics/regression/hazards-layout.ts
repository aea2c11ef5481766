import { indexOfCodes } from "../comparison/observed-and-expected.js";
import { distinctTimes } from "../survival/distinct-times.js";
import { rowsByIndex } from "../survival/robust-variance.js";
import type { TimeToEvent } from "../survival/time-to-event.js";
import { standardise } from "./covariates.js";

/** TimeToEvent rows with covariates; several rows a subject where covariates change (entry, time]. */
export interface HazardColumns extends TimeToEvent {
  /** Whole numbers: each stratum has a baseline of its own. */
  readonly strata?: ArrayLike<number>;
  readonly covariates: { readonly names: readonly string[]; readonly columns: readonly ArrayLike<number>[] };
}

/**
 * Rows sorted once, by stratum and from the last time to the first, so that one pass adds each row to the risk set as it comes into it.
 * A block is one time in one stratum.
 */
export interface HazardLayout {
  readonly n: number;
  readonly size: number;
  /** Place in the caller's columns of each sorted row. */
  readonly row: Int32Array;
  /** Standardised covariates, flat by sorted rows. */
  readonly x: Float64Array;
  readonly scale: Float64Array;
  readonly weight: Float64Array;
  readonly event: Uint8Array;
  readonly blockOf: Int32Array;
  readonly blockStart: Int32Array;
  readonly blockTime: Float64Array;
  readonly blockStratum: Int32Array;
  /** Sorted rows from the last entry to the first within each stratum; null: all at risk from the start. */
  readonly byEntry: Int32Array | null;
  /** For each block, how many of `byEntry` (counted from the first stratum) have entered at or after its time. */
  readonly enteredLater: Int32Array;
  /** For each sorted row, its latest block at or before its entry; -1 where there is none. */
  readonly blockOfEntry: Int32Array;
  /** Sum of w x over all events, and of w. */
  readonly eventSum: Float64Array;
  readonly eventWeight: number;
  /** Events, each row one. */
  readonly events: number;
}

/** Order of rows by stratum, then from the last to the first of the values. */
function descending(stratum: Int32Array, strata: number, values: ArrayLike<number>): Int32Array {
  const sorted = Float64Array.from(new Set(Array.from(values))).sort();
  const { position } = isNotNegative(sorted) ? distinctTimes(values) : placesIn(sorted, values);
  const backwards = Int32Array.from(position, (place) => sorted.length - 1 - place);
  const byValue = rowsByIndex(backwards, sorted.length).rows;
  const stratumThen = Int32Array.from(byValue, (row) => stratum[row] as number);
  return rowsByIndex(stratumThen, strata).rows.map((at) => byValue[at] as number);
}

const isNotNegative = (sorted: Float64Array): boolean => (sorted[0] ?? 0) >= 0;

function placesIn(sorted: Float64Array, values: ArrayLike<number>) {
  const place = new Map(Array.from(sorted, (value, at) => [value, at]));
  return { position: Int32Array.from(values, (value) => place.get(value) as number) };
}

/** Checked columns in, layout out. */
export function layOut(columns: HazardColumns): HazardLayout {
  const n = columns.times.length;
  const { codes, index: stratum } = indexOfCodes(columns.strata ?? new Int32Array(n));
  const row = descending(stratum, codes.length, columns.times);
  const unsorted = standardise(columns.covariates.columns, n);
  const { size } = unsorted;
  const x = new Float64Array(n * size);
  const weight = new Float64Array(n).fill(1);
  const event = new Uint8Array(n);
  const blockOf = new Int32Array(n);
  const starts: number[] = [];
  const eventSum = new Float64Array(size);
  let eventWeight = 0;
  let events = 0;
  for (let at = 0; at < n; at++) {
    const from = row[at] as number;
    for (let j = 0; j < size; j++) x[at * size + j] = unsorted.x[from * size + j] as number;
    if (columns.weights) weight[at] = columns.weights[from] as number;
    event[at] = columns.events[from] as number;
    const previous = at > 0 ? (row[at - 1] as number) : -1;
    const sameBlock =
      previous >= 0 && stratum[previous] === stratum[from] && columns.times[previous] === columns.times[from];
    if (!sameBlock) starts.push(at);
    blockOf[at] = starts.length - 1;
    if (event[at] === 0) continue;
    events++;
    eventWeight += weight[at] as number;
    for (let j = 0; j < size; j++) eventSum[j]! += (weight[at] as number) * (x[at * size + j] as number);
  }
  const blockTime = Float64Array.from(starts, (at) => columns.times[row[at] as number] as number);
  const blockStratum = Int32Array.from(starts, (at) => stratum[row[at] as number] as number);
  return {
    n,
    size,
    row,
    x,
    scale: unsorted.scale,
    weight,
    event,
    blockOf,
    blockStart: Int32Array.from([...starts, n]),
    blockTime,
    blockStratum,
    ...entryOrder(columns, { stratum, strata: codes.length, row, blockTime, blockStratum }),
    eventSum,
    eventWeight,
    events,
  };
}

interface SortedBlocks {
  readonly stratum: Int32Array;
  readonly strata: number;
  readonly row: Int32Array;
  readonly blockTime: Float64Array;
  readonly blockStratum: Int32Array;
}

function entryOrder(
  columns: HazardColumns,
  sorted: SortedBlocks,
): Pick<HazardLayout, "byEntry" | "enteredLater" | "blockOfEntry"> {
  const { stratum, row, blockTime, blockStratum } = sorted;
  const n = row.length;
  const enteredLater = new Int32Array(blockTime.length);
  const blockOfEntry = new Int32Array(n).fill(-1);
  const { entries } = columns;
  if (entries === undefined) return { byEntry: null, enteredLater, blockOfEntry };
  const placeOf = new Int32Array(n);
  for (let at = 0; at < n; at++) placeOf[row[at] as number] = at;
  const order = descending(stratum, sorted.strata, entries);
  let next = 0;
  for (let block = 0; block < blockTime.length; block++) {
    while (next < n) {
      const from = order[next] as number;
      const earlier = (stratum[from] as number) < (blockStratum[block] as number);
      const here =
        stratum[from] === blockStratum[block] && (entries[from] as number) >= (blockTime[block] as number);
      if (!earlier && !here) break;
      // the first block of the stratum at or before the entry, counted from the last time: the latest one
      if (here) blockOfEntry[placeOf[from] as number] = block;
      next++;
    }
    enteredLater[block] = next;
  }
  return { byEntry: order.map((from) => placeOf[from] as number), enteredLater, blockOfEntry };
}
