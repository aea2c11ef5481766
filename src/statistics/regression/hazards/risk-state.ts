import type { HazardLayout } from "../hazards-layout.js";
import { runningSums, sumsOverEvents } from "./running-sums.js";
import type { SummedTies } from "./ties.js";

/**
 * What the risk sets come to at one value of the coefficients, in arrays that are filled again at each.
 *
 * A tied time has denominators s0 (1 - f c), where s0 is the sum of the risks, c the events' part of it and f the part of the events taken
 * off: f = q / d, q = 0 .. d - 1 under Efron, f = 0 once under Breslow. Each has the same weight w: the mean weight of the events under
 * Efron (so whole weights are not repeated rows there), their whole weight under Breslow. With m the mean covariate of the risk set and v the
 * events' part of it, the mean at f is (m - f v) / (1 - f c), so that its sums over f need a few numbers a block:
 *
 * - `first`: sum of w / (1 - f c); `firstTaken`: of w f / (1 - f c)
 * - `second`: sum of w / (1 - f c)^2; `shift` and `rest` complete the square: the sum of w mean mean' is
 *   second (m - shift v)(m - shift v)' + rest v v'
 */
export interface RiskState {
  readonly layout: HazardLayout;
  readonly ties: SummedTies;
  /** Added to the log hazard of each sorted row; null: none. */
  readonly offset: Float64Array | null;
  /** exp(eta + offset) of each sorted row, and the same times its weight (the same array where all weigh 1). */
  readonly ratio: Float64Array;
  readonly risk: Float64Array;
  readonly s0: Float64Array;
  /** 1 / s0. */
  readonly perRisk: Float64Array;
  /** Events' part of s0 in the tied blocks. */
  readonly c: Float64Array;
  readonly first: Float64Array;
  readonly firstTaken: Float64Array;
  readonly second: Float64Array;
  readonly shift: Float64Array;
  readonly rest: Float64Array;
  /** Increment of the baseline hazard, first / s0, and the increment that the block's own events take: the sum of (1 - f) w / (s0 (1 - f c)). */
  readonly hazard: Float64Array;
  readonly ownHazard: Float64Array;
  /** For each covariate its mean m over the risk set of each block, less shift v. */
  readonly shifted: readonly Float64Array[];
  /** Blocks with several events whose shares are taken off (none under Breslow); for each covariate its v there, one a tied block. */
  readonly tied: Int32Array;
  readonly tiedPart: readonly Float64Array[];
  /** Place of each block among the tied ones, -1 for the others. */
  readonly tiedPlace: Int32Array;
  /** One a tied block. */
  readonly work: Float64Array;
}

/** Blocks with several events, where the ties are of the kind that takes shares off. */
const tiedBlocks = ({ deaths, blocks }: HazardLayout, ties: SummedTies): Int32Array =>
  ties === "breslow"
    ? new Int32Array(0)
    : Int32Array.from({ length: blocks }, (_, block) => block).filter(
        (block) => (deaths[block] as number) > 1,
      );

export function emptyState(
  layout: HazardLayout,
  how: { readonly ties: SummedTies; readonly offset?: Float64Array | null },
): RiskState {
  const perBlock = (): Float64Array => new Float64Array(layout.blocks);
  const ratio = new Float64Array(layout.n);
  const tied = tiedBlocks(layout, how.ties);
  const tiedPlace = new Int32Array(layout.blocks).fill(-1);
  tied.forEach((block, place) => {
    tiedPlace[block] = place;
  });
  return {
    layout,
    ties: how.ties,
    offset: how.offset ?? null,
    ratio,
    risk: layout.weight ? new Float64Array(layout.n) : ratio,
    s0: perBlock(),
    perRisk: perBlock(),
    c: perBlock(),
    first: perBlock(),
    firstTaken: perBlock(),
    second: perBlock(),
    shift: perBlock(),
    rest: perBlock(),
    hazard: perBlock(),
    ownHazard: perBlock(),
    shifted: layout.x.map(perBlock),
    tied,
    tiedPart: layout.x.map(() => new Float64Array(tied.length)),
    tiedPlace,
    work: new Float64Array(tied.length),
  };
}

