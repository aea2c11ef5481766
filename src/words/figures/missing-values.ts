import { labelOf } from "../../schema/labels.js";
import type { Plan } from "../../study/plan.js";
import type { Results } from "../../study/results.js";
import { isSome, rankOf } from "../counts.js";
import { share as shareWords } from "../numbers.js";
import { listed } from "../phrases.js";
import type { FigureText } from "./figure-text.js";

/** What the figure of missing values is about. */
export interface MissingShown {
  readonly missing: Results["missing"];
  readonly plan: Plan;
}

export const noneMissing = "No field has missing values.";
export const byField = (field: string): string => `by ${labelOf(field)}`;

/** Places of the fields that have gaps, the widest first. */
export const withGaps = ({ fields }: Results["missing"]): readonly number[] =>
  fields
    .map((_, i) => i)
    .filter((place) => isSome(fields[place]!.missing))
    .sort((one, other) => rankOf(fields[other]!.missing) - rankOf(fields[one]!.missing) || one - other);

/** A share of missing values; one that is not nought does not look like it. */
export const gapShare = (share: number): string =>
  share > 0 && share < 0.005 ? "< 1\u00a0%" : shareWords(share);

/** Title, subtitle, text alternative and notes of the figure of missing values; notes on the names of its columns come last. */
export function missingText({ missing, plan }: MissingShown, notesOnNames: readonly string[]): FigureText {
  const gaps = withGaps(missing).map((place) => missing.fields[place]!);
  const whole = missing.fields.filter((field) => field.missing === 0).map(({ field }) => labelOf(field));
  return {
    id: "missing-values",
    title: "Which values are missing, and in which groups?",
    subtitle: `share of injuries without a value, n = ${missing.n}; complete in all fields: ${missing.complete}`,
    description: [
      `Injuries without a value, of ${missing.n}, by field; the figure also gives the shares in each group.`,
      ...gaps.map(({ field, missing: n, share }) => `${labelOf(field)}: ${n} (${gapShare(share ?? 0)}).`),
    ].join(" "),
    notes: [
      ...(gaps.some(({ in_the_study }) => in_the_study)
        ? ["Bold: fields that the study compares by or adjusts for."]
        : []),
      ...(whole.length > 0 ? [`No missing values: ${listed(whole)}.`] : []),
      ...(missing.never_filled.length > 0
        ? [`Not collected: ${listed(missing.never_filled.map(labelOf))}.`]
        : []),
      ...(gaps.length > 0 ? notesOnNames : []),
    ],
    synthetic: plan.synthetic,
    individual: false,
  };
}
