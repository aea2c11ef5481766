import { clusterIndex } from "../survival/robust-variance.js";
import { countsByGroup, rowsByStratum } from "./counts-by-group.js";
import type { GroupedTimes, TimeWeight } from "./grouped-times.js";
import {
  addStratum,
  emptySums,
  forEachEventTime,
  type ObservedAndExpected,
} from "./observed-and-expected.js";

/**
 * Observed and expected events with the covariance of the scores summed over clusters.
 *
 * The score O_k - E_k is the sum over rows of u_k = w(T) ([g = k] - n_k / n) if the row has its event at T, less the sum over the event
 * times at which it is at risk of w ([g = k] - n_k / n) d / n; the covariance of k and l is the sum over clusters of (sum of u_k) (sum of
 * u_l). Linear in rows by groups.
 */
export function clusteredObservedAndExpected(columns: GroupedTimes, weight: TimeWeight): ObservedAndExpected {
  const { sums, group } = emptySums(columns.groups);
  const size = sums.groups.length;
  const cluster = clusterIndex(columns);
  const pulls = new Float64Array(cluster.count * size);
  for (const rows of rowsByStratum(columns)) {
    const stratum = { ...countsByGroup(columns, { rows, group, size }), size };
    addStratum(sums, stratum, weight);
    const { count, atRisk, position, start } = stratum;
    const weights = new Float64Array(count);
    // running sums, one place on: what has come before each time
    const hazard = new Float64Array(count + 1);
    const shared = new Float64Array((count + 1) * size);
    let reached = 0;
    const carryTo = (at: number): void => {
      for (; reached < at; reached++) {
        hazard[reached + 1] = hazard[reached] as number;
        shared.copyWithin((reached + 1) * size, reached * size, (reached + 1) * size);
      }
    };
    forEachEventTime(stratum, weight, ({ at, d, n, w }) => {
      carryTo(at + 1);
      weights[at] = w;
      hazard[at + 1]! += (w * d) / n;
      for (let k = 0; k < size; k++)
        shared[(at + 1) * size + k]! += (w * d * (atRisk[at * size + k] as number)) / (n * n);
    });
    carryTo(count);
    for (let i = 0; i < rows.length; i++) {
      const row = rows[i] as number;
      const at = position[i] as number;
      const first = start === null ? 0 : (start[i] as number);
      const own = group[row] as number;
      const to = (cluster.of[row] as number) * size;
      const seen = columns.events[row] === 1 ? (weights[at] as number) : 0;
      let n = 0;
      for (let k = 0; k < size; k++) n += atRisk[at * size + k] as number;
      pulls[to + own]! += seen - ((hazard[at + 1] as number) - (hazard[first] as number));
      for (let k = 0; k < size; k++)
        pulls[to + k]! +=
          (shared[(at + 1) * size + k] as number) -
          (shared[first * size + k] as number) -
          (seen * (atRisk[at * size + k] as number)) / n;
    }
  }
  sums.variance.fill(0);
  for (let c = 0; c < cluster.count; c++)
    for (let k = 0; k < size; k++)
      for (let l = 0; l < size; l++)
        sums.variance[k * size + l]! += (pulls[c * size + k] as number) * (pulls[c * size + l] as number);
  return sums;
}
