import type { HazardLayout } from "../hazards-layout.js";

/** What is summed: risk, or risk times a column. */
interface Summed {
  readonly risk: Float64Array;
  readonly x: Float64Array | null;
}

/** Filled for each block: the sum over its risk set and, where it is wanted, the sum over its events. */
interface BlockSums {
  readonly all: Float64Array;
  readonly deaths: Float64Array | null;
}

/** Sums over the risk set of each block and over its events, from the last time to the first in each stratum. Linear in rows. */
export function runningSums(layout: HazardLayout, summed: Summed, into: BlockSums): void {
  if (layout.byEntry) sumsWithEntry(layout, layout.byEntry, { summed, into });
  else if (summed.x) sumsOfColumn(layout, { risk: summed.risk, x: summed.x }, into);
  else sumsOfRisk(layout, summed.risk, into);
}

function sumsOfColumn(
  { blocks, blockStart, deaths, fresh }: HazardLayout,
  { risk, x }: { readonly risk: Float64Array; readonly x: Float64Array },
  into: BlockSums,
): void {
  const { all } = into;
  let sum = 0;
  let at = 0;
  for (let block = 0; block < blocks; block++) {
    if (fresh[block] === 1) sum = 0;
    const end = blockStart[block + 1] as number;
    for (; at < end; at++) sum += (risk[at] as number) * (x[at] as number);
    all[block] = sum;
  }
  if (!into.deaths) return;
  for (let block = 0; block < blocks; block++) {
    const end = blockStart[block + 1] as number;
    let own = 0;
    for (at = end - (deaths[block] as number); at < end; at++)
      own += (risk[at] as number) * (x[at] as number);
    if (into.deaths) into.deaths[block] = own;
  }
}

function sumsOfRisk(
  { blocks, blockStart, deaths, fresh }: HazardLayout,
  risk: Float64Array,
  into: BlockSums,
): void {
  let sum = 0;
  let at = 0;
  for (let block = 0; block < blocks; block++) {
    if (fresh[block] === 1) sum = 0;
    const end = blockStart[block + 1] as number;
    const firstDeath = end - (deaths[block] as number);
    for (; at < firstDeath; at++) sum += risk[at] as number;
    let own = 0;
    for (; at < end; at++) own += risk[at] as number;
    sum += own;
    into.all[block] = sum;
    if (into.deaths) into.deaths[block] = own;
  }
}

/**
 * The same where rows also leave. The sum is kept to twice the precision: a row whose risk is many powers of ten above the others' would
 * otherwise take their digits with it when it leaves. Where nobody is left the sum starts anew: what rounding leaves behind must not be
 * taken for people.
 */
function sumsWithEntry(
  { blocks, blockStart, deaths, fresh, enteredLater }: HazardLayout,
  byEntry: Int32Array,
  { summed, into }: { readonly summed: Summed; readonly into: BlockSums },
): void {
  const { risk, x } = summed;
  let sum = 0;
  let lost = 0;
  let removed = 0;
  for (let block = 0; block < blocks; block++) {
    const gone = enteredLater[block] as number;
    if (fresh[block] === 1) {
      sum = 0;
      lost = 0;
      removed = gone;
    }
    for (; removed < gone; removed++) {
      const at = byEntry[removed] as number;
      const value = x ? -(risk[at] as number) * (x[at] as number) : -(risk[at] as number);
      const after = sum + value;
      const part = after - sum;
      lost += sum - (after - part) + (value - part);
      sum = after;
    }
    const end = blockStart[block + 1] as number;
    const firstDeath = end - (deaths[block] as number);
    let own = 0;
    for (let at = blockStart[block] as number; at < end; at++) {
      const value = x ? (risk[at] as number) * (x[at] as number) : (risk[at] as number);
      const after = sum + value;
      const part = after - sum;
      lost += sum - (after - part) + (value - part);
      sum = after;
      if (at >= firstDeath) own += value;
    }
    // the digits lost so far go back in before the sum is read
    const settled = sum + lost;
    const back = settled - sum;
    lost = sum - (settled - back) + (lost - back);
    sum = settled;
    into.all[block] = sum;
    if (into.deaths) into.deaths[block] = own;
  }
}
