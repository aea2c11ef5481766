import type { HazardLayout } from "../hazards-layout.js";
import { runningSums } from "./running-sums.js";
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
  /** Events' part of s0. */
  readonly c: Float64Array;
  readonly first: Float64Array;
  readonly firstTaken: Float64Array;
  readonly second: Float64Array;
  readonly shift: Float64Array;
  readonly rest: Float64Array;
  /** Increment of the baseline hazard, first / s0, and the increment that the block's own events take: the sum of (1 - f) w / (s0 (1 - f c)). */
  readonly hazard: Float64Array;
  readonly ownHazard: Float64Array;
  /** For each covariate its mean m over the risk set of each block, less shift v; and v. */
  readonly shifted: readonly Float64Array[];
  readonly deathPart: readonly Float64Array[];
  /** Whether any block has tied events with a share to be taken off. */
  readonly tied: boolean;
}

export function emptyState(
  layout: HazardLayout,
  how: { readonly ties: SummedTies; readonly offset?: Float64Array | null },
): RiskState {
  const perBlock = (): Float64Array => new Float64Array(layout.blocks);
  const ratio = new Float64Array(layout.n);
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
    deathPart: layout.x.map(perBlock),
    tied: how.ties === "efron" && layout.deaths.some((d) => d > 1),
  };
}

/** Fills ratio and risk. */
function setRisks(state: RiskState, beta: ArrayLike<number>): void {
  const { layout, offset, ratio, risk } = state;
  const { n, weight, x } = layout;
  if (offset) ratio.set(offset);
  else ratio.fill(0);
  let moved = offset !== null;
  x.forEach((column, j) => {
    const b = beta[j] as number;
    if (b === 0) return;
    moved = true;
    for (let at = 0; at < n; at++) ratio[at]! += b * (column[at] as number);
  });
  if (moved) for (let at = 0; at < n; at++) ratio[at] = Math.exp(ratio[at] as number);
  else ratio.fill(1);
  if (weight) for (let at = 0; at < n; at++) risk[at] = (weight[at] as number) * (ratio[at] as number);
}

/** A product of many parts is logged before it leaves the range of numbers. */
const smallestProduct = 1e-250;

/** Fills what is a number a block. @returns sum over the denominators of w log(s0 (1 - f c)) */
function setDenominators(state: RiskState): number {
  const { layout, ties, s0, perRisk, c, first, firstTaken, second, shift, rest, hazard, ownHazard } = state;
  const { blocks, deaths, deathWeight } = layout;
  let logs = 0;
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
      if (product > smallestProduct) continue;
      logOfLeft += Math.log(product);
      product = 1;
    }
    logs += weight * Math.log(whole) + (count > 1 ? w * (logOfLeft + Math.log(product)) : 0);
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
  return logs;
}

/** Fills shifted and deathPart of one covariate. @returns its part of the score that is taken off the sum over events */
function setMeans(state: RiskState, j: number): number {
  const { layout, risk, perRisk, first, firstTaken, shift, tied } = state;
  const { blocks, deaths } = layout;
  const m = state.shifted[j] as Float64Array;
  const v = state.deathPart[j] as Float64Array;
  runningSums(layout, { risk, x: layout.x[j] as Float64Array }, { all: m, deaths: tied ? v : null });
  let taken = 0;
  for (let block = 0; block < blocks; block++) {
    const mean = deaths[block] === 0 ? 0 : (m[block] as number) * (perRisk[block] as number);
    m[block] = mean;
    taken += (first[block] as number) * mean;
  }
  if (!tied) return taken;
  for (let block = 0; block < blocks; block++) {
    const part = deaths[block] === 0 ? 0 : (v[block] as number) * (perRisk[block] as number);
    v[block] = part;
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
  runningSums(layout, { risk: state.risk, x: null }, { all: state.s0, deaths: state.c });
  let logLikelihood = -setDenominators(state);
  layout.eventSum.forEach((sum, j) => {
    logLikelihood += (beta[j] as number) * sum;
    score[j] = sum - setMeans(state, j);
  });
  if (offset)
    for (let at = 0; at < layout.n; at++)
      if (layout.event[at] === 1) logLikelihood += (layout.weight?.[at] ?? 1) * (offset[at] as number);
  return logLikelihood;
}

/** The mean covariate m over the risk set of a block, nothing taken off. */
export const meanAt = (state: RiskState, j: number, block: number): number =>
  (state.shifted[j]?.[block] as number) +
  (state.shift[block] as number) * (state.deathPart[j]?.[block] as number);
