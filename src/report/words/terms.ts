import { labelOf } from "../../schema/labels.js";
import type { Plan } from "../../study/plan.js";
import type { CurveResult, Results, TestResult } from "../../study/results.js";

type Question = Plan["question"];
type ExclusionCode = Results["accounting"]["analysis"]["excluded"][number]["code"];

/** To be back, after "were". */
export const backWords: Readonly<Record<Question["milestone"], string>> = {
  easy_climbing: "back to easy climbing",
  full_climbing: "back to full climbing",
  previous_level: "back at the previous level",
};

/** What the milestone means, as the tables define it. */
export const milestoneMeaning: Readonly<Record<Question["milestone"], string>> = {
  easy_climbing: "the day on which protected climbing was first possible",
  full_climbing: "the day on which climbing was unrestricted, all grips included",
  previous_level: "the day on which the level of before the injury was reached again",
};

/** What is true of somebody who is back, after "that". */
export const milestoneState: Readonly<Record<Question["milestone"], string>> = {
  easy_climbing: "protected climbing was possible",
  full_climbing: "climbing was unrestricted, all grips included",
  previous_level: "the level of before the injury was reached again",
};

/** Day 0, after "counted from". */
export const clockWords: Readonly<Record<Question["clock"], string>> = {
  injury: "the day of the injury",
  first_visit: "the day of the first visit",
  treatment_start: "the day on which the first treatment began",
};

/** Ends that compete with a return, after a count. */
export const competingWords: Readonly<Record<Question["competing_ends"][number], string>> = {
  gave_up: "gave up climbing",
  new_rupture: "had a new rupture of the finger",
  surgery: "went on to surgery",
  died: "died",
};

/** Why an injury that was read is not analysed. */
export const exclusionWords: Readonly<Record<ExclusionCode, string>> = {
  "no-first-visit": "no first visit is recorded, and the question needs one",
  "no-treatment-to-start-the-clock": "no treatment is recorded whose start could be day 0",
  "milestone-before-clock": "the milestone was reached before day 0",
  "no-follow-up": "nothing is known after day 0",
  "site-not-asked": "the site is not one of those asked about",
  "entered-after-its-end": "it came under observation only after its end",
};

/** How exactly the milestone is known. */
const knownWords: Readonly<Record<string, string>> = {
  day: "a date to the day",
  week: "a date to the week",
  month: "a date to the month",
  visits: "between two visits",
  not_reached: "not reached in the time seen",
};
export const sayKnown = (code: string): string => knownWords[code] ?? codeWords(code);

export const testWords: Readonly<
  Record<TestResult["method"], { readonly name: string; readonly asks: string }>
> = {
  log_rank: { name: "Log-rank", asks: "do the curves differ?" },
  log_rank_stratified: { name: "Log-rank", asks: "do the curves differ within strata?" },
  log_rank_permuted: { name: "Log-rank, groups dealt out anew", asks: "do the curves differ?" },
  log_rank_trend: {
    name: "Log-rank for trend",
    asks: "does return change steadily from group to group, in their order?",
  },
  proportionality: {
    name: "Proportional hazards",
    asks: "is the ratio of the rates of return steady over time?",
  },
};

/** A code as words: `grade-without-letter` becomes "grade without letter". */
export const codeWords = (code: string): string => labelOf(code).replaceAll("-", " ");

/** Field names as a reader would list them. */
export const fieldWords = (fields: readonly string[]): string[] => fields.map(labelOf);

/** A group, or another value of a field, as a reader sees it: terms in words, sites as the data call them. */
export const groupName = (label: string, by: string): string => (by === "site_id" ? label : labelOf(label));

/** The name of a curve in tables and captions, where the study compares by that field. */
export function curveName({ family, label }: Pick<CurveResult, "family" | "label">, by: string): string {
  const words = family === "compared" || family === "standardised" ? groupName(label, by) : labelOf(label);
  return family === "grade" && !/^grade/i.test(words) ? `grade ${words}` : words;
}

/** The last part of a path: where a file lay on somebody's machine is nobody's business. */
export const fileName = (path: string): string => path.split(/[\\/]/).at(-1) ?? path;

/** Ends that compete with a return, as nouns. */
export const competingNouns: Readonly<Record<Question["competing_ends"][number], string>> = {
  gave_up: "giving up climbing",
  new_rupture: "a new rupture of the finger",
  surgery: "surgery after another first treatment",
  died: "death",
};
