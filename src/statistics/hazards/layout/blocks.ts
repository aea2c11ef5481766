import type { Cells } from "./cells.js";
import type { HazardLayout } from "./sorted-rows.js";

/** Event times with the rows that come into their risk sets: see HazardLayout. */
export type Blocks = Pick<
  HazardLayout,
  | "blocks"
  | "blockOf"
  | "blockStart"
  | "blockTime"
  | "blockStratum"
  | "blockEvents"
  | "blockEventWeight"
  | "event"
>;

/** @param settings merge: rows censored between two event times join the earlier one's block */
export function cutIntoBlocks(
  { row, start, time, stratum }: Cells,
  settings: { readonly weight: Float64Array | null; readonly merge: boolean },
): Blocks {
  const n = row.length;
  const blockOf = new Int32Array(n);
  const event = new Uint8Array(n);
  const blockStart = new Int32Array(time.length + 1);
  const blockTime = new Float64Array(time.length);
  const blockStratum = new Int32Array(time.length);
  const blockEvents = new Int32Array(time.length);
  const blockEventWeight = new Float64Array(time.length);
  let block = -1;
  for (let cell = 0; cell < time.length; cell++) {
    const begin = start[2 * cell]!;
    const firstEvent = start[2 * cell + 1]!;
    const end = start[2 * cell + 2]!;
    if (begin === end) continue;
    const joins =
      settings.merge && block >= 0 && blockEvents[block] === 0 && blockStratum[block] === stratum[cell];
    if (!joins) {
      block++;
      blockStart[block] = begin;
      blockStratum[block] = stratum[cell]!;
    }
    blockTime[block] = time[cell]!;
    blockEvents[block] = end - firstEvent;
    for (let i = begin; i < end; i++) blockOf[i] = block;
    if (firstEvent === end) continue;
    for (let i = firstEvent; i < end; i++) event[i] = 1;
    blockEventWeight[block] =
      settings.weight === null ? end - firstEvent : sumOf(settings.weight, firstEvent, end);
  }
  const blocks = block + 1;
  blockStart[blocks] = n;
  return {
    blocks,
    blockOf,
    event,
    blockStart: blockStart.subarray(0, blocks + 1),
    blockTime: blockTime.subarray(0, blocks),
    blockStratum: blockStratum.subarray(0, blocks),
    blockEvents: blockEvents.subarray(0, blocks),
    blockEventWeight: blockEventWeight.subarray(0, blocks),
  };
}

function sumOf(values: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum += values[i]!;
  return sum;
}
