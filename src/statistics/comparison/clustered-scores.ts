import { factorSymmetric } from "../linear/symmetric.js";
import { clusterIndex } from "../shared/clusters.js";
import { rowsByStratum } from "../shared/codes.js";
import { type CountsByGroup, countsByGroup } from "./counts-by-group.js";
import type { GroupedTimes, TimeWeight } from "./grouped-times.js";
import {
  addStratum,
  forEachEventTime,
  type ObservedAndExpected,
  sumsToFill,
} from "./observed-and-expected.js";

/** Running sums over the times of one stratum, one place on: at index t what came before time t. */
interface RunningSums {
  /** Weight of each time; 0 without events. */
  readonly weight: Float64Array;
  /** Of w d / n. */
  readonly hazard: Float64Array;
  /** Of w d n_k / n^2, flat by times. */
  readonly shared: Float64Array;
  /** n_k / n at each time with events, flat by times. */
  readonly share: Float64Array;
}

function runningSums(stratum: CountsByGroup & { readonly size: number }, weight: TimeWeight): RunningSums {
  const { size, count, atRisk } = stratum;
  const sums: RunningSums = {
    weight: new Float64Array(count),
    hazard: new Float64Array(count + 1),
    shared: new Float64Array((count + 1) * size),
    share: new Float64Array(count * size),
  };
  forEachEventTime(stratum, weight, ({ at, d, n, w }) => {
    sums.weight[at] = w;
    sums.hazard[at + 1] = (w * d) / n;
    for (let k = 0; k < size; k++) {
      const share = atRisk[at * size + k]! / n;
      sums.share[at * size + k] = share;
      sums.shared[(at + 1) * size + k] = ((w * d) / n) * share;
    }
  });
  for (let i = 1; i <= count; i++) sums.hazard[i]! += sums.hazard[i - 1]!;
  for (let cell = size; cell < sums.shared.length; cell++) sums.shared[cell]! += sums.shared[cell - size]!;
  return sums;
}

/** Observed and expected events, and what each cluster's rows give to the score of each group, flat by clusters. */
export interface ClusterPulls {
  /** With the hypergeometric covariance. */
  readonly sums: ObservedAndExpected;
  readonly pulls: Float64Array;
  readonly clusters: number;
}

/**
 * Observed and expected events with what each cluster gives to the scores.
 *
 * The score O_k - E_k is the sum over rows of u_k = w(T) ([g = k] - n_k / n) if the row has its event at T, less the sum over the event
 * times at which it is at risk of w ([g = k] - n_k / n) d / n. Linear in rows by groups.
 */
export function clusterPulls(columns: GroupedTimes, weight: TimeWeight): ClusterPulls {
  const { sums, group } = sumsToFill(columns.groups);
  const size = sums.groups.length;
  const cluster = clusterIndex(columns);
  const pulls = new Float64Array(cluster.count * size);
  for (const rows of rowsByStratum(columns)) {
    const stratum = { ...countsByGroup(columns, { rows, group, size }), size };
    addStratum(sums, stratum, weight);
    const running = runningSums(stratum, weight);
    for (let i = 0; i < rows.length; i++) {
      const row = rows[i]!;
      const last = stratum.position[i]!;
      const first = stratum.start === null ? 0 : stratum.start[i]!;
      const to = cluster.of[row]! * size;
      const seen = columns.events[row] === 1 ? running.weight[last]! : 0;
      const exposed = running.hazard[last + 1]! - running.hazard[first]!;
      pulls[to + group[row]!]! += seen - exposed;
      for (let k = 0; k < size; k++)
        pulls[to + k]! +=
          running.shared[(last + 1) * size + k]! -
          running.shared[first * size + k]! -
          seen * running.share[last * size + k]!;
    }
  }
  return { sums, pulls, clusters: cluster.count };
}

/** Clusters that give anything to a score; those that are in no risk set of an event do not. */
function pullingOf(pulls: Float64Array, size: number): number {
  let pulling = 0;
  for (let from = 0; from < pulls.length; from += size)
    if (pulls.subarray(from, from + size).some((pull) => pull !== 0)) pulling++;
  return pulling;
}

export interface ClusteredSums extends ObservedAndExpected {
  /** Independent differences between groups that were at risk together. */
  readonly differences: number;
  /** Clusters that give anything to a score. */
  readonly pulling: number;
}

/** The same with the covariance of the scores: of k and l the sum over clusters of (sum of u_k) (sum of u_l). */
export function clusteredObservedAndExpected(columns: GroupedTimes, weight: TimeWeight): ClusteredSums {
  const { sums, pulls } = clusterPulls(columns, weight);
  const size = sums.groups.length;
  const differences = factorSymmetric(sums.variance, { size, tolerance: 1e-10 }).kept.length;
  const pulling = pullingOf(pulls, size);
  // a single cluster has nothing to be compared with: its square is that of the surplus itself
  if (pulling < 2) sums.variance.fill(0);
  else replaceBySquares(sums.variance, pulls);
  return { ...sums, differences, pulling };
}

/** A variance below this part of the hypergeometric one is rounding: the group was never at risk together with another. */
const roundingBelow = 1e-12;

/** The hypergeometric covariance gives way to the sum of the clusters' products, but stays 0 where it says that nothing can be learnt. */
function replaceBySquares(variance: Float64Array, pulls: Float64Array): void {
  const size = Math.sqrt(variance.length);
  const products = new Float64Array(variance.length);
  for (let from = 0; from < pulls.length; from += size)
    for (let k = 0; k < size; k++)
      for (let l = 0; l < size; l++) products[k * size + l]! += pulls[from + k]! * pulls[from + l]!;
  const silent = Array.from({ length: size }, (_, k) => {
    const ordinary = variance[k * size + k]!;
    return !(products[k * size + k]! > roundingBelow * ordinary && ordinary > 0);
  });
  for (let k = 0; k < size; k++)
    for (let l = 0; l < size; l++)
      variance[k * size + l] = silent[k] || silent[l] ? 0 : products[k * size + l]!;
}