/** Adds up to four columns times their coefficients, so that the sum is read and written once for all of them. */
function addColumns(
  into: Float64Array,
  terms: readonly { readonly b: number; readonly column: Float64Array }[],
): void {
  const none = { b: 0, column: (terms[0] as (typeof terms)[number]).column };
  const [one, two = none, three = none, four = none] = terms as [typeof none, ...(typeof none)[]];
  const [p, q, r, s] = [one.column, two.column, three.column, four.column];
  const [bp, bq, br, bs] = [one.b, two.b, three.b, four.b];
  for (let at = 0; at < into.length; at++)
    into[at]! +=
      bp * (p[at] as number) + bq * (q[at] as number) + (br * (r[at] as number) + bs * (s[at] as number));
}

/** Fills ratio and risk. */
function setRisks(state: RiskState, beta: ArrayLike<number>): void {
  const { layout, offset, ratio, risk } = state;
  const { n, weight, x } = layout;
  const terms = x.map((column, j) => ({ b: beta[j] as number, column })).filter(({ b }) => b !== 0);
  if (terms.length === 0 && offset === null) ratio.fill(1);
  else {
    if (offset) ratio.set(offset);
    else ratio.fill(0);
    for (let first = 0; first < terms.length; first += 4) addColumns(ratio, terms.slice(first, first + 4));
    for (let at = 0; at < n; at++) ratio[at] = Math.exp(ratio[at] as number);
  }
  if (weight) for (let at = 0; at < n; at++) risk[at] = (weight[at] as number) * (ratio[at] as number);
}

/** A product of many factors is logged before it leaves the range of numbers. */
const largestProduct = 1e120;
const outOfRange = (product: number): boolean => product > largestProduct || product < 1 / largestProduct;

/** Fills what is a number a block. @returns sum over the denominators of w log(s0 (1 - f c)) */
function setDenominators(state: RiskState): number {
  const { layout, ties, s0, perRisk, c, first, firstTaken, second, shift, rest, hazard, ownHazard } = state;
  const { blocks, deaths, deathWeight } = layout;
  let logs = 0;
  let singles = 1;
  for (let block = 0; block < blocks; block++) {
    const d = deaths[block] as number;
    if (d === 0) continue;
    const whole = s0[block] as number;
    const per = 1 / whole;
    const weight = deathWeight[block] as number;
    const count = ties === "efron" ? d : 1;
    const w = weight / count;
    const part = (c[block] as number) * per;
    // nothing is taken off the first denominator
    let a = 1;
    let aTaken = 0;
    let b = 1;
    let bTaken = 0;
    let bTwice = 0;
    let product = 1;
    let logOfLeft = 0;
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
      logOfLeft += Math.log(product);
      product = 1;
    }
    if (count === 1 && weight === 1) {
      singles *= whole;
      if (outOfRange(singles)) {
        logs += Math.log(singles);
        singles = 1;
      }
    } else logs += weight * Math.log(whole) + w * (logOfLeft + Math.log(product));
    perRisk[block] = per;
    c[block] = part;
    first[block] = w * a;
    firstTaken[block] = w * aTaken;
    second[block] = w * b;
    shift[block] = bTaken / b;
    rest[block] = w * Math.max(0, bTwice - (bTaken * bTaken) / b);
    hazard[block] = w * a * per;
    ownHazard[block] = w * (a - aTaken) * per;
  }
  return logs + Math.log(singles);
}

