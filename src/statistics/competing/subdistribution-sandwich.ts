import type { SubdistributionLayout } from "./subdistribution-layout.js";
import { type SubdistributionState, sumsToCome } from "./subdistribution-likelihood.js";

/**
 * What each row pulls on one coefficient's score, its part in the estimated censoring curve included; in the caller's row order.
 *
 * The first part is the integral of w (x - mean) by the row's martingale for the event of interest; with J(t) the sum of G(u-) / G(t-) times the
 * increments at u after t, a row that left by another event goes on being exposed to J. The second part is the integral of q / Y by its
 * martingale for censoring, where q(u) is the sum over rows with another event before u of risk times the integral from u on of
 * w (x - mean) by the baseline hazard, and Y the number of the censoring group still under observation at u.
 */
export function subdistributionPulls(
  layout: SubdistributionLayout,
  state: SubdistributionState,
  covariate: number,
): Float64Array {
  const { n, row, start, end, group, deaths, censoring } = layout;
  const { risk, increment, hazard } = state;
  const count = deaths.length;
  const x = layout.x[covariate] as Float64Array;
  const mean = state.mean[covariate] as Float64Array;
  const moment = new Float64Array(count); // running sum of increments times mean
  let running = 0;
  for (let at = 0; at < count; at++) {
    running += (increment[at] as number) * (mean[at] as number);
    moment[at] = running;
  }
  const pulls = new Float64Array(n);
  const later = new Float64Array(count);
  const laterMoment = new Float64Array(count);
  const whole = { factor: null, into: later };
  const byMean = { factor: mean, into: laterMoment };
  for (let g = 0; g < censoring.groups; g++) {
    sumsToCome(layout, increment, { group: g, ...whole });
    sumsToCome(layout, increment, { group: g, ...byMean });
    let gone = 0; // sum over rows with another event before of risk times weight, and times the covariate
    let goneMoment = 0;
    let compensator = 0;
    for (let at = 0; at < count; at++) {
      const cell = g * count + at;
      const own = increment[at] as number;
      const exposed = censoring.atRisk[cell] as number;
      const q =
        goneMoment * (own + (later[at] as number)) -
        gone * (own * (mean[at] as number) + (laterMoment[at] as number));
      const pull = exposed > 0 ? q / exposed : 0;
      compensator += exposed > 0 ? (pull * (censoring.censored[cell] as number)) / exposed : 0;
      for (let i = start[at] as number; i < (start[at + 1] as number); i++) {
        if (group[i] !== g) continue;
        const r = risk[i] as number;
        const value = x[i] as number;
        let mine = -r * (value * (hazard[at] as number) - (moment[at] as number)) - compensator;
        if (end[i] === 0) mine += pull;
        if (end[i] === 1) mine += value - (mean[at] as number);
        if (end[i] === 2) {
          mine -= r * (value * (later[at] as number) - (laterMoment[at] as number));
          gone += r;
          goneMoment += r * value;
        }
        pulls[row[i] as number] = mine;
      }
      gone *= censoring.staying[cell] as number;
      goneMoment *= censoring.staying[cell] as number;
    }
  }
  return pulls;
}

/** Inverse information, times the products of the pulls summed within clusters, times inverse information. */
export function subdistributionSandwich(
  parts: { readonly layout: SubdistributionLayout; readonly state: SubdistributionState },
  how: {
    readonly inverse: Float64Array;
    readonly cluster: { readonly of: Int32Array; readonly count: number };
  },
): Float64Array {
  const { layout, state } = parts;
  const { inverse, cluster } = how;
  const { size } = layout;
  const sums = Array.from({ length: size }, (_, j) => {
    const pulls = subdistributionPulls(layout, state, j);
    const byCluster = new Float64Array(cluster.count);
    for (let i = 0; i < pulls.length; i++) byCluster[cluster.of[i] as number]! += pulls[i] as number;
    return byCluster;
  });
  const products = new Float64Array(size * size);
  for (let j = 0; j < size; j++)
    for (let k = 0; k < size; k++) {
      const [a, b] = [sums[j] as Float64Array, sums[k] as Float64Array];
      let sum = 0;
      for (let c = 0; c < cluster.count; c++) sum += (a[c] as number) * (b[c] as number);
      products[j * size + k] = sum;
    }
  return product(product(inverse, products, size), inverse, size);
}

/** Product of two square matrices, flat by rows. */
function product(a: Float64Array, b: Float64Array, size: number): Float64Array {
  const result = new Float64Array(size * size);
  for (let j = 0; j < size; j++)
    for (let k = 0; k < size; k++)
      for (let l = 0; l < size; l++)
        result[j * size + k]! += (a[j * size + l] as number) * (b[l * size + k] as number);
  return result;
}
