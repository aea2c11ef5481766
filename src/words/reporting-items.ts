import { labelOf } from "../schema/labels.js";
import { measureOf } from "../study/measures/index.js";
import type { Results } from "../study/results.js";
import { listed } from "./phrases.js";
import { sealedInShort } from "./sealed.js";
import type { SectionId } from "./sections.js";
import { whoWords } from "./target-trial/who.js";
import { fieldWords } from "./terms.js";

/** A place in a report that answers an item. */
interface Place {
  readonly section: SectionId;
  /** What stands there, in a few words; null where these results leave it out. A place that says nothing of its own answers whenever the section is there. */
  readonly says?: (results: Results) => string | null;
}

/** One item of the reporting guideline for cohort studies, in our words, and who answers it. */
export interface ReportingItem {
  /** As the guideline numbers it. */
  readonly number: string;
  readonly item: string;
  readonly places: readonly Place[];
  /** What is left for the authors; null where the report answers the item by itself. */
  readonly byYou: string | null;
}

const recruited = ({ follow_up: { recruited: months } }: Results): string | null =>
  months === null ? null : `${months.from} to ${months.to}`;

const followedFor = ({ follow_up: { person_months, not_back_days: days } }: Results): string | null => {
  const told = [
    ...(person_months === null ? [] : ["person-months"]),
    ...(days === null ? [] : [`${days.shortest} to ${days.longest} days for those not back`]),
  ];
  return told.length === 0 ? null : told.join(", ");
};

const adjusted = ({ effects }: Results): string | null => {
  const ofReturn = effects.filter(({ measure }) => measureOf(measure).outcome === "return");
  const fields = [...new Set(ofReturn.flatMap(({ adjusted_for }) => adjusted_for))];
  if (ofReturn.length === 0) return null;
  return fields.length === 0 ? "crude only" : `adjusted for ${listed(fieldWords(fields))}`;
};

/** The words where there is something, else nothing. */
const where = (isThere: boolean, words: string): string | null => (isThere ? words : null);

