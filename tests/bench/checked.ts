import type { BenchCase } from "./case.js";

/** Largest relative difference from the checked values; null at a size for which there are none. */
export function differenceFromChecked(
  { checked }: BenchCase,
  found: { readonly n: number; readonly values: readonly number[] },
): number | null {
  if (checked === null || checked.at !== found.n) return null;
  return Math.max(...checked.values.map((value, at) => Math.abs(found.values[at]! / value - 1)));
}
