import { labelOf } from "../schema/labels.js";
import type { CurveFamily, CurveResult } from "../study/results.js";
import { groupName } from "./terms.js";

type Family = CurveFamily["family"];

/** Families of curves as headings and captions call them. */
export const familyTitles: Readonly<Record<Family, string>> = {
  all: "All injuries",
  grade: "By grade",
  compared: "Groups compared, crude",
  standardised: "Groups compared, adjusted",
  definition: "By the definition of the return",
};

/** The field of whose values the curves of a family are groups; null for all injuries together. */
export function fieldOf(family: Family, compareBy: string): string | null {
  if (family === "all") return null;
  // sites are called as the data call them
  if (family === "definition") return "site_id";
  return family === "grade" ? "grade" : compareBy;
}

/** The name of a curve, where the study compares by that field. */
export function curveName({ family, label }: Pick<CurveResult, "family" | "label">, by: string): string {
  if (family === "definition") return label;
  const words = family === "compared" || family === "standardised" ? groupName(label, by) : labelOf(label);
  return fieldOf(family, by) === "grade" ? gradeName(words) : words;
}

/** A grade is not called by its number alone. */
export const gradeName = (words: string): string => (/^grade/i.test(words) ? words : `grade ${words}`);
