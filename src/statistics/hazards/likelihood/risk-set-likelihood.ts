import { type Evaluator, emptyLikelihood, type Likelihood } from "../../linear/log-likelihood.js";
import type { HazardLayout } from "../layout/sorted-rows.js";
import type { SummedTies } from "../layout/ties.js";
import { mirror } from "./cross-products.js";

/** Rows at risk at the time of a block, its events last among them, as places in the sorted rows. */
export function riskSetOf(
  { blockStart, blockStratum, blockOfEntry }: HazardLayout,
  block: number,
): Int32Array {
  let first = block;
  while (first > 0 && blockStratum[first - 1] === blockStratum[block]) first--;
  const from = blockStart[first]!;
  const rows = new Int32Array(blockStart[block + 1]! - from);
  let count = 0;
  for (let i = from; i < from + rows.length; i++) {
    const entry = blockOfEntry?.[i] ?? -1;
    if (entry < 0 || entry > block) rows[count++] = i;
  }
  return rows.subarray(0, count);
}

/** Sums over rows of the risk, of risk x, and of risk x x' (lower triangle, flat by rows), x and log risk being counted from where they are told. */
interface Sums {
  zero: number;
  readonly first: Float64Array;
  readonly second: Float64Array;
}

/** A time with its risk set, and the row whose covariates and risk all others are counted from: the one with the largest risk. */
interface EventTime {
  readonly rows: Int32Array;
  readonly eventCount: number;
  readonly eventWeight: number;
  readonly top: number;
}

function topOf(rows: Int32Array, eta: Float64Array): number {
  let top = rows[0]!;
  for (const at of rows) if (eta[at]! > eta[top]!) top = at;
  return top;
}

function sumsOf(layout: HazardLayout, rows: Int32Array, from: { eta: Float64Array; top: number }): Sums {
  const { x, size, weight } = layout;
  const { eta, top } = from;
  const sums: Sums = { zero: 0, first: new Float64Array(size), second: new Float64Array(size * size) };
  const apart = new Float64Array(size);
  for (const at of rows) {
    const risk = (weight?.[at] ?? 1) * Math.exp(eta[at]! - eta[top]!);
    if (risk === 0) continue;
    sums.zero += risk;
    for (let j = 0; j < size; j++) {
      const column = x[j]!;
      apart[j] = column[at]! - column[top]!;
      sums.first[j]! += risk * apart[j]!;
      for (let k = 0; k <= j; k++) sums.second[j * size + k]! += risk * apart[j]! * apart[k]!;
    }
  }
  return sums;
}

/** Adds one time to likelihood, score and information (lower triangle). */
function addTime(
  layout: HazardLayout,
  time: EventTime,
  to: { readonly result: Likelihood; readonly eta: Float64Array; readonly ties: SummedTies },
): void {
  const { x, size, weight } = layout;
  const { rows, eventCount, eventWeight, top } = time;
  const { result, eta, ties } = to;
  const all = sumsOf(layout, rows, { eta, top });
  const events = rows.subarray(rows.length - eventCount);
  const own = sumsOf(layout, events, { eta, top });
  for (const at of events) {
    const w = weight?.[at] ?? 1;
    result.logLikelihood += w * (eta[at]! - eta[top]!);
    for (let j = 0; j < size; j++) result.score[j]! += w * (x[j]![at]! - x[j]![top]!);
  }
  const count = ties === "efron" ? eventCount : 1;
  const w = eventWeight / count;
  const mean = new Float64Array(size);
  for (let q = 0; q < count; q++) {
    const f = q / count;
    const zero = all.zero - f * own.zero;
    result.logLikelihood -= w * Math.log(zero);
    for (let j = 0; j < size; j++) {
      mean[j] = (all.first[j]! - f * own.first[j]!) / zero;
      result.score[j]! -= w * mean[j]!;
      for (let k = 0; k <= j; k++) {
        const square = (all.second[j * size + k]! - f * own.second[j * size + k]!) / zero;
        result.information[j * size + k]! += w * (square - mean[j]! * mean[k]!);
      }
    }
  }
}

/**
 * The partial likelihood summed risk set by risk set, each counted from its own largest risk. So no coefficient is too large for it: nothing
 * overflows, and an information of 1e-100 has all its digits, as it is no difference of large numbers. The work is that of all risk sets
 * together, rows times event times.
 */
export function riskSetLikelihoodOf(layout: HazardLayout, ties: SummedTies): Evaluator {
  const { n, size, x, blocks, blockEvents, blockEventWeight } = layout;
  const eta = new Float64Array(n);
  const result = emptyLikelihood(size);
  return (beta) => {
    eta.fill(0);
    x.forEach((column, j) => {
      const b = beta[j]!;
      for (let i = 0; i < n; i++) eta[i]! += b * column[i]!;
    });
    result.logLikelihood = 0;
    result.score.fill(0);
    result.information.fill(0);
    for (let block = 0; block < blocks; block++) {
      if (blockEvents[block] === 0) continue;
      const rows = riskSetOf(layout, block);
      const time = {
        rows,
        eventCount: blockEvents[block]!,
        eventWeight: blockEventWeight[block]!,
        top: topOf(rows, eta),
      };
      addTime(layout, time, { result, eta, ties });
    }
    mirror(result.information, size);
    return result;
  };
}
