import { addCrossProducts, mirror } from "../hazards/likelihood/cross-products.js";
import type { SubdistributionLayout } from "./subdistribution-layout.js";

/** Pseudo-likelihood at one value of the coefficients, and what the variance needs; arrays are filled again at each value. */
export interface SubdistributionState {
  logLikelihood: number;
  readonly score: Float64Array;
  /** Flat by rows, symmetric. */
  readonly information: Float64Array;
  /** exp(eta) of each sorted row. */
  readonly risk: Float64Array;
  /** Increment of the baseline subdistribution hazard at each time, and its running sum. */
  readonly increment: Float64Array;
  readonly hazard: Float64Array;
  /** Mean of each covariate over the weighted risk set; only at times with events of interest. */
  readonly mean: readonly Float64Array[];
}

/** exp(eta) of each row. */
function fillRisk({ x, n }: SubdistributionLayout, beta: ArrayLike<number>, risk: Float64Array): void {
  risk.fill(0);
  x.forEach((column, j) => {
    const b = beta[j]!;
    if (b !== 0) for (let i = 0; i < n; i++) risk[i]! += b * column[i]!;
  });
  for (let i = 0; i < n; i++) risk[i] = Math.exp(risk[i]!);
}

/**
 * At each time the sum of risk (times a covariate) over the weighted risk set: those still under observation, and those with another
 * event before it, whose weight G(t-) / G(T-) shrinks from time to time by one factor for the whole group.
 */
function weightedSums(
  layout: SubdistributionLayout,
  risk: Float64Array,
  { x, into }: { readonly x: Float64Array | null; readonly into: Float64Array },
): void {
  const { start, end, group, eventsAt, censoring } = layout;
  const count = eventsAt.length;
  let sum = 0;
  for (let at = count - 1; at >= 0; at--) {
    for (let i = start[at]!; i < start[at + 1]!; i++) sum += x ? risk[i]! * x[i]! : risk[i]!;
    into[at] = sum;
  }
  const gone = new Float64Array(censoring.groups);
  for (let at = 0; at < count; at++) {
    for (let g = 0; g < gone.length; g++) into[at]! += gone[g]!;
    for (let i = start[at]!; i < start[at + 1]!; i++)
      if (end[i] === 2) gone[group[i]!]! += x ? risk[i]! * x[i]! : risk[i]!;
    for (let g = 0; g < gone.length; g++) gone[g]! *= censoring.staying[g * count + at]!;
  }
}

/** Sum over the times still to come of G(u-) / G(t-) times what is summed, for one censoring group at each time t. */
export function sumsToCome(
  layout: SubdistributionLayout,
  summed: Float64Array,
  { group, into }: { readonly group: number; readonly into: Float64Array },
): void {
  const { staying } = layout.censoring;
  const count = summed.length;
  let later = 0;
  for (let i = count - 1; i >= 0; i--) {
    later *= staying[group * count + i]!;
    into[i] = later;
    later += summed[i]!;
  }
}

/** An evaluator that reuses its arrays: what it returns is overwritten by the next call. Linear in rows. */
export function subdistributionLikelihood(
  layout: SubdistributionLayout,
): (beta: ArrayLike<number>) => SubdistributionState {
  const { n, size, x, start, end, group, eventsAt, censoring, eventSum } = layout;
  const count = eventsAt.length;
  const total = new Float64Array(count);
  const toCome = Array.from({ length: censoring.groups }, () => new Float64Array(count));
  const exposure = new Float64Array(n);
  const state = {
    logLikelihood: 0,
    score: new Float64Array(size),
    information: new Float64Array(size * size),
    risk: new Float64Array(n),
    increment: new Float64Array(count),
    hazard: new Float64Array(count),
    mean: x.map(() => new Float64Array(count)),
  };
  const { score, information, risk, increment, hazard, mean } = state;

  return (beta) => {
    fillRisk(layout, beta, risk);
    weightedSums(layout, risk, { x: null, into: total });
    state.logLikelihood = 0;
    let running = 0;
    for (let i = 0; i < count; i++) {
      const d = eventsAt[i]!;
      if (d > 0) state.logLikelihood -= d * Math.log(total[i]!);
      increment[i] = d > 0 ? d / total[i]! : 0;
      running += increment[i]!;
      hazard[i] = running;
    }
    mean.forEach((means, j) => {
      weightedSums(layout, risk, { x: x[j]!, into: means });
      let expected = 0;
      for (let i = 0; i < count; i++) {
        const d = eventsAt[i]!;
        means[i] = d > 0 ? means[i]! / total[i]! : 0;
        expected += d * means[i]!;
      }
      score[j] = eventSum[j]! - expected;
      state.logLikelihood += beta[j]! * eventSum[j]!;
    });
    // sum over times of d times the second moment, turned round: each row by what it was exposed to
    for (let g = 0; g < censoring.groups; g++)
      sumsToCome(layout, increment, { group: g, into: toCome[g] as Float64Array });
    for (let at = 0; at < count; at++)
      for (let i = start[at]!; i < start[at + 1]!; i++) {
        const later = end[i] === 2 ? (toCome[group[i]!] as Float64Array)[at]! : 0;
        exposure[i] = risk[i]! * (hazard[at]! + later);
      }
    information.fill(0);
    addCrossProducts(information, x, { weights: exposure, rows: n, factor: 1 });
    addCrossProducts(information, mean, { weights: eventsAt, rows: count, factor: -1 });
    mirror(information, size);
    return state;
  };
}