/** Where nobody leaves: sums and means in one pass, two columns side by side. */
function fillMeansFromStart(
  { layout, risk, perRisk }: RiskState,
  x: readonly [Float64Array, Float64Array],
  into: readonly [Float64Array, Float64Array],
): void {
  const { blocks, blockStart, fresh } = layout;
  const [left, right] = x;
  const [ofLeft, ofRight] = into;
  let leftSum = 0;
  let rightSum = 0;
  let at = 0;
  for (let block = 0; block < blocks; block++) {
    if (fresh[block] === 1) {
      leftSum = 0;
      rightSum = 0;
    }
    const end = blockStart[block + 1] as number;
    for (; at < end; at++) {
      const r = risk[at] as number;
      leftSum += r * (left[at] as number);
      rightSum += r * (right[at] as number);
    }
    // 0 in a block without events
    const per = perRisk[block] as number;
    ofLeft[block] = leftSum * per;
    ofRight[block] = rightSum * per;
  }
}

/** Fills for each covariate its mean over the risk set of each block. */
function fillMeans(state: RiskState): void {
  const { layout, risk, perRisk, shifted } = state;
  const { x, byEntry } = layout;
  for (let j = 0; j < x.length; j += byEntry ? 1 : 2) {
    const column = x[j] as Float64Array;
    const m = shifted[j] as Float64Array;
    if (byEntry) {
      runningSums(layout, { risk, x: column }, m);
      for (let block = 0; block < m.length; block++) m[block]! *= perRisk[block] as number;
    } else fillMeansFromStart(state, [column, x[j + 1] ?? column], [m, shifted[j + 1] ?? m]);
  }
}

/** Takes the shares of tied events off the means of one covariate. @returns its part of the score that is taken off the sum over events */
function takeSharesOff(state: RiskState, j: number): number {
  const { layout, risk, perRisk, first, firstTaken, shift, tied } = state;
  const m = state.shifted[j] as Float64Array;
  const v = state.tiedPart[j] as Float64Array;
  let taken = 0;
  for (let block = 0; block < m.length; block++) taken += (first[block] as number) * (m[block] as number);
  sumsOverEvents(layout, { risk, x: layout.x[j] as Float64Array, blocks: tied }, v);
  for (let place = 0; place < tied.length; place++) {
    const block = tied[place] as number;
    const part = (v[place] as number) * (perRisk[block] as number);
    v[place] = part;
    taken -= (firstTaken[block] as number) * part;
    m[block]! -= (shift[block] as number) * part;
  }
  return taken;
}

/**
 * Fills the state at some coefficients.
 *
 * @param score filled with the first derivative of the log-likelihood
 * @returns the partial log-likelihood
 */
export function moveTo(state: RiskState, beta: ArrayLike<number>, score: Float64Array): number {
  const { layout, offset } = state;
  setRisks(state, beta);
  const { risk, tied, c } = state;
  runningSums(layout, { risk, x: null }, state.s0);
  sumsOverEvents(layout, { risk, x: null, blocks: tied }, state.work);
  tied.forEach((block, place) => {
    c[block] = state.work[place] as number;
  });
  let logLikelihood = -setDenominators(state);
  fillMeans(state);
  layout.eventSum.forEach((sum, j) => {
    logLikelihood += (beta[j] as number) * sum;
    score[j] = sum - takeSharesOff(state, j);
  });
  if (offset)
    for (let at = 0; at < layout.n; at++)
      if (layout.event[at] === 1) logLikelihood += (layout.weight?.[at] ?? 1) * (offset[at] as number);
  return logLikelihood;
}

/** The events' part v of a covariate in a block; 0 where nothing is taken off. */
export function partAt(state: RiskState, j: number, block: number): number {
  const place = state.tiedPlace[block] as number;
  return place < 0 ? 0 : (state.tiedPart[j]?.[place] as number);
}

/** The mean covariate m over the risk set of a block, nothing taken off. */
export const meanAt = (state: RiskState, j: number, block: number): number =>
  (state.shifted[j]?.[block] as number) + (state.shift[block] as number) * partAt(state, j, block);
