import { columnSums } from "./column-sums.js";
import type { RiskState } from "./risk-state.js";
import { runningSums, sumsOverEvents } from "./running-sums.js";

/**
 * Fills for each covariate its mean over the risk set of each block, less the shares of tied events.
 *
 * @param taken filled: for each covariate the sum over the denominators of w times the mean, which the score takes off the sum over events
 */
export function setMeans(state: RiskState, taken: Float64Array): void {
  const { x, byEntry } = state.layout;
  const last = x.length - 1;
  if (byEntry === null) {
    for (let j = 0; j <= last; j += 2) meansByBlocks(state, { j, k: Math.min(j + 1, last) }, taken);
    return;
  }
  for (let j = 0; j <= last; j++) meansWithEntry(state, j);
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
  const { blocks, blockStart, blockEvents, fresh, x } = layout;
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
    const end = blockStart[block + 1]!;
    const firstEvent = end - blockEvents[block]!;
    for (; at < firstEvent; at++) {
      const r = risk[at]!;
      leftSum += r * left[at]!;
      rightSum += r * right[at]!;
    }
    let leftOwn = 0;
    let rightOwn = 0;
    for (; at < end; at++) {
      const r = risk[at]!;
      leftOwn += r * left[at]!;
      rightOwn += r * right[at]!;
    }
    leftSum += leftOwn;
    rightSum += rightOwn;
    // 0 in a block without events
    const per = perRisk[block]!;
    const leftMean = leftSum * per;
    const rightMean = rightSum * per;
    leftTaken += first[block]! * leftMean;
    rightTaken += first[block]! * rightMean;
    ofLeft[block] = leftMean;
    ofRight[block] = rightMean;
    const place = tiedPlace[block]!;
    if (place < 0) continue;
    leftOwn *= per;
    rightOwn *= per;
    leftTaken -= firstTaken[block]! * leftOwn;
    rightTaken -= firstTaken[block]! * rightOwn;
    leftPart[place] = leftOwn;
    rightPart[place] = rightOwn;
    ofLeft[block] = leftMean - shift[block]! * leftOwn;
    ofRight[block] = rightMean - shift[block]! * rightOwn;
  }
  taken[j] = leftTaken;
  taken[k] = rightTaken;
}

/** Whole means of one column where rows also leave. */
function meansWithEntry(state: RiskState, j: number): void {
  const { layout, risk, perRisk } = state;
  const m = state.shifted[j]!;
  runningSums(layout, { risk, x: layout.x[j]! }, m);
  for (let block = 0; block < m.length; block++) m[block]! *= perRisk[block]!;
}

/** Takes the shares of tied events off the means of one column. @returns their part of what the score takes off */
function takeSharesOff(state: RiskState, j: number): number {
  const { layout, risk, perRisk, firstTaken, shift, tied } = state;
  const m = state.shifted[j]!;
  const v = state.tiedPart[j]!;
  let taken = 0;
  sumsOverEvents(layout, { risk, x: layout.x[j]!, blocks: tied }, v);
  for (let i = 0; i < tied.length; i++) {
    const block = tied[i]!;
    const part = v[i]! * perRisk[block]!;
    v[i] = part;
    taken += firstTaken[block]! * part;
    m[block]! -= shift[block]! * part;
  }
  return taken;
}
