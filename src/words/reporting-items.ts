import type { SectionId } from "./sections.js";

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
  { item: "Background, and why the study was done", answeredIn: [], byYou: "background and reasons" },
  {
    item: "Aims, and hypotheses fixed beforehand",
    answeredIn: [],
    byYou: "the aim; the study file shows what was fixed",
  },
  { item: "Study design, named early", answeredIn: ["methods"], byYou: null },
  {
    item: "Setting: places, and dates of recruitment, treatment and follow-up",
    answeredIn: ["follow-up"],
    byYou: "places and dates",
  },
  {
    item: "Who was eligible, and how they were found and followed",
    answeredIn: ["counted"],
    byYou: "how people came to the site",
  },
  {
    item: "Definitions of outcomes, treatments, predictors and grades",
    answeredIn: ["methods"],
    byYou: "the site\u2019s own criteria",
  },
  {
    item: "Source of each variable, and how it was measured",
    answeredIn: ["distances"],
    byYou: "devices, raters, source of dates",
  },
  { item: "Measures against bias", answeredIn: ["care", "methods"], byYou: null },
  { item: "How the size of the study was determined", answeredIn: [], byYou: "the reason for this number" },
  {
    item: "How measurements were grouped, and why",
    answeredIn: ["methods"],
    byYou: "reasons for groups and thresholds",
  },
  {
    item: "Statistical methods: confounding, subgroups, missing data, loss to follow-up",
    answeredIn: ["methods", "missing"],
    byYou: null,
  },
  { item: "Numbers at each stage, with reasons for leaving out", answeredIn: ["counted"], byYou: null },
  {
    item: "Characteristics, missing values and length of follow-up",
    answeredIn: ["cohort", "follow-up", "missing"],
    byYou: null,
  },
  { item: "Outcome events over time", answeredIn: ["curves", "after"], byYou: null },
  {
    item: "Crude and adjusted results with intervals; absolute and relative",
    answeredIn: ["effects"],
    byYou: null,
  },
  { item: "Other analyses", answeredIn: ["curves", "distances"], byYou: "analyses outside this report" },
  { item: "Main results in view of the aims", answeredIn: ["answer"], byYou: "in view of your aims" },
  {
    item: "Limitations, and the direction of the bias they may cause",
    answeredIn: ["care"],
    byYou: "what the data cannot know",
  },
  { item: "A cautious interpretation", answeredIn: ["cautions"], byYou: "your interpretation" },
  { item: "To whom the results apply", answeredIn: [], byYou: "your judgement" },
  { item: "Funding, and the role of the funders", answeredIn: [], byYou: "funding" },
];
