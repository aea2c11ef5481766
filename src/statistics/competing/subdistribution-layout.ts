import { placesOf } from "../hazards/layout/cells.js";
import { standardisedInOrder } from "../hazards/layout/standardised-columns.js";
import { rowsByIndex } from "../shared/clusters.js";
import { indexOfCodes } from "../shared/codes.js";
import { distinctTimes } from "../shared/distinct-times.js";
import type { SubdistributionColumns } from "./subdistribution-types.js";

/** How each censoring group thins out over the times: arrays flat by groups and times. */
export interface Censoring {
  readonly groups: number;
  /** Under observation just before each time, and censored at it. */
  readonly atRisk: Float64Array;
  readonly censored: Float64Array;
  /**
   * G(u-) / G(t-) for two times u after t that follow each other: 1 less the censored share of those under observation at t, those with an
   * event at t counted among them; 0 after the last time of the group.
   */
  readonly staying: Float64Array;
}

/** Rows sorted once, from the first time to the last, with what does not change from iteration to iteration. */
export interface SubdistributionLayout {
  readonly n: number;
  /** Covariates. */
  readonly size: number;
  /** Place in the caller's columns of each sorted row. */
  readonly row: Int32Array;
  /** Standardised covariates in sorted order. */
  readonly x: readonly Float64Array[];
  readonly centre: Float64Array;
  readonly scale: Float64Array;
  readonly times: Float64Array;
  /** First sorted row at each time; one entry more than the times. */
  readonly start: Int32Array;
  /** Of each sorted row: 0 censored, 1 the event of interest, 2 another event. */
  readonly end: Uint8Array;
  /** Censoring group of each sorted row. */
  readonly group: Int32Array;
  /** Events of interest at each time. */
  readonly eventsAt: Float64Array;
  readonly censoring: Censoring;
  /** Sum of each covariate over the events of interest. */
  readonly eventSum: Float64Array;
  readonly events: number;
  readonly competing: number;
}

function censoringOf(
  rows: { readonly start: Int32Array; readonly end: Uint8Array; readonly group: Int32Array },
  groups: number,
): Censoring {
  const { start, end, group } = rows;
  const count = start.length - 1;
  const atRisk = new Float64Array(groups * count);
  const censored = new Float64Array(groups * count);
  const staying = new Float64Array(groups * count);
  for (let at = 0; at < count; at++)
    for (let i = start[at]!; i < start[at + 1]!; i++) {
      const cell = group[i]! * count + at;
      atRisk[cell]!++;
      if (end[i] === 0) censored[cell]!++;
    }
  for (let g = 0; g < groups; g++) {
    let later = 0;
    for (let cell = (g + 1) * count - 1; cell >= g * count; cell--) {
      const before = later;
      later += atRisk[cell]!;
      atRisk[cell] = later;
      staying[cell] = before === 0 ? 0 : 1 - censored[cell]! / later;
    }
  }
  return { groups, atRisk, censored, staying };
}

/** Checked columns in, layout out. Linear in rows, but for the sorting of times that are no whole numbers; times by censoring groups. */
export function layOutSubdistribution(columns: SubdistributionColumns, cause: number): SubdistributionLayout {
  const n = columns.times.length;
  const { times, position } = distinctTimes(columns.times);
  const { rows: row, start } = rowsByIndex(position, times.length);
  const groups = indexOfCodes(columns.censoringGroups ?? new Int32Array(n));
  const asked = columns.covariates.columns.map((column) => Float64Array.from(column));
  const { x, centre, scale } = standardisedInOrder(asked, placesOf(row));
  const size = x.length;
  const end = new Uint8Array(n);
  const group = new Int32Array(n);
  const eventsAt = new Float64Array(times.length);
  const eventSum = new Float64Array(size);
  let events = 0;
  let competing = 0;
  for (let i = 0; i < n; i++) {
    const from = row[i]!;
    const own = columns.causes[from]!;
    group[i] = groups.index[from]!;
    end[i] = own === 0 ? 0 : own === cause ? 1 : 2;
    if (end[i] === 2) competing++;
    if (end[i] !== 1) continue;
    events++;
    eventsAt[position[from]!]!++;
    for (let j = 0; j < size; j++) eventSum[j]! += x[j]![i]!;
  }
  const censoring = censoringOf({ start, end, group }, Math.max(1, groups.codes.length));
  return {
    n,
    size,
    row,
    x,
    centre,
    scale,
    times,
    start,
    end,
    group,
    eventsAt,
    censoring,
    eventSum,
    events,
    competing,
  };
}
