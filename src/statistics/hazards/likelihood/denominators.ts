import type { RiskState } from "./risk-state.js";
import { runningSums, sumsOverEvents } from "./running-sums.js";

/** A product of many factors is logged before it leaves the range of numbers. */
const largestProduct = 1e120;
const smallestProduct = 1e-120;
const outOfRange = (product: number): boolean => product > largestProduct || product < smallestProduct;

/** Fills what is a number a block from the risks. @returns sum over the denominators of w log(s0 (1 - f c)) */
export function setDenominators(state: RiskState): number {
  fillSums(state);
  const { layout, s0, perRisk, hazard, ownHazard, tied, tiedPlace } = state;
  const { blocks, blockEvents, blockEventWeight } = layout;
  let logs = 0;
  let singles = 1;
  for (let block = 0; block < blocks; block++) {
    if (blockEvents[block] === 0) continue;
    const whole = s0[block]!;
    const weight = blockEventWeight[block]!;
    perRisk[block] = 1 / whole;
    if (tiedPlace[block]! >= 0) {
      logs += weight * Math.log(whole);
      continue;
    }
    // a division: where nobody else is at risk the increment is 1 and nothing beside it
    const increment = weight / whole;
    hazard[block] = increment;
    ownHazard[block] = increment;
    if (weight !== 1) logs += weight * Math.log(whole);
    else {
      singles *= whole;
      if (outOfRange(singles)) {
        logs += Math.log(singles);
        singles = 1;
      }
    }
  }
  for (let i = 0; i < tied.length; i++) logs += takeSharesOff(state, tied[i]!);
  return logs + Math.log(singles);
}

/** Fills s0, and c of the tied blocks with the sum of the events' risks. */
function fillSums(state: RiskState): void {
  const { layout, risk, s0, c, tied, tiedPlace } = state;
  if (layout.byEntry) {
    runningSums(layout, { risk, x: null }, s0);
    const own = new Float64Array(tied.length);
    sumsOverEvents(layout, { risk, x: null, blocks: tied }, own);
    for (let i = 0; i < tied.length; i++) c[tied[i]!] = own[i]!;
    return;
  }
  const { blocks, blockStart, blockEvents, fresh } = layout;
  let sum = 0;
  let at = 0;
  for (let block = 0; block < blocks; block++) {
    if (fresh[block] === 1) sum = 0;
    const end = blockStart[block + 1]!;
    const firstEvent = end - blockEvents[block]!;
    for (; at < firstEvent; at++) sum += risk[at]!;
    let own = 0;
    for (; at < end; at++) own += risk[at]!;
    sum += own;
    s0[block] = sum;
    if (tiedPlace[block]! >= 0) c[block] = own;
  }
}

/** Fills the sums over the denominators of a tied block. @returns sum over them of w log(1 - f c) */
function takeSharesOff(state: RiskState, block: number): number {
  const { layout, perRisk, c, first, firstTaken, second, shift, rest, hazard, ownHazard } = state;
  const count = layout.blockEvents[block]!;
  const per = perRisk[block]!;
  const w = layout.blockEventWeight[block]! / count;
  const part = c[block]! * per;
  // nothing is taken off the first denominator
  let a = 1;
  let aTaken = 0;
  let b = 1;
  let bTaken = 0;
  let bTwice = 0;
  let product = 1;
  let logs = 0;
  for (let q = 1; q < count; q++) {
    const f = q / count;
    const left = 1 - f * part;
    const one = 1 / left;
    const two = one * one;
    a += one;
    aTaken += f * one;
    b += two;
    bTaken += f * two;
    bTwice += f * f * two;
    product *= left;
    if (!outOfRange(product)) continue;
    logs += Math.log(product);
    product = 1;
  }
  c[block] = part;
  first[block] = w * a;
  firstTaken[block] = w * aTaken;
  second[block] = w * b;
  shift[block] = bTaken / b;
  rest[block] = w * Math.max(0, bTwice - (bTaken * bTaken) / b);
  hazard[block] = w * a * per;
  ownHazard[block] = w * (a - aTaken) * per;
  return w * (logs + Math.log(product));
}
