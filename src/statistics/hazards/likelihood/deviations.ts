import type { HazardLayout } from "../layout/sorted-rows.js";
import { addCrossProducts, mirror } from "./cross-products.js";
import type { RiskState } from "./risk-state.js";
import { takeSharesOff, tiedEventsOf } from "./tied-shares.js";

/** Rows taken together: their deviations stay in the nearest cache until they are multiplied. */
const rowsAtOnce = 512;

/** Where there are fewer rows than this to a block, sums over blocks are nearly as long as sums over rows. */
const rowsABlock = 2;
/** Part of the blocks that the tied events may be, as each of them is gone through once more. */
const mostTied = 1 / 4;

/** Whether times are so nearly untied, and nobody leaves, that `informationByDeviations` is the shorter way. */
export function isNearlyUntied({ n, blocks, blockEvents, byEntry }: HazardLayout): boolean {
  if (byEntry !== null || n > rowsABlock * blocks) return false;
  let tied = 0;
  for (let block = 0; block < blocks; block++) if (blockEvents[block]! > 1) tied += blockEvents[block]!;
  return tied < mostTied * blocks;
}

/**
 * Information where the state stands, as one sum over rows without means of blocks: to the covariance of the covariates over the risk set a
 * row adds (r s / (r + s)) d d', where s is the risk that was there before it, r its own, and d how far its covariates are from the mean that
 * was there. All later increments of the baseline hazard multiply that. No difference of large numbers is taken.
 *
 * What Efron's ties take off the risk sets comes off afterwards.
 *
 * @returns a function of the events expected of each row (risk x exposure, overwritten) that fills the information
 * @source Welford 1962, Technometrics 4:419 (the mean and the sum of squares row by row)
 */
export function informationByDeviations(
  state: RiskState,
): (expected: Float64Array, into: Float64Array) => void {
  const { layout } = state;
  const { n, size, x } = layout;
  const share = new Float64Array(n);
  const mean = new Float64Array(size);
  const deviation = x.map(() => new Float64Array(Math.min(n, rowsAtOnce)));
  const tied = tiedEventsOf(state);
  const stream: Stream = { x, share, mean, deviation, tiedMean: tied.mean };
  return (expected, into) => {
    setShares(state, share, expected);
    into.fill(0);
    mean.fill(0);
    let place = 0;
    for (let from = 0; from < n; from += rowsAtOnce) {
      const to = Math.min(n, from + rowsAtOnce);
      const weights = expected.subarray(from, to);
      for (let j = 0; j < size; j += 2) setDeviations(stream, { j, from, to });
      place = keepTiedMeans(state, stream, { place, from, to });
      addCrossProducts(into, deviation, { weights, rows: to - from, factor: 1 });
    }
    takeSharesOff(state, tied, into);
    mirror(into, size);
  };
}

/**
 * Fills the part that each row has of the risk where it comes in, and multiplies what is expected of it by the part of those before it. Tied
 * events are expected the whole increment of their time first.
 */
function setShares(state: RiskState, share: Float64Array, expected: Float64Array): void {
  const { layout, risk, perRisk, firstTaken, tiedPlace } = state;
  const { blocks, blockStart, blockEvents, fresh } = layout;
  let sum = 0;
  let at = 0;
  for (let block = 0; block < blocks; block++) {
    if (fresh[block] === 1) sum = 0;
    const end = blockStart[block + 1]!;
    if (tiedPlace[block]! >= 0) {
      const taken = firstTaken[block]! * perRisk[block]!;
      for (let event = end - blockEvents[block]!; event < end; event++)
        expected[event]! += taken * risk[event]!;
    }
    for (; at < end; at++) {
      const before = sum;
      sum += risk[at]!;
      // rows of no weight, or of a risk too small for a number, may come first
      const per = sum > 0 ? 1 / sum : 0;
      share[at] = risk[at]! * per;
      expected[at]! *= before * per;
    }
  }
}

interface Stream {
  readonly x: readonly Float64Array[];
  readonly share: Float64Array;
  /** Means of the columns over the rows so far. */
  readonly mean: Float64Array;
  /** For each column, of the rows at hand. */
  readonly deviation: readonly Float64Array[];
  /** For each column, its mean over the risk set of each tied block. */
  readonly tiedMean: readonly Float64Array[];
}

/** Fills the deviations of two columns (the last one with itself where they are odd) from their means for some rows, and moves the means on. */
function setDeviations(
  { x, share, mean, deviation }: Stream,
  { j, from, to }: { readonly j: number; readonly from: number; readonly to: number },
): void {
  const k = Math.min(j + 1, x.length - 1);
  const [left, right] = [x[j], x[k]] as [Float64Array, Float64Array];
  const [ofLeft, ofRight] = [deviation[j], deviation[k]] as [Float64Array, Float64Array];
  let leftMean = mean[j]!;
  let rightMean = mean[k]!;
  for (let i = from; i < to; i++) {
    const part = share[i]!;
    const leftApart = left[i]! - leftMean;
    const rightApart = right[i]! - rightMean;
    ofLeft[i - from] = leftApart;
    ofRight[i - from] = rightApart;
    leftMean += part * leftApart;
    rightMean += part * rightApart;
  }
  mean[j] = leftMean;
  mean[k] = rightMean;
}

/** Fills the means of the tied blocks that end among some rows. @returns the place of the first one that ends later */
function keepTiedMeans(
  { tied, layout }: RiskState,
  { x, share, deviation, tiedMean }: Stream,
  at: { readonly place: number; readonly from: number; readonly to: number },
): number {
  let { place } = at;
  for (; place < tied.length; place++) {
    const end = layout.blockStart[tied[place]! + 1]!;
    if (end > at.to) break;
    // the mean before the last row of the block is that row less its deviation
    const before = 1 - share[end - 1]!;
    for (let j = 0; j < x.length; j++) {
      const apart = deviation[j]![end - 1 - at.from]!;
      tiedMean[j]![place] = x[j]![end - 1]! - before * apart;
    }
  }
  return place;
}
