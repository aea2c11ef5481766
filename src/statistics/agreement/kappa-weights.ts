import type { TableShares } from "./kappa-table.js";

/** How much a disagreement counts: wholly, by its distance in categories, by the distance squared. */
export const kappaWeightings = ["unweighted", "linear", "quadratic"] as const;
export type KappaWeights = (typeof kappaWeightings)[number];

export type Weight = (i: number, j: number) => number;

/** The largest distance is 1 - 0 categories where there is only one, so that nothing is divided by 0. */
export function weightsFor(kind: KappaWeights, size: number): Weight {
  const furthest = Math.max(1, size - 1);
  if (kind === "unweighted") return (i, j) => (i === j ? 1 : 0);
  if (kind === "linear") return (i, j) => 1 - Math.abs(i - j) / furthest;
  return (i, j) => 1 - ((i - j) / furthest) ** 2;
}

export const cell = ({ cells }: TableShares, i: number, j: number): number => cells[i]![j]!;

export function sumOver({ first }: TableShares, term: Weight): number {
  let sum = 0;
  for (let i = 0; i < first.length; i++) for (let j = 0; j < first.length; j++) sum += term(i, j);
  return sum;
}

/**
 * Largest weighted agreement with the margins kept. Unweighted: the smaller margin of each category. Otherwise the i-th smallest of
 * one rater goes with the i-th smallest of the other, which no other pairing beats for weights that fall with distance as a
 * concave function or its line does.
 */
export function bestAgreement({ first, second }: TableShares, weight: Weight): number {
  if (first.length > 1 && weight(0, 0) === 1 && first.every((_, i) => i === 0 || weight(0, i) === 0))
    return first.reduce((sum, share, i) => sum + Math.min(share, second[i]!), 0);
  let best = 0;
  let left = { i: first[0]!, j: second[0]! };
  for (let i = 0, j = 0; i < first.length && j < second.length; ) {
    const moved = Math.min(left.i, left.j);
    best += moved * weight(i, j);
    left = { i: left.i - moved, j: left.j - moved };
    if (left.i <= left.j) left = { ...left, i: first[++i] ?? 0 };
    else left = { ...left, j: second[++j] ?? 0 };
  }
  return best;
}
