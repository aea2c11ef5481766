import { distanceChangeDifference } from "./distance-change-difference.js";
import { hazardRatio } from "./hazard-ratio.js";
import { landmarkDifference } from "./landmark-difference.js";
import type { Measure, MeasureFacts } from "./measure.js";
import { restrictedMeanDifference } from "./restricted-mean-difference.js";

/** Every measure, in the order in which they are read. */
const all = [landmarkDifference, restrictedMeanDifference, hazardRatio, distanceChangeDifference] as const;

export type MeasureKey = (typeof all)[number]["key"];
export type EffectMethod = (typeof all)[number]["methods"][number];

export const measures: readonly Measure<MeasureKey, EffectMethod>[] = all;
export const measureKeys: readonly MeasureKey[] = all.map(({ key }) => key);
export const effectMethods: readonly EffectMethod[] = [...new Set(all.flatMap(({ methods }) => methods))];

const byKey = new Map<MeasureKey, MeasureFacts>(all.map((one) => [one.key, one]));

/** The facts of a measure. */
export const measureOf = (key: MeasureKey): MeasureFacts => byKey.get(key)!;

/** On which side of no difference a value of a measure lies. */
export function sideOf(
  value: number,
  { nullValue }: Pick<MeasureFacts, "nullValue">,
): "above" | "none" | "below" {
  if (value === nullValue) return "none";
  return value > nullValue ? "above" : "below";
}
