import { sharesNotYet } from "../../survival/product-limit.js";
import { prepareRiskSets } from "../../survival/risk-sets.js";
import type { HazardColumns, HazardLayout } from "../layout/sorted-rows.js";

/** How time enters: share with the event just before it (pooled curve), rank of the time among all rows, the time itself, or its logarithm. */
export const timeTransforms = ["product-limit", "rank", "identity", "log"] as const;
export type TimeTransform = (typeof timeTransforms)[number];

/** g(t) for each block. */
export function transformedTimes(
  columns: HazardColumns,
  layout: HazardLayout,
  transform: TimeTransform,
): Float64Array {
  if (transform === "identity") return layout.blockTime;
  if (transform === "log") return layout.blockTime.map(Math.log);
  const { times, events, entries } = columns;
  const riskSets = prepareRiskSets({ times, events, ...(entries && { entries }) });
  const shares = sharesNotYet(riskSets);
  const at = new Map<number, number>();
  let rank = 0;
  riskSets.times.forEach((time, k) => {
    const d = riskSets.events[k]! + riskSets.censored[k]!;
    // tied times share their mean rank
    at.set(time, transform === "rank" ? rank + (d + 1) / 2 : 1 - (k === 0 ? 1 : shares[k - 1]!));
    rank += d;
  });
  return layout.blockTime.map((time) => at.get(time)!);
}
