import { quantileOfSorted } from "../continuous/quantiles.js";
import { normalQuantile } from "../shared/distributions.js";

/**
 * Where among B ordered replicates a share p lies: "type-6" at (B + 1) p; "type-7" at 1 + (B - 1) p, both straight between neighbours;
 * "normal-scale" at (B + 1) p, between neighbours on the scale of normal quantiles.
 */
export const replicateQuantiles = ["type-6", "type-7", "normal-scale"] as const;
export type ReplicateQuantile = (typeof replicateQuantiles)[number];

/** @param sorted ascending, at least one */
export function replicateQuantile(
  sorted: ArrayLike<number>,
  { share, kind }: { readonly share: number; readonly kind: ReplicateQuantile },
): number {
  if (kind === "type-6") return quantileOfSorted(sorted, { share, type: 6 });
  if (kind === "type-7") return quantileOfSorted(sorted, { share, type: 7 });
  const count = sorted.length;
  const position = (count + 1) * share;
  // a position that is whole but for rounding is whole
  const whole = Math.floor(position + 1e-9);
  const at = (rank: number): number => sorted[Math.min(Math.max(rank, 1), count) - 1]!;
  if (whole < 1 || whole >= count || position - whole < 1e-9) return at(whole);
  const [from, to] = [normalQuantile(whole / (count + 1)), normalQuantile((whole + 1) / (count + 1))];
  const part = (normalQuantile(share) - from) / (to - from);
  return at(whole) + part * (at(whole + 1) - at(whole));
}
