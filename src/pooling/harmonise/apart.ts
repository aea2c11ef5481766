import type { Count } from "../../study/results-parts.js";

/** Fewest injuries of a site whose median or share is set beside those of others. Common practice, no source. */
const enough = 5;

/** Whether so many injuries are enough for their figure to be set beside that of another site; a count left out is not. */
export const isEnough = (n: Count): boolean => typeof n === "number" && n >= enough;

/** The least and the greatest of some figures; null where fewer than two are known. */
export function rangeOf(
  figures: readonly (number | null)[],
): { readonly least: number; readonly greatest: number } | null {
  const known = figures.filter((figure) => figure !== null);
  return known.length < 2 ? null : { least: Math.min(...known), greatest: Math.max(...known) };
}
