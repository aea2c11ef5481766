import { labelOf } from "../schema/labels.js";
import type { FirstTreatmentRule, Plan } from "../study/plan.js";
import { listed } from "./phrases.js";

type Groups = Plan["compare"]["groups"];

const alwaysCounted: readonly string[] = ["tape", "ring", "surgery"];

/** Which treatment is the first under a rule, after "the first treatment is". */
export function firstTreatmentRule(rule: FirstTreatmentRule, groups: Groups): string {
  const each = (codes: readonly string[]) => listed(codes.map(labelOf));
  switch (rule) {
    case "rest_aside":
      return `whichever of ${each([...new Set([...alwaysCounted, ...groups])])} began first, whatever else came before`;
    case "of_compared":
      return `whichever of ${each(groups)} began first, whatever else came before`;
    case "of_all":
      return "whichever treatment began first, rest and rehabilitation among them";
  }
}

/** The same in few words: "the first of tape, ring and surgery". */
export function firstOf(rule: FirstTreatmentRule, groups: Groups): string {
  if (rule === "of_all") return "the first of all treatments";
  const codes = rule === "of_compared" ? groups : [...new Set([...alwaysCounted, ...groups])];
  return `the first of ${listed(codes.map(labelOf))}`;
}

/** What another rule would make of the first treatment, as the start of a sentence on what would then be so. */
export const underRule: Readonly<Record<FirstTreatmentRule, (groups: Groups) => string>> = {
  rest_aside: () => "If rest and rehabilitation did not count as a first treatment",
  of_compared: (groups) => `If only ${listed(groups.map(labelOf))} could be a first treatment`,
  of_all: () => "If every treatment, rest and rehabilitation among them, counted as a first treatment",
};
