import { ArgumentError, checkIsColumn } from "../shared/arguments.js";

/** P-values in any order; null where a test had none. */
export type PValues = ArrayLike<number | null>;

/** Places of the p-values that are there, from the smallest. */
function ordered(pValues: PValues): number[] {
  checkIsColumn({ name: "pValues", values: pValues });
  const places: number[] = [];
  for (let i = 0; i < pValues.length; i++) {
    const p = pValues[i];
    if (p === null) continue;
    if (!(typeof p === "number" && p >= 0 && p <= 1))
      throw new ArgumentError({
        argument: "pValues",
        index: i,
        expected: "a number from 0 to 1, or null where there is none",
        found: p,
      });
    places.push(i);
  }
  return places.sort((one, two) => pValues[one]! - pValues[two]!);
}

/**
 * P-values adjusted so that the chance of any false finding stays below the level (family-wise error), whatever their dependence.
 *
 * The k-th smallest of m becomes the largest of (m - j + 1) p_j over j <= k, at most 1. Missing ones stay null and are not counted.
 *
 * @returns adjusted p-values in the caller's order
 * @throws ArgumentError naming the index of a p-value outside 0 to 1
 * @source Holm 1979, Scand J Stat 6:65
 * @example
 * holm([0.01, 0.04, null, 0.03]) // => [0.03, 0.06, null, 0.06]
 */
export function holm(pValues: PValues): (number | null)[] {
  const places = ordered(pValues);
  const adjusted = Array.from({ length: pValues.length }, (): number | null => null);
  let most = 0;
  places.forEach((index, k) => {
    most = Math.max(most, Math.min(1, (places.length - k) * pValues[index]!));
    adjusted[index] = most;
  });
  return adjusted;
}

/**
 * P-values adjusted so that the expected share of false findings among all findings stays below the level (false discovery rate), for
 * tests that are independent or positively dependent.
 *
 * The k-th smallest of m becomes the smallest of m p_j / j over j >= k, at most 1. Missing ones stay null and are not counted.
 *
 * @returns adjusted p-values in the caller's order
 * @throws ArgumentError naming the index of a p-value outside 0 to 1
 * @source Benjamini & Hochberg 1995, J R Stat Soc B 57:289
 * @example
 * benjaminiHochberg([0.01, 0.04, null, 0.03]) // => [0.03, 0.04, null, 0.04]
 */
export function benjaminiHochberg(pValues: PValues): (number | null)[] {
  const places = ordered(pValues);
  const adjusted = Array.from({ length: pValues.length }, (): number | null => null);
  let least = 1;
  for (let k = places.length - 1; k >= 0; k--) {
    const index = places[k]!;
    least = Math.min(least, (places.length / (k + 1)) * pValues[index]!);
    adjusted[index] = least;
  }
  return adjusted;
}
