import { estimateOf } from "../estimates.js";
import type { Group } from "../groups.js";
import type { Estimate } from "../results-parts.js";
import { estimateOfVisits } from "./model.js";

/** What takes somebody out of the state of being back, and the share back itself where it stays as it is. */
type Parts = readonly Estimate[];

/**
 * The share back and still well by the model of spans: the share back by a day less the shares that were back and then left that state, whose days
 * are known to the clinic. Limits recovered from those of the parts, taken as unrelated.
 *
 * @returns null where the model has no share of the group on that day: the states with each return on one day then say all
 * @source Zou & Donner 2008, Stat Med 27:1693
 */
export function backAndWellFromSpans(
  { modelled }: Pick<Group, "modelled">,
  { day, left }: { readonly day: number; readonly left: Parts },
): Estimate | null {
  if (modelled === null || typeof modelled === "string") return null;
  const found = modelled.shares.find(({ time }) => time === day);
  if (found === undefined) return null;
  const back = estimateOfVisits(found);
  if (left.every(({ value }) => value === 0)) return back;
  const silent = [back, ...left].find(({ value, lower, upper }) => [value, lower, upper].includes(null));
  if (silent !== undefined) return silent.value === null ? silent : { ...silent, lower: null, upper: null };
  const value = left.reduce((rest, one) => rest - one.value!, back.value!);
  const below = [back.value! - back.lower!, ...left.map((one) => one.upper! - one.value!)];
  const above = [back.upper! - back.value!, ...left.map((one) => one.value! - one.lower!)];
  return estimateOf({
    value: Math.max(0, value),
    lower: Math.max(0, value - Math.hypot(...below)),
    upper: Math.min(1, Math.max(0, value) + Math.hypot(...above)),
    reason: null,
  });
}
