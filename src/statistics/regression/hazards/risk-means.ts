import { columnSums } from "./column-sums.js";
import type { RiskState } from "./risk-state.js";
import { runningSums, sumsOverEvents } from "./running-sums.js";

/** Blocks this much fewer than rows are gone through one by one; else rows are, without asking where a block ends. */
const rowsABlock = 2;

/**
 * Fills for each covariate its mean over the risk set of each block, less the shares of tied events.
 *
 * @param taken filled: for each covariate the sum over the denominators of w times the mean, which the score takes off the sum over events
 */
export function setMeans(state: RiskState, taken: Float64Array): void {
  const { x, byEntry, n, blocks } = state.layout;
  const last = x.length - 1;
  if (byEntry === null && n > rowsABlock * blocks) {
    for (let j = 0; j <= last; j += 2) meansByBlocks(state, { j, k: Math.min(j + 1, last) }, taken);
    return;
  }
  for (let j = 0; j <= last; j += byEntry ? 1 : 2)
    if (byEntry) meansWithEntry(state, j);
    else meansByRows(state, { j, k: Math.min(j + 1, last) });
  columnSums(state.shifted, state.first, taken);
  for (let j = 0; j <= last; j++) taken[j]! -= takeSharesOff(state, j);
}

/** Where nobody leaves: sums, means and shares in one pass, two columns side by side (the last one with itself where they are odd). */
function meansByBlocks(
  state: RiskState,
  { j, k }: { readonly j: number; readonly k: number },
  taken: Float64Array,
): void {
  const { layout, risk, perRisk, first, firstTaken, shift, tiedPlace } = state;
  const { blocks, blockStart, deaths, fresh, x } = layout;
  const [left, right] = [x[j], x[k]] as [Float64Array, Float64Array];
  const [ofLeft, ofRight] = [state.shifted[j], state.shifted[k]] as [Float64Array, Float64Array];
  const [leftPart, rightPart] = [state.tiedPart[j], state.tiedPart[k]] as [Float64Array, Float64Array];
  let leftSum = 0;
  let rightSum = 0;
  let leftTaken = 0;
  let rightTaken = 0;
  let at = 0;
  for (let block = 0; block < blocks; block++) {
    if (fresh[block] === 1) {
      leftSum = 0;
      rightSum = 0;
    }
    const end = blockStart[block + 1] as number;
    const firstDeath = end - (deaths[block] as number);
    for (; at < firstDeath; at++) {
      const r = risk[at] as number;
      leftSum += r * (left[at] as number);
      rightSum += r * (right[at] as number);
    }
    let leftOwn = 0;
    let rightOwn = 0;
    for (; at < end; at++) {
      const r = risk[at] as number;
      leftOwn += r * (left[at] as number);
      rightOwn += r * (right[at] as number);
    }
    leftSum += leftOwn;
    rightSum += rightOwn;
    // 0 in a block without events
    const per = perRisk[block] as number;
    const leftMean = leftSum * per;
    const rightMean = rightSum * per;
    leftTaken += (first[block] as number) * leftMean;
    rightTaken += (first[block] as number) * rightMean;
    ofLeft[block] = leftMean;
    ofRight[block] = rightMean;
    const place = tiedPlace[block] as number;
    if (place < 0) continue;
    leftOwn *= per;
    rightOwn *= per;
    leftTaken -= (firstTaken[block] as number) * leftOwn;
    rightTaken -= (firstTaken[block] as number) * rightOwn;
    leftPart[place] = leftOwn;
    rightPart[place] = rightOwn;
    ofLeft[block] = leftMean - (shift[block] as number) * leftOwn;
    ofRight[block] = rightMean - (shift[block] as number) * rightOwn;
  }
  taken[j] = leftTaken;
  taken[k] = rightTaken;
}

/** Where nobody leaves: whole means, each row writing that of its block, so that the last one stays. Two columns side by side. */
function meansByRows(state: RiskState, { j, k }: { readonly j: number; readonly k: number }): void {
  const { layout, risk, perRisk } = state;
  const { blocks, blockStart, blockOf, fresh, x } = layout;
  const [left, right] = [x[j], x[k]] as [Float64Array, Float64Array];
  const [ofLeft, ofRight] = [state.shifted[j], state.shifted[k]] as [Float64Array, Float64Array];
  let at = 0;
  for (let first = 0; first < blocks; ) {
    let beyond = first + 1;
    while (beyond < blocks && fresh[beyond] === 0) beyond++;
    const end = blockStart[beyond] as number;
    let leftSum = 0;
    let rightSum = 0;
    for (; at < end; at++) {
      const r = risk[at] as number;
      const block = blockOf[at] as number;
      const per = perRisk[block] as number;
      leftSum += r * (left[at] as number);
      rightSum += r * (right[at] as number);
      ofLeft[block] = leftSum * per;
      ofRight[block] = rightSum * per;
    }
    first = beyond;
  }
}

/** Whole means of one column where rows also leave. */
function meansWithEntry(state: RiskState, j: number): void {
  const { layout, risk, perRisk } = state;
  const m = state.shifted[j] as Float64Array;
  runningSums(layout, { risk, x: layout.x[j] as Float64Array }, m);
  for (let block = 0; block < m.length; block++) m[block]! *= perRisk[block] as number;
}

/** Takes the shares of tied events off the means of one column. @returns their part of what the score takes off */
function takeSharesOff(state: RiskState, j: number): number {
  const { layout, risk, perRisk, firstTaken, shift, tied } = state;
  const m = state.shifted[j] as Float64Array;
  const v = state.tiedPart[j] as Float64Array;
  let taken = 0;
  sumsOverEvents(layout, { risk, x: layout.x[j] as Float64Array, blocks: tied }, v);
  for (let place = 0; place < tied.length; place++) {
    const block = tied[place] as number;
    const part = (v[place] as number) * (perRisk[block] as number);
    v[place] = part;
    taken += (firstTaken[block] as number) * part;
    m[block]! -= (shift[block] as number) * part;
  }
  return taken;
}
