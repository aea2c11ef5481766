import type { TimeToEvent } from "../survival/time-to-event.js";
import type { Covariates } from "./covariates.js";
import { indexOfCodes, orderByKey, orderFalling } from "./hazards/order.js";
import { standardisedInOrder } from "./hazards/standardised-columns.js";

/** TimeToEvent rows with covariates; several rows a subject where covariates change (entry, time]. */
export interface HazardColumns extends TimeToEvent {
  /** Whole numbers: each stratum has a baseline of its own. */
  readonly strata?: ArrayLike<number>;
  readonly covariates: Covariates;
}

/**
 * Rows sorted once, by stratum and from the last time to the first, so that a pass adds each row to the risk set as it comes into it.
 *
 * A block is one event time in one stratum with the rows that come into its risk set; its events stand last in it. Rows censored before the
 * first event of a stratum are a block without events. With delayed entry each different time is a block, with events or without.
 */
export interface HazardLayout {
  readonly n: number;
  readonly size: number;
  readonly blocks: number;
  /** Place in the caller's columns of each sorted row. */
  readonly row: Int32Array;
  /** Standardised covariates, one column each, by sorted rows. */
  readonly x: readonly Float64Array[];
  readonly centre: Float64Array;
  readonly scale: Float64Array;
  /** Null: all 1. */
  readonly weight: Float64Array | null;
  /** 1 for an event with a weight above 0. */
  readonly event: Uint8Array;
  readonly blockOf: Int32Array;
  readonly blockStart: Int32Array;
  readonly blockTime: Float64Array;
  readonly blockStratum: Int32Array;
  /** Codes of the strata, ascending. */
  readonly strata: readonly number[];
  /** Events of each block, and their weight. */
  readonly deaths: Int32Array;
  readonly deathWeight: Float64Array;
  /** 1 where nobody is at risk before the rows of the block come in. */
  readonly fresh: Uint8Array;
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

/** No copy where the caller has doubles already; they are not written to. */
export const asDoubles = (values: ArrayLike<number>): Float64Array =>
  values instanceof Float64Array ? values : new Float64Array(values);

interface Strata {
  readonly codes: readonly number[];
  readonly index: Int32Array;
}

const strataOf = (columns: HazardColumns, n: number): Strata =>
  columns.strata
    ? indexOfCodes(asDoubles(columns.strata))
    : { codes: n > 0 ? [0] : [], index: new Int32Array(n) };

const byStratum = (rows: Int32Array, { codes, index }: Strata): Int32Array =>
  codes.length > 1 ? orderByKey(rows, { of: index, count: codes.length }) : rows;

/** Rows without a counted event first, then those with one. */
function eventsLast(counted: Uint8Array): Int32Array {
  const rows = new Int32Array(counted.length);
  let next = 0;
  for (const wanted of [0, 1])
    for (let row = 0; row < counted.length; row++) if (counted[row] === wanted) rows[next++] = row;
  return rows;
}

/** Checked columns in, layout out. */
export function layOut(columns: HazardColumns): HazardLayout {
  const times = asDoubles(columns.times);
  const seen = asDoubles(columns.events);
  const given = columns.weights ? asDoubles(columns.weights) : null;
  const n = times.length;
  const counted = new Uint8Array(n);
  let events = 0;
  for (let row = 0; row < n; row++) {
    if (seen[row] !== 1) continue;
    events++;
    if (given === null || (given[row] as number) > 0) counted[row] = 1;
  }
  const strata = strataOf(columns, n);
  const row = byStratum(orderFalling(eventsLast(counted), times), strata);
  const event = new Uint8Array(n);
  const weight = given && new Float64Array(n);
  for (let at = 0; at < n; at++) {
    event[at] = counted[row[at] as number] as number;
    if (given && weight) weight[at] = given[row[at] as number] as number;
  }
  const cut = cutIntoBlocks({ times, row, event, weight, strata, merge: columns.entries === undefined });
  const standardised = standardisedInOrder(columns.covariates.columns.map(asDoubles), row);
  const eventSum = standardised.x.map((column) => totalOverEvents(cut, column, weight));
  return {
    n,
    size: standardised.x.length,
    row,
    ...standardised,
    weight,
    event,
    ...cut,
    strata: strata.codes,
    ...entryOrder(columns, { strata, row, ...cut }),
    eventSum: Float64Array.from(eventSum),
    eventWeight: cut.deathWeight.reduce((sum, w) => sum + w, 0),
    events,
  };
}

/** The events stand last in their block: no row has to be asked. */
function totalOverEvents(
  { blocks, blockStart, deaths }: Cut,
  column: Float64Array,
  weight: Float64Array | null,
): number {
  let sum = 0;
  for (let block = 0; block < blocks; block++) {
    const end = blockStart[block + 1] as number;
    for (let at = end - (deaths[block] as number); at < end; at++)
      sum += weight ? (weight[at] as number) * (column[at] as number) : (column[at] as number);
  }
  return sum;
}

type Cut = Pick<
  HazardLayout,
  "blocks" | "blockOf" | "blockStart" | "blockTime" | "blockStratum" | "deaths" | "deathWeight"
>;

/** @param sorted merge: rows censored between two event times join the earlier one's block */
function cutIntoBlocks(sorted: {
  readonly times: Float64Array;
  readonly row: Int32Array;
  readonly event: Uint8Array;
  readonly weight: Float64Array | null;
  readonly strata: Strata;
  readonly merge: boolean;
}): Cut {
  const { times, row, event, weight, strata, merge } = sorted;
  const n = row.length;
  const blockOf = new Int32Array(n);
  const start = new Int32Array(n + 1);
  const time = new Float64Array(n);
  const stratum = new Int32Array(n);
  const deaths = new Int32Array(n);
  const deathWeight = new Float64Array(n);
  let block = -1;
  for (let at = 0; at < n; at++) {
    const from = row[at] as number;
    const joins =
      block >= 0 &&
      stratum[block] === strata.index[from] &&
      (time[block] === times[from] || (merge && deaths[block] === 0));
    if (!joins) {
      block++;
      start[block] = at;
      stratum[block] = strata.index[from] as number;
    }
    time[block] = times[from] as number;
    blockOf[at] = block;
    if (event[at] === 0) continue;
    deaths[block]!++;
    deathWeight[block]! += weight ? (weight[at] as number) : 1;
  }
  const blocks = block + 1;
  start[blocks] = n;
  return {
    blocks,
    blockOf,
    blockStart: start.slice(0, blocks + 1),
    blockTime: time.slice(0, blocks),
    blockStratum: stratum.slice(0, blocks),
    deaths: deaths.slice(0, blocks),
    deathWeight: deathWeight.slice(0, blocks),
  };
}

function entryOrder(
  columns: HazardColumns,
  sorted: Cut & { readonly strata: Strata; readonly row: Int32Array },
): Pick<HazardLayout, "byEntry" | "enteredLater" | "blockOfEntry" | "fresh"> {
  const { strata, row, blocks, blockStart, blockTime, blockStratum } = sorted;
  const n = row.length;
  const enteredLater = new Int32Array(blocks);
  const blockOfEntry = new Int32Array(n).fill(-1);
  const fresh = new Uint8Array(blocks);
  if (columns.entries === undefined) {
    for (let block = 0; block < blocks; block++)
      fresh[block] = block === 0 || blockStratum[block] !== blockStratum[block - 1] ? 1 : 0;
    return { byEntry: null, enteredLater, blockOfEntry, fresh };
  }
  const entries = asDoubles(columns.entries);
  const placeOf = new Int32Array(n);
  for (let at = 0; at < n; at++) placeOf[row[at] as number] = at;
  const anyOrder = Int32Array.from({ length: n }, (_, at) => at);
  const order = byStratum(orderFalling(anyOrder, entries), strata);
  let next = 0;
  for (let block = 0; block < blocks; block++) {
    const own = blockStratum[block] as number;
    for (; next < n; next++) {
      const from = order[next] as number;
      const stratum = strata.index[from] as number;
      const here = stratum === own && (entries[from] as number) >= (blockTime[block] as number);
      if (stratum >= own && !here) break;
      // the first block of the stratum at or before the entry, counted from the last time: the latest one
      if (here) blockOfEntry[placeOf[from] as number] = block;
    }
    enteredLater[block] = next;
    fresh[block] = blockStart[block] === next ? 1 : 0;
  }
  for (let at = 0; at < n; at++) order[at] = placeOf[order[at] as number] as number;
  return { byEntry: order, enteredLater, blockOfEntry, fresh };
}
