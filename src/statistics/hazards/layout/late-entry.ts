import type { Blocks } from "./blocks.js";
import type { Strata } from "./cells.js";
import { orderByKey, orderFalling } from "./order.js";
import type { HazardLayout } from "./sorted-rows.js";

/** When rows come to be at risk: see HazardLayout. */
export type EntryOrder = Pick<HazardLayout, "byEntry" | "enteredLater" | "blockOfEntry" | "fresh">;

/** All at risk from the start: only the last time of a stratum finds nobody. */
export function allFromStart({ blocks, blockStratum }: Blocks): EntryOrder {
  const fresh = new Uint8Array(blocks);
  for (let block = 0; block < blocks; block++)
    fresh[block] = block === 0 || blockStratum[block] !== blockStratum[block - 1] ? 1 : 0;
  return { byEntry: null, enteredLater: new Int32Array(0), blockOfEntry: null, fresh };
}

export function entryOrder(
  entries: Float64Array,
  sorted: Blocks & { readonly strata: Strata; readonly place: Int32Array },
): EntryOrder {
  const { strata, place, blocks, blockStart, blockTime, blockStratum } = sorted;
  const n = place.length;
  const enteredLater = new Int32Array(blocks);
  const blockOfEntry = new Int32Array(n).fill(-1);
  const fresh = new Uint8Array(blocks);
  const given = new Int32Array(n);
  for (let row = 0; row < n; row++) given[row] = row;
  const falling = orderFalling(given, entries);
  const { codes, index } = strata;
  const order = codes.length > 1 ? orderByKey(falling, { of: index, count: codes.length }) : falling;
  let next = 0;
  for (let block = 0; block < blocks; block++) {
    const own = blockStratum[block]!;
    for (; next < n; next++) {
      const from = order[next]!;
      const stratum = index[from]!;
      const here = stratum === own && entries[from]! >= blockTime[block]!;
      if (stratum >= own && !here) break;
      // the first block of the stratum at or before the entry, counted from the last time: the latest one
      if (here) blockOfEntry[place[from]!] = block;
    }
    enteredLater[block] = next;
    fresh[block] = blockStart[block] === next ? 1 : 0;
  }
  for (let i = 0; i < n; i++) order[i] = place[order[i]!]!;
  return { byEntry: order, enteredLater, blockOfEntry, fresh };
}