/** The items of the STROBE statement for cohort studies, wording ours. */
export const reportingItems: readonly ReportingItem[] = [
  {
    number: "1a",
    item: "The design, in the title or the summary",
    places: [],
    byYou: "the title of your paper",
  },
  {
    number: "1b",
    item: "A summary of what was done and found",
    places: [{ section: "answer" }],
    byYou: "the summary in the form of the journal",
  },
  {
    number: "2",
    item: "Background, and why the study was done",
    places: [],
    byYou: "background and reasons",
  },
  {
    number: "3",
    item: "Aims, and hypotheses fixed beforehand",
    places: [{ section: "provenance", says: sealedInShort }],
    byYou: "the aim; the study file, under version control, or a sealed plan shows what was fixed and when",
  },
  {
    number: "4",
    item: "Study design, named early",
    places: [{ section: "methods" }],
    byYou: "whether the study was planned before the data were collected",
  },
  {
    number: "5",
    item: "Setting: places, and dates of recruitment, treatment and follow-up",
    places: [
      { section: "follow-up", says: (results) => prefixed("months of recruitment", recruited(results)) },
    ],
    byYou: "the places, and how the data were collected",
  },
  {
    number: "6a",
    item: "Who was eligible, and how they were found and followed",
    places: [
      { section: "trial", says: ({ plan }) => whoWords(plan.who) },
      { section: "counted", says: ({ target_trial }) => where(target_trial === null, "who was left out") },
    ],
    byYou: "how people came to the site, and how they were followed",
  },
  {
    number: "6b",
    item: "Matching, where there was any",
    places: [],
    byYou: "that nobody was matched, or how; this report matches nobody",
  },
  {
    number: "7",
    item: "Definitions of outcomes, treatments, predictors and grades",
    places: [{ section: "methods" }],
    byYou: "the site\u2019s own criteria of a grade and of the return",
  },
  {
    number: "8",
    item: "Source of each variable, and how it was measured",
    places: [],
    byYou: "devices, raters, where dates come from, and whether all groups were measured alike",
  },
  {
    number: "9",
    item: "Measures against bias",
    places: [{ section: "trial" }, { section: "methods" }],
    byYou: null,
  },
  {
    number: "10",
    item: "How the size of the study was determined",
    places: [],
    byYou: "the reason for this number",
  },
  {
    number: "11",
    item: "How measurements were grouped, and why",
    places: [
      {
        section: "distances",
        says: ({ distances }) => where(distances !== null, "thresholds of the distance"),
      },
    ],
    byYou: "reasons for groups and thresholds",
  },
  {
    number: "12a",
    item: "Statistical methods, those against confounding among them",
    places: [{ section: "methods" }],
    byYou: null,
  },
  {
    number: "12b",
    item: "Methods for subgroups and interactions",
    places: [
      {
        section: "answer",
        says: ({ within }) => where(within !== null, `within each ${labelOf(within?.field ?? "")}`),
      },
    ],
    byYou: "interactions; this report tests none",
  },
  {
    number: "12c",
    item: "How missing data were handled",
    places: [{ section: "methods" }, { section: "missing" }],
    byYou: null,
  },
  {
    number: "12d",
    item: "How loss to follow-up was handled",
    places: [{ section: "methods" }, { section: "missing" }],
    byYou: null,
  },
  {
    number: "12e",
    item: "Sensitivity analyses",
    places: [
      {
        section: "missing",
        says: ({ loss_bounds }) => where(loss_bounds !== null, "if those lost were unlike those followed"),
      },
      {
        section: "follow-up",
        says: ({ known_returns }) =>
          where(known_returns.readings.length > 0, "returns as early and as late as they can be"),
      },
      {
        section: "trial",
        says: ({ target_trial }) =>
          where((target_trial?.other_readings.length ?? 0) > 0, "another rule of the first treatment"),
      },
    ],
    byYou: "confounding that was not measured",
  },
  {
    number: "13a",
    item: "Numbers at each stage",
    places: [{ section: "counted" }],
    byYou: "how many were seen and are not in the files",
  },
  { number: "13b", item: "Reasons for leaving out", places: [{ section: "counted" }], byYou: null },
  { number: "13c", item: "A flow diagram", places: [{ section: "counted" }], byYou: null },
  { number: "14a", item: "Characteristics of the groups", places: [{ section: "cohort" }], byYou: null },
  {
    number: "14b",
    item: "How many values of each variable are missing",
    places: [{ section: "missing" }],
    byYou: null,
  },
  {
    number: "14c",
    item: "Length of follow-up: average and total",
    places: [{ section: "follow-up", says: followedFor }],
    byYou: null,
  },
  {
    number: "15",
    item: "Outcome events over time",
    places: [{ section: "curves" }, { section: "after" }],
    byYou: null,
  },
  {
    number: "16a",
    item: "Crude and adjusted results with intervals; what was adjusted for, and why",
    places: [{ section: "effects", says: adjusted }],
    byYou: "why these were chosen",
  },
  {
    number: "16b",
    item: "Boundaries of categories made from numbers",
    places: [],
    byYou: "the boundaries, where you made categories; this report makes none",
  },
  {
    number: "16c",
    item: "Absolute differences beside relative ones",
    places: [
      { section: "effects", says: ({ effects }) => where(effects.length > 0, "shares and mean times") },
    ],
    byYou: null,
  },
  {
    number: "17",
    item: "Other analyses",
    places: [
      { section: "curves", says: () => "by grade" },
      {
        section: "distances",
        says: ({ distances }) => where(distances !== null, ""),
      },
    ],
    byYou: "analyses outside this report",
  },
  {
    number: "18",
    item: "Main results in view of the aims",
    places: [{ section: "answer" }],
    byYou: "in view of your aims",
  },
  {
    number: "19",
    item: "Limitations, and the direction and size of the bias they may cause",
    places: [{ section: "care" }, { section: "trial" }],
    byYou: "what the data cannot know",
  },
  {
    number: "20",
    item: "A cautious interpretation",
    places: [{ section: "cautions" }],
    byYou: "your interpretation, beside what others have found",
  },
  { number: "21", item: "To whom the results apply", places: [], byYou: "your judgement" },
  { number: "22", item: "Funding, and the role of the funders", places: [], byYou: "funding" },
];

function prefixed(words: string, told: string | null): string | null {
  return told === null ? null : `${words} ${told}`;
}
