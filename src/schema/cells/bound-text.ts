/** A bound in canonical text: `>2`, `<1.5`. */
export const boundPattern = /^[<>]\d+(?:\.\d+)?$/;

/** A number that may be a bound, taken apart. */
export interface Bounded {
  readonly value: number;
  readonly bound: "exact" | "below" | "above";
}

/** The number and the kind of bound of a typed value: 2.8, `>2`, `<1.5`. */
export function boundedOf(typed: number | string): Bounded {
  if (typeof typed === "number") return { value: typed, bound: "exact" };
  return { value: Number(typed.slice(1)), bound: typed.startsWith(">") ? "above" : "below" };
}
