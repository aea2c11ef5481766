import { labelOf } from "../schema/labels.js";
import type { Plan } from "../study/plan.js";
import type { CurveFamily, Results } from "../study/results.js";

/** A field or a stored term in the words of a reader. */
export { labelOf } from "../schema/labels.js";

type Question = Plan["question"];
type ExclusionCode = Results["accounting"]["analysis"]["excluded"][number]["code"];

/** A milestone in words, for the places in a sentence where it can stand. */
interface MilestoneWords {
  /** After "until" or "time to". */
  readonly name: string;
  /** To have reached it, after "were" or "share". */
  readonly back: string;
  /** As the tables define it, after "the milestone is". */
  readonly meaning: string;
  /** What is true of somebody who has reached it, after "that". */
  readonly state: string;
}

export const milestoneWords: Readonly<Record<Question["milestone"], MilestoneWords>> = {
  easy_climbing: {
    name: "easy climbing",
    back: "back to easy climbing",
    meaning: "the first day on which protected climbing was possible",
    state: "protected climbing was possible",
  },
  full_climbing: {
    name: "full climbing",
    back: "back to full climbing",
    meaning: "the first day on which climbing was unrestricted, all grips included",
    state: "climbing was unrestricted, all grips included",
  },
  previous_level: {
    name: "the previous level",
    back: "back at the previous level",
    meaning: "the first day on which the level before the injury was reached again",
    state: "the level before the injury was reached again",
  },
};

/** Day 0, after "counted from" or "weeks since". */
export const clockWords: Readonly<Record<Question["clock"], string>> = {
  injury: "the injury",
  first_visit: "the first visit",
  treatment_start: "the start of the first treatment",
};

/** From when on an injury is at risk, where that is not day 0. */
export const entryWords: Readonly<Record<Exclude<CurveFamily["entry"], "clock">, string>> = {
  first_visit:
    "An injury is at risk only from its first visit on, since an earlier return could not have been observed; few or none are at risk on day 0.",
  treatment:
    "An injury is at risk only from the start of its first treatment on, since belonging to its group means not having returned before; few or none are at risk on day 0.",
};

/** On which day a return is placed that is not known to the day. */
export const inexactDateRules: Readonly<Record<Question["inexact_dates"], string>> = {
  midpoint: "the middle of the span in which it lies",
  latest: "the last day of the span in which it lies",
  earliest: "the first day of the span in which it lies",
};

/** An end that competes with a return: after a count of people or "whoever", as a noun, and as the head of a column. */
interface EndWords {
  readonly verb: string;
  readonly noun: string;
  readonly head: string;
}

const endWords: Readonly<Record<Question["competing_ends"][number], EndWords>> = {
  gave_up: { verb: "gave up climbing", noun: "giving up climbing", head: "Gave up" },
  new_rupture: {
    verb: "had a new rupture of the finger",
    noun: "a new rupture of the finger",
    head: "New rupture",
  },
  surgery: {
    verb: "went on to surgery",
    noun: "surgery after another first treatment",
    head: "Went on to surgery",
  },
  died: { verb: "died", noun: "death", head: "Died" },
};

export const competingNoun = (end: keyof typeof endWords): string => endWords[end].noun;

/** What somebody did who came to this end, after "whoever". */
export const competingPast = (end: keyof typeof endWords): string => endWords[end].verb;

/** The end at the head of a column. */
export const competingHead = (end: keyof typeof endWords): string => endWords[end].head;

/** What became of somebody who ended by this code, after a count. */
export const competingVerb = (code: string): string =>
  Object.hasOwn(endWords, code) ? endWords[code as keyof typeof endWords].verb : codeWords(code);

/** Where no injury is left to be analysed. */
export const nobodyAnalysed = "No injury in these data can answer the question.";

/** Why an injury that was read is not analysed. */
export const exclusionWords: Readonly<Record<ExclusionCode, string>> = {
  "no-first-visit": "no first visit is recorded, and the question needs one",
  "no-treatment-to-start-the-clock": "no treatment is recorded whose start could be day 0",
  "treatment-without-start": "the first treatment has no start that could be day 0",
  "surgery-without-day":
    "surgery is a competing end, and the day of an operation, whether it came first, or whether there was one is not known",
  "milestone-before-clock": "the milestone was reached before day 0",
  "no-follow-up": "nothing is known after day 0",
  "site-not-asked": "the study does not ask about the site",
  "grade-not-asked": "the study does not ask about the grade",
  "grade-not-known": "the grade is not recorded, and the study asks about some grades only",
  "pulley-not-asked": "the study does not ask about the injured pulleys",
  "extent-not-asked": "the study does not ask about tears of that extent",
  "extent-not-known": "the extent of the tear is not recorded, and the study asks about some extents only",
  "finger-not-asked": "the study does not ask about the finger",
  "age-not-asked": "the age is outside those that the study asks about",
  "age-not-known": "the age is not recorded, and the study asks about some ages only",
  "first-visit-too-late": "the first visit came later after the injury than the study asks for",
  "first-visit-not-known":
    "the first visit is not recorded, and the study asks for one within some days of the injury",
  "entered-after-its-end": "it came under observation only after its end",
};

const outsideWords: Readonly<Record<string, string>> = {
  "not-recorded": "the field compared is not recorded",
  "two-first-treatments-on-one-day": "two first treatments were begun on one day",
  "treatment-without-start": "the start of the first treatment is not recorded",
  "first-treatment-not-known": "which treatment came first is not known",
  "first-treatment-not-read": "the first treatment is recorded, but not read",
  "milestone-before-treatment": "returned before the treatment began",
  "no-follow-up-after-treatment": "nothing is known after the treatment began",
};

/** Why an analysed injury is in none of the groups compared. */
export function outsideGroups(code: string, by: string): string {
  const other = /^not-compared: (.*)$/s.exec(code)?.[1];
  if (other !== undefined) return `in a group that is not compared (${groupName(other, by)})`;
  return Object.hasOwn(outsideWords, code) ? outsideWords[code]! : codeWords(code);
}

const knownWords: Readonly<Record<string, string>> = {
  day: "known to the day",
  week: "known to the week",
  month: "known to the month",
  visits: "known to lie between two visits",
  not_reached: "not reached during follow-up",
};

/** How exactly the date of a milestone is known. */
export const sayKnown = (code: string): string =>
  Object.hasOwn(knownWords, code) ? knownWords[code]! : codeWords(code);

/** A code as words: `grade-without-letter` becomes "grade without letter". */
export const codeWords = (code: string): string => labelOf(code).replaceAll("-", " ");

/** Field names as a reader would list them. */
export const fieldWords = (fields: readonly string[]): string[] => fields.map(labelOf);

/** A group, or another value of a field, as a reader sees it: terms in words, sites as the data call them. */
export const groupName = (label: string, by: string): string => (by === "site_id" ? label : labelOf(label));

/** The last part of a path: where a file lay on somebody's machine is nobody's business. */
export const fileName = (path: string): string => path.split(/[\\/]/).at(-1) ?? path;
