import { indexOfCodes } from "../../shared/codes.js";
import { cutIntoBlocks } from "./blocks.js";
import { type Strata, sortIntoCells } from "./cells.js";
import { allFromStart, entryOrder } from "./late-entry.js";
import type { HazardColumns, HazardLayout } from "./sorted-rows.js";
import { standardisedAndSummed } from "./standardised-columns.js";

/** No copy where the caller has doubles already; they are not written to. */
export const asDoubles = (values: ArrayLike<number>): Float64Array =>
  values instanceof Float64Array ? values : new Float64Array(values);

const strataOf = (columns: HazardColumns, n: number): Strata =>
  columns.strata
    ? indexOfCodes(asDoubles(columns.strata))
    : { codes: n > 0 ? [0] : [], index: new Int32Array(n) };

function totalOf(values: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i]!;
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
  if (given && weight) for (let i = 0; i < n; i++) weight[place[i]!] = given[i]!;
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
    blockEvents: cut.blockEvents,
    blockEventWeight: cut.blockEventWeight,
    fresh: entered.fresh,
    byEntry: entered.byEntry,
    enteredLater: entered.enteredLater,
    blockOfEntry: entered.blockOfEntry,
    eventSum: sums,
    eventWeight: totalOf(cut.blockEventWeight),
    events,
  };
}
