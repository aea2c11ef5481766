import type { Count } from "../study/results.js";

/** The sum of counts, or that it cannot be told because one of them is left out. */
export function sumOf(counts: readonly Count[]): Count {
  let sum = 0;
  for (const count of counts) {
    if (typeof count !== "number") return count;
    sum += count;
  }
  return sum;
}

/** Whether a count is above zero: one that is left out is, though it is not told by how much. */
export const isSome = (count: Count): boolean => count !== 0;

/** A count to sort by; one that is left out comes after all that are told and before none. */
export const rankOf = (count: Count): number => (typeof count === "number" ? count : 0.5);

/** How many returned, in a list after the injuries: so said that nobody takes it for the returns by a landmark. */
export const returnedOf = (count: Count): string =>
  typeof count === "number" ? `${count} returned during follow-up` : "number returned left out";

/** Whether a count is told and holds. */
export const isTold = (count: Count, holds: (n: number) => boolean): boolean =>
  typeof count === "number" && holds(count);
