import type { NamesOf } from "../options.js";
import type { TimeToEvent } from "../survival/time-to-event.js";
import type { Covariates } from "./covariates.js";
import { cutIntoBlocks } from "./hazards/blocks.js";
import { type Strata, sortIntoCells } from "./hazards/cells.js";
import { allFromStart, entryOrder } from "./hazards/late-entry.js";
import { indexOfCodes } from "./hazards/order.js";
import { standardisedAndSummed } from "./hazards/standardised-columns.js";

/** TimeToEvent rows with covariates; several rows a subject where covariates change (entry, time]. */
export interface HazardColumns extends TimeToEvent {
  /** Whole numbers: each stratum has a baseline of its own. */
  readonly strata?: ArrayLike<number>;
  readonly covariates: Covariates;
}

export const hazardColumnsNames: NamesOf<HazardColumns> = {
  strata: true,
  covariates: true,
  times: true,
  events: true,
  entries: true,
  weights: true,
  clusters: true,
};

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
  /** Largest less smallest value of each standardised covariate. */
  readonly ranges: Float64Array;
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
  /** For each block, how many of `byEntry` (counted from the first stratum) have entered at or after its time; empty without entries. */
  readonly enteredLater: Int32Array;
  /** For each sorted row, its latest block at or before its entry; -1 where there is none. Null: all at risk from the start. */
  readonly blockOfEntry: Int32Array | null;
  /** Sum of w x over all events, and of w. */
  readonly eventSum: Float64Array;
  readonly eventWeight: number;
  /** Events, each row one. */
  readonly events: number;
}

/** No copy where the caller has doubles already; they are not written to. */
export const asDoubles = (values: ArrayLike<number>): Float64Array =>
  values instanceof Float64Array ? values : new Float64Array(values);

const strataOf = (columns: HazardColumns, n: number): Strata =>
  columns.strata
    ? indexOfCodes(asDoubles(columns.strata))
    : { codes: n > 0 ? [0] : [], index: new Int32Array(n) };

function totalOf(values: Float64Array): number {
  let sum = 0;
  for (let at = 0; at < values.length; at++) sum += values[at]!;
  return sum;
}

/** Checked columns in, layout out. */
export function layOut(columns: HazardColumns): HazardLayout {
  const times = asDoubles(columns.times);
  const seen = asDoubles(columns.events);
  const given = columns.weights ? asDoubles(columns.weights) : null;
  const n = times.length;
  // copied and summed without asking of each row whether it is one: that costs more than all the rest
  const counted = new Uint8Array(seen);
  const events = totalOf(seen);
  if (given) for (let row = 0; row < n; row++) if (given[row] === 0) counted[row] = 0;
  const strata = strataOf(columns, n);
  const cells = sortIntoCells(times, { counted, strata });
  const { row, place } = cells;
  const weight = given && new Float64Array(n);
  if (given && weight) for (let at = 0; at < n; at++) weight[place[at]!] = given[at]!;
  const cut = cutIntoBlocks(cells, { weight, merge: columns.entries === undefined });
  const { x, centre, scale, ranges, sums } = standardisedAndSummed(
    columns.covariates.columns.map(asDoubles),
    {
      place,
      counts: given ? seen.map((event, row) => event * given[row]!) : seen,
    },
  );
  const entered = columns.entries
    ? entryOrder(asDoubles(columns.entries), { strata, place, ...cut })
    : allFromStart(cut);
  // name by name: the engine forgets the shape of an object spread from others between two fits, and what it made of the loops over it
  return {
    n,
    size: x.length,
    blocks: cut.blocks,
    row,
    x,
    centre,
    scale,
    ranges,
    weight,
    event: cut.event,
    blockOf: cut.blockOf,
    blockStart: cut.blockStart,
    blockTime: cut.blockTime,
    blockStratum: cut.blockStratum,
    strata: strata.codes,
    deaths: cut.deaths,
    deathWeight: cut.deathWeight,
    fresh: entered.fresh,
    byEntry: entered.byEntry,
    enteredLater: entered.enteredLater,
    blockOfEntry: entered.blockOfEntry,
    eventSum: sums,
    eventWeight: totalOf(cut.deathWeight),
    events,
  };
}
