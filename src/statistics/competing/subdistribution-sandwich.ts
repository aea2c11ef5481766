import type { SubdistributionLayout } from "./subdistribution-layout.js";
import { type SubdistributionState, sumsToCome } from "./subdistribution-likelihood.js";

/** What is integrated by each row's martingale: factor (x - mean), where null stands for factor 1, x 1, mean 0. */
export interface Integrand {
  /** In sorted order. */
  readonly x: Float64Array | null;
  /** At each time. */
  readonly mean: Float64Array | null;
  readonly factor: Float64Array | null;
}

/**
 * The integral of an integrand by each row's weighted martingale for the event of interest, and the row's part in the estimated censoring
 * curve; in the caller's row order. With x and the mean covariate it is what the row pulls on that coefficient's score.
 *
 * First part: at the row's own event the integrand, less risk times the sum of integrand times increment while it counts as at risk; a row
 * that left by another event goes on being exposed with weight G(u-) / G(T-). Second part: the integral of q / Y by the row's martingale for
 * censoring, where q(u) is the sum over rows of its censoring group with another event before u of what they are exposed to from u on,
 * and Y the number of the group still under observation at u.
 */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: one formula over groups, times and rows; the running sums of both parts belong together
export function rowIntegrals(
  layout: SubdistributionLayout,
  state: Pick<SubdistributionState, "risk" | "increment">,
  { x, mean, factor }: Integrand,
): Float64Array {
  const { n, row, start, end, group, eventsAt, censoring } = layout;
  const { risk } = state;
  const count = eventsAt.length;
  const increment = factor ? state.increment.map((own, i) => own * factor[i]!) : state.increment;
  const byMean = mean && increment.map((own, i) => own * mean[i]!);
  const exposure = runningSum(increment);
  const moment = byMean ? runningSum(byMean) : new Float64Array(count);
  const result = new Float64Array(n);
  const later = new Float64Array(count);
  const laterMoment = new Float64Array(count);
  for (let g = 0; g < censoring.groups; g++) {
    sumsToCome(layout, increment, { group: g, into: later });
    if (byMean) sumsToCome(layout, byMean, { group: g, into: laterMoment });
    let gone = 0; // sum over rows with another event before of risk times weight, and times x
    let goneMoment = 0;
    let compensator = 0;
    for (let at = 0; at < count; at++) {
      const cell = g * count + at;
      const exposed = censoring.atRisk[cell]!;
      const q =
        goneMoment * (increment[at]! + later[at]!) - gone * ((byMean ? byMean[at]! : 0) + laterMoment[at]!);
      const pull = exposed > 0 ? q / exposed : 0;
      compensator += exposed > 0 ? (pull * censoring.censored[cell]!) / exposed : 0;
      for (let i = start[at]!; i < start[at + 1]!; i++) {
        if (group[i] !== g) continue;
        const r = risk[i]!;
        const value = x ? x[i]! : 1;
        let mine = -r * (value * exposure[at]! - moment[at]!) - compensator;
        if (end[i] === 0) mine += pull;
        if (end[i] === 1) mine += (factor ? factor[at]! : 1) * (value - (mean ? mean[at]! : 0));
        if (end[i] === 2) {
          mine -= r * (value * later[at]! - laterMoment[at]!);
          gone += r;
          goneMoment += r * value;
        }
        result[row[i]!] = mine;
      }
      gone *= censoring.staying[cell]!;
      goneMoment *= censoring.staying[cell]!;
    }
  }
  return result;
}

function runningSum(values: Float64Array): Float64Array {
  let sum = 0;
  return values.map((value) => {
    sum += value;
    return sum;
  });
}

/** Sums of a column within clusters. */
export function sumsWithin(
  cluster: { readonly of: Int32Array; readonly count: number },
  column: Float64Array,
): Float64Array {
  const sums = new Float64Array(cluster.count);
  for (let row = 0; row < column.length; row++) sums[cluster.of[row]!]! += column[row]!;
  return sums;
}

/** What each cluster pulls on each coefficient's score. */
export function scorePulls(
  parts: { readonly layout: SubdistributionLayout; readonly state: SubdistributionState },
  cluster: { readonly of: Int32Array; readonly count: number },
): Float64Array[] {
  const { layout, state } = parts;
  return layout.x.map((x, j) =>
    sumsWithin(cluster, rowIntegrals(layout, state, { x, mean: state.mean[j]!, factor: null })),
  );
}

/** Inverse information, times the products of the pulls summed within clusters, times inverse information. */
export function subdistributionSandwich(
  parts: { readonly layout: SubdistributionLayout; readonly state: SubdistributionState },
  settings: {
    readonly inverse: Float64Array;
    readonly cluster: { readonly of: Int32Array; readonly count: number };
  },
): Float64Array {
  const { layout, state } = parts;
  const { inverse, cluster } = settings;
  const { size } = layout;
  const sums = scorePulls({ layout, state }, cluster);
  const products = new Float64Array(size * size);
  for (let j = 0; j < size; j++)
    for (let k = 0; k < size; k++) {
      const [a, b] = [sums[j]!, sums[k]!];
      let sum = 0;
      for (let c = 0; c < cluster.count; c++) sum += a[c]! * b[c]!;
      products[j * size + k] = sum;
    }
  return product(product(inverse, products, size), inverse, size);
}

/** Product of two square matrices, flat by rows. */
function product(a: Float64Array, b: Float64Array, size: number): Float64Array {
  const result = new Float64Array(size * size);
  for (let j = 0; j < size; j++)
    for (let k = 0; k < size; k++)
      for (let l = 0; l < size; l++) result[j * size + k]! += a[j * size + l]! * b[l * size + k]!;
  return result;
}
