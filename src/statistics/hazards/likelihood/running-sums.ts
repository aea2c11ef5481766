import type { HazardLayout } from "../layout/sorted-rows.js";

/** What is summed: risk, or risk times a column. */
interface Summed {
  readonly risk: Float64Array;
  readonly x: Float64Array | null;
}

/**
 * Sums over the risk set of each block, from the last time to the first in each stratum. Linear in rows.
 *
 * @param into filled, one a block
 */
export function runningSums(layout: HazardLayout, summed: Summed, into: Float64Array): void {
  if (layout.byEntry) sumsWithEntry(layout, { ...summed, byEntry: layout.byEntry }, into);
  else sumsFromStart(layout, summed, into);
}

/** Sums over the events of some blocks. @param into filled, one a block listed */
export function sumsOverEvents(
  { blockStart, blockEvents }: HazardLayout,
  { risk, x, blocks }: Summed & { readonly blocks: Int32Array },
  into: Float64Array,
): void {
  for (let i = 0; i < blocks.length; i++) {
    const block = blocks[i]!;
    const end = blockStart[block + 1]!;
    let sum = 0;
    // the events stand last in their block
    for (let at = end - blockEvents[block]!; at < end; at++) sum += x ? risk[at]! * x[at]! : risk[at]!;
    into[i] = sum;
  }
}

function sumsFromStart(
  { blocks, blockStart, fresh }: HazardLayout,
  { risk, x }: Summed,
  into: Float64Array,
): void {
  let sum = 0;
  let at = 0;
  for (let block = 0; block < blocks; block++) {
    if (fresh[block] === 1) sum = 0;
    const end = blockStart[block + 1]!;
    for (; at < end; at++) sum += x ? risk[at]! * x[at]! : risk[at]!;
    into[block] = sum;
  }
}

/**
 * The same where rows also leave. The sum is kept to twice the precision: a row whose risk is many powers of ten above the others' would
 * otherwise take their digits with it when it leaves. Where nobody is left the sum starts anew: what rounding leaves behind must not be
 * taken for people.
 */
function sumsWithEntry(
  { blocks, blockStart, fresh, enteredLater }: HazardLayout,
  { risk, x, byEntry }: Summed & { readonly byEntry: Int32Array },
  into: Float64Array,
): void {
  let sum = 0;
  let lost = 0;
  let removed = 0;
  for (let block = 0; block < blocks; block++) {
    const gone = enteredLater[block]!;
    if (fresh[block] === 1) {
      sum = 0;
      lost = 0;
      removed = gone;
    }
    for (; removed < gone; removed++) {
      const at = byEntry[removed]!;
      const value = x ? -risk[at]! * x[at]! : -risk[at]!;
      const after = sum + value;
      const part = after - sum;
      lost += sum - (after - part) + (value - part);
      sum = after;
    }
    const end = blockStart[block + 1]!;
    for (let i = blockStart[block]!; i < end; i++) {
      const value = x ? risk[i]! * x[i]! : risk[i]!;
      const after = sum + value;
      const part = after - sum;
      lost += sum - (after - part) + (value - part);
      sum = after;
    }
    // the digits lost so far go back in before the sum is read
    const settled = sum + lost;
    const back = settled - sum;
    lost = sum - (settled - back) + (lost - back);
    sum = settled;
    into[block] = sum;
  }
}
