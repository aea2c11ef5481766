import { type Evaluator, emptyLikelihood, type Likelihood } from "../../linear/log-likelihood.js";
import { ArgumentError } from "../../shared/arguments.js";
import type { HazardLayout } from "../layout/sorted-rows.js";
import { informationOf } from "./information.js";
import { moveTo } from "./move-state.js";
import { riskSetOf } from "./risk-set-likelihood.js";
import { emptyState, meanAt, type RiskState } from "./risk-state.js";

/** Events at one time beyond which the sums over choices no longer fit a number. */
const mostTied = 500;
/** Multiplications an evaluation beyond which nobody wants to wait for the answer. */
const mostWork = 4e8;

const tiedBlocks = ({ blocks, blockEvents }: HazardLayout): number[] =>
  Array.from({ length: blocks }, (_, block) => block).filter((block) => blockEvents[block]! > 1);

/** @throws ArgumentError where a tie is too large for the recursion */
function checkWork(layout: HazardLayout, riskSets: ReadonlyMap<number, Int32Array>): void {
  let work = 0;
  for (const [block, rows] of riskSets) {
    const d = layout.blockEvents[block]!;
    work += rows.length * d * (1 + layout.size) * (1 + layout.size / 2);
    if (d > mostTied || work > mostWork)
      throw new ArgumentError({
        argument: "ties",
        index: null,
        expected: `"efron" or "breslow" for ties this large: "exact" compares all choices of the events at a time, at most ${mostTied} events and about ${mostWork} multiplications`,
        found: `"exact" with ${d} events among ${rows.length} at risk at time ${layout.blockTime[block]}`,
      });
  }
}

/**
 * Sums over all choices of k rows out of the rows so far, k = 0 .. d: of the product of their risks, and its derivatives. Taken up again for
 * each time.
 */
interface Choices {
  readonly sum: Float64Array;
  /** Flat: covariate after covariate within k. */
  readonly first: Float64Array;
  /** Flat: lower triangle, pair after pair within k. */
  readonly second: Float64Array;
}

/** One row more: B(k) += risk B(k - 1), with the derivatives of that. */
function addRow(
  choices: Choices,
  row: { x: Float64Array; risk: number },
  range: { low: number; high: number },
): void {
  const { sum, first, second } = choices;
  const { x, risk } = row;
  const size = x.length;
  const pairs = (size * (size + 1)) / 2;
  for (let k = range.high; k >= range.low; k--) {
    const before = sum[k - 1]!;
    const from = (k - 1) * size;
    let pair = 0;
    for (let j = 0; j < size; j++) {
      const xj = x[j]!;
      const dj = first[from + j]!;
      for (let l = 0; l <= j; l++) {
        const xl = x[l]!;
        const change = second[(k - 1) * pairs + pair]! + xj * first[from + l]! + xl * dj + xj * xl * before;
        second[k * pairs + pair]! += risk * change;
        pair++;
      }
    }
    for (let j = 0; j < size; j++) first[from + size + j]! += risk * (first[from + j]! + x[j]! * before);
    sum[k]! += risk * before;
  }
}

/** Takes one tied time off the likelihood: log B(d), its gradient, and adds its second derivative to the information. */
function addTime(
  result: Likelihood,
  state: RiskState,
  time: { readonly d: number; readonly rows: Int32Array },
): void {
  const { x, size } = state.layout;
  const { d, rows } = time;
  const pairs = (size * (size + 1)) / 2;
  const choices: Choices = {
    sum: new Float64Array(d + 1),
    first: new Float64Array((d + 1) * size),
    second: new Float64Array((d + 1) * pairs),
  };
  choices.sum[0] = 1;
  // with risks that add up to d the sums stay below e^d
  const unit = rows.reduce((sum, at) => sum + state.ratio[at]!, 0) / d;
  const own = new Float64Array(size);
  const row = { x: own, risk: 0 };
  rows.forEach((at, seen) => {
    for (let j = 0; j < size; j++) own[j] = x[j]![at]!;
    row.risk = state.ratio[at]! / unit;
    // choices that the rows still to come cannot fill up to d are not needed
    addRow(choices, row, { low: Math.max(1, d - (rows.length - 1 - seen)), high: Math.min(d, seen + 1) });
  });
  const whole = choices.sum[d]!;
  result.logLikelihood -= Math.log(whole) + d * Math.log(unit);
  let pair = d * pairs;
  for (let j = 0; j < size; j++) {
    const mean = choices.first[d * size + j]! / whole;
    result.score[j]! -= mean;
    for (let k = 0; k <= j; k++) {
      const other = choices.first[d * size + k]! / whole;
      const value = choices.second[pair++]! / whole - mean * other;
      result.information[j * size + k]! += value;
      if (k < j) result.information[k * size + j]! += value;
    }
  }
}

/**
 * The discrete likelihood: at a time with d events out of n at risk, the product of the events' risks over the sum of the same product over
 * all choices of d out of n. Times with one event go through the sums over risk sets, tied ones through the recursion over rows,
 * n d multiplications a time for the sum and as many for each derivative.
 *
 * @source Cox 1972, J R Stat Soc B 34:187 (likelihood); Gail, Lubin & Rubinstein 1981, Biometrika 68:703 (recursion)
 */
export function exactLikelihoodOf(layout: HazardLayout): Evaluator {
  const { size, blockEvents, blocks, eventSum } = layout;
  const riskSets = new Map(tiedBlocks(layout).map((block) => [block, riskSetOf(layout, block)] as const));
  checkWork(layout, riskSets);
  const state = emptyState(layout, { ties: "breslow" });
  const single = Float64Array.from(blockEvents, (d) => (d === 1 ? 1 : 0));
  const work = new Float64Array(layout.n);
  const result = emptyLikelihood(size);
  return (beta) => {
    moveTo(state, beta, result.score);
    informationOf(state, result.information, { work, factor: single });
    result.logLikelihood = 0;
    eventSum.forEach((sum, j) => {
      result.score[j] = sum;
      result.logLikelihood += beta[j]! * sum;
    });
    for (let block = 0; block < blocks; block++) {
      if (blockEvents[block] !== 1) continue;
      result.logLikelihood -= Math.log(state.s0[block]!);
      for (let j = 0; j < size; j++) result.score[j]! -= meanAt(state, j, block);
    }
    for (const [block, rows] of riskSets) addTime(result, state, { d: blockEvents[block]!, rows });
    return result;
  };
}
