import type { ExactResults } from "./exact-results.js";
import type { Comparison } from "./specification.js";

/** By what a group differs from the reference, beyond this standardised difference, is said (common practice, no source). */
const dissimilarBeyond = 0.1;

/** The characteristics in which each group differs from the reference and which are not held equal, the largest differences first. */
export function imbalanceOf(
  { groups, rows }: ExactResults["cohort"],
  { adjustFor }: Pick<Comparison, "adjustFor">,
): readonly {
  readonly label: string;
  readonly fields: readonly { readonly field: string; readonly size: number }[];
}[] {
  const firsts = rows.filter(({ variable }, row) => variable !== rows[row - 1]?.variable);
  const free = firsts.filter(({ variable }) => !(adjustFor as readonly string[]).includes(variable));
  return groups.map(({ label }, i) => ({
    label,
    fields: free
      .map(({ variable, standardised_differences }) => ({
        field: variable,
        size: Math.abs(standardised_differences[i] ?? 0),
      }))
      .filter(({ size }) => size > dissimilarBeyond)
      .toSorted((one, other) => other.size - one.size),
  }));
}
