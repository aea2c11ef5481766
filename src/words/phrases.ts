import { counted } from "../schema/counted.js";
import type { Count } from "../study/results.js";

/** How many people injuries are in, after "in". */
export const peopleOf = (persons: Count): string =>
  typeof persons === "number" ? counted(persons, "person", "people") : "people whose number is left out";

/** "a", "a and b", "a, b and c". */
export function listed(items: readonly string[]): string {
  const last = items.at(-1) ?? "";
  return items.length < 2 ? last : `${items.slice(0, -1).join(", ")} and ${last}`;
}

/** "a", "a or b", "a, b or c". */
export function eitherOf(items: readonly string[]): string {
  const last = items.at(-1) ?? "";
  return items.length < 2 ? last : `${items.slice(0, -1).join(", ")} or ${last}`;
}

/** The sentence's first letter as a capital. */
/** The first letter small, for a title that goes on inside a sentence. */
export const lowered = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A name from data where there is little room: so many letters of it. */
export const shortened = (name: string, longest = 40): string =>
  name.length <= longest ? name : `${name.slice(0, longest - 1).trimEnd()}…`;
