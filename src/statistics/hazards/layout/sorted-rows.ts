import type { Covariates } from "../../shared/covariates.js";
import type { NamesOf } from "../../shared/options.js";
import type { TimeToEvent } from "../../shared/time-to-event.js";

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
  readonly blockEvents: Int32Array;
  readonly blockEventWeight: Float64Array;
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
