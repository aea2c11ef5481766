import type { SectionId } from "../context.js";

/** One item of the reporting guideline for cohort studies, in our words, and who answers it. */
export interface ReportingItem {
  readonly item: string;
  readonly answeredIn: readonly SectionId[];
  /** What is left for the authors; null where the report answers the item by itself. */
  readonly byYou: string | null;
}

/** The 22 items of the STROBE statement for cohort studies, wording ours. */
export const reportingItems: readonly ReportingItem[] = [
  { item: "Title and summary name the design", answeredIn: ["answer"], byYou: "the title of your paper" },
  { item: "Why the study was done", answeredIn: [], byYou: "background and reasons" },
  {
    item: "Aims, and hypotheses fixed beforehand",
    answeredIn: [],
    byYou: "the aim; the study file shows what was fixed",
  },
  { item: "Design, said early", answeredIn: ["methods"], byYou: null },
  {
    item: "Places, and dates of recruiting, treatment and follow-up",
    answeredIn: ["follow-up"],
    byYou: "places and dates",
  },
  {
    item: "Who was eligible, how they were found and followed",
    answeredIn: ["counted"],
    byYou: "how people came to the site",
  },
  {
    item: "Outcomes, treatments, predictors and grading defined",
    answeredIn: ["methods"],
    byYou: "the site\u2019s own criteria",
  },
  {
    item: "Where each variable came from and how it was measured",
    answeredIn: ["distances"],
    byYou: "devices, raters, source of dates",
  },
  { item: "What was done against bias", answeredIn: ["care", "methods"], byYou: null },
  { item: "How the size of the study came about", answeredIn: [], byYou: "why this many" },
  {
    item: "How numbers were grouped, and why",
    answeredIn: ["methods"],
    byYou: "reasons for groups and thresholds",
  },
  {
    item: "Statistical methods: confounding, subgroups, missing data, loss",
    answeredIn: ["methods", "missing"],
    byYou: null,
  },
  { item: "Numbers at each stage, with reasons", answeredIn: ["counted"], byYou: null },
  {
    item: "Who they were, what is missing, how long they were followed",
    answeredIn: ["cohort", "follow-up", "missing"],
    byYou: null,
  },
  { item: "Outcomes over time", answeredIn: ["curves"], byYou: null },
  {
    item: "Crude and adjusted results with intervals; absolute beside relative",
    answeredIn: ["effects"],
    byYou: null,
  },
  { item: "Other analyses", answeredIn: ["curves", "distances"], byYou: "analyses outside this report" },
  { item: "Main results against the aims", answeredIn: ["answer"], byYou: "against your aims" },
  {
    item: "Limits, and in which direction they may lead astray",
    answeredIn: ["care"],
    byYou: "what the data cannot know",
  },
  { item: "A cautious reading", answeredIn: ["cautions"], byYou: "your reading" },
  { item: "To whom the results apply", answeredIn: [], byYou: "to whom" },
  { item: "Funding, and its part in the study", answeredIn: [], byYou: "funding" },
];
