import { labelOf } from "../../schema/labels.js";
import { unitInWords } from "../../schema/unit-words.js";
import type { Harmonised } from "../../study/results-harmonised.js";
import { plainNumber, share } from "../numbers.js";
import { capital, listed } from "../phrases.js";
import { milestoneWords } from "../terms.js";

type Schedules = Harmonised["schedules"];
type Stated = Harmonised["stated"][number];
type Field = Harmonised["fields"][number];
type Because = Schedules["because"][number];

/** Whether the sites saw their people alike, and what follows from it. */
export function scheduleSentences({ verdict, because, sites }: Schedules): readonly string[] {
  if (verdict === "not_known")
    return ["Too few contacts and returns are recorded to say whether the sites saw their people alike."];
  if (verdict === "alike")
    return [
      "The sites saw their people at similar intervals and know their returns about equally well, as far as contacts are recorded.",
    ];
  return [
    `The sites saw their people on unlike schedules: ${listed(because.map((why) => apart(why, sites)))}.`,
    "A return is noticed at a visit or dated by it, so part of a difference between sites can come from when people were seen.",
  ];
}

/** How far apart the sites are in one respect, with the sites at both ends. */
function apart(why: Because, sites: Schedules["sites"]): string {
  const { what, of, words } = respects[why];
  const known = sites
    .flatMap((site) => {
      const figure = of(site);
      return figure === null ? [] : [{ site: site.site, figure }];
    })
    .sort((one, other) => one.figure - other.figure);
  const [least, most] = [known[0]!, known.at(-1)!];
  return `${what} goes from ${words(least.figure)} at ${least.site} to ${words(most.figure)} at ${most.site}`;
}

const dayCount = (figure: number): string => `${plainNumber(figure, 1)} ${figure === 1 ? "day" : "days"}`;

const respects: Readonly<
  Record<
    Because,
    {
      readonly what: string;
      readonly of: (site: Schedules["sites"][number]) => number | null;
      readonly words: (figure: number) => string;
    }
  >
> = {
  days_between: {
    what: "the median time from one contact to the next",
    of: ({ days_between }) => days_between.median,
    words: dayCount,
  },
  span_days: {
    what: "the median span between which a return is known to lie",
    of: ({ span_days }) => span_days.median,
    words: dayCount,
  },
  wide_share: {
    what: "the share of returns known to more than 14 days only",
    of: ({ wide_share }) => wide_share,
    words: share,
  },
};

/** Whether the sites lost alike, and what follows from it. */
export function lossSentencesOfSites({
  verdict,
  lowest,
  highest,
  sites,
}: Harmonised["losses"]): readonly string[] {
  const unknown = sites.filter(({ closing_day_known }) => !closing_day_known).map(({ site }) => site);
  const closing =
    unknown.length === 0
      ? []
      : [
          `No day on which the data were closed is known for ${listed(unknown)}: whoever was still followed there counts as lost.`,
        ];
  if (verdict === "not_known" || lowest === null || highest === null)
    return ["Too few injuries are recorded to say whether the sites lost alike.", ...closing];
  const range = `from ${share(lowest)} to ${share(highest)} of the injuries of a site`;
  return verdict === "alike"
    ? [`The sites lost about alike to follow-up: ${range}.`, ...closing]
    : [
        `The sites lost unlike shares to follow-up: ${range}. Whoever is lost may return sooner or later than those who are seen, so part of a difference between sites can come from that.`,
        ...closing,
      ];
}

const verdicts: Readonly<Record<Stated["verdict"], string>> = {
  same: "the same at every site",
  differs: "differs",
  some_not_stated: "the same where it is stated; not every site states it",
  not_stated: "not stated by any site",
  not_in_words:
    "given by the keyed names of shared copies, which differ: either the sites mean different things, or they used different keys",
};

/** What a column of the sites table is called, and whether the sites agree in it. */
export const statedHeading = ({ field, verdict }: Stated): string =>
  `${capital(statedName(field))}: ${verdicts[verdict]}`;

const statedName = (field: string): string => statedNames[field] ?? labelOf(field);

const statedNames: Readonly<Record<string, string>> = {
  definition_easy: `what counts as ${milestoneWords.easy_climbing.name}`,
  definition_full: `what counts as ${milestoneWords.full_climbing.name}`,
  definition_previous: `what counts as ${milestoneWords.previous_level.name}`,
  finger_counting: "whether the thumb counts when fingers are numbered",
  threshold_mm: "distance above which a rupture is called complete, mm",
};

/** What of the statements decides, and whom to ask. */
export function statedSentences(stated: readonly Stated[]): readonly string[] {
  const deciding = stated.find(({ decides }) => decides);
  if (deciding === undefined) return [];
  const name = statedName(deciding.field);
  const ask =
    deciding.ask.length === 0
      ? []
      : [
          `Ask ${listed(deciding.ask)}: ${deciding.ask.length === 1 ? "it does" : "they do"} not state one definition. A definition that is not stated is not guessed; such sites are taken together under "not stated".`,
        ];
  return [`${capital(name)}: ${verdicts[deciding.verdict]}.`, ...ask];
}

const fieldVerdicts: Readonly<Record<Field["verdict"], (field: Field) => string>> = {
  everywhere: () => "recorded at every site",
  not_everywhere: ({ without }) => `never recorded at ${listed(without)}`,
  coarser_somewhere: ({ without }) => `recorded more coarsely at ${listed(without)}`,
  nowhere: () => "recorded at no site",
};

/** A field with its unit, and at which sites it can be used. */
export function fieldHeading(field: Field): string {
  const unit = field.unit === null ? "" : unitInWords(field.unit);
  const name = labelOf(field.field);
  const withUnit = unit === "" || name.includes(unit) ? name : `${name}, ${unit}`;
  return `${capital(withUnit)}: ${fieldVerdicts[field.verdict](field)}`;
}

/** What cannot be pooled, and is left out. */
export function leftOutSentences(fields: readonly Field[], heldEqual: readonly string[]): readonly string[] {
  const partial = fields.filter(
    ({ verdict }) => verdict === "not_everywhere" || verdict === "coarser_somewhere",
  );
  if (partial.length === 0) return ["Every field that the question uses is recorded at every site."];
  return partial.map((field) => {
    const name = capital(labelOf(field.field));
    const sites = listed(field.without);
    if (field.verdict === "coarser_somewhere")
      return `${name} is recorded more coarsely at ${sites}: these injuries are set beside their like only, and never beside a finer word of another site.`;
    return heldEqual.includes(field.field)
      ? `${name} is never recorded at ${sites}: it is held equal in adjusted comparisons, which leave the injuries of ${field.without.length === 1 ? "this site" : "these sites"} out.`
      : `${name} is never recorded at ${sites}: what is said of it is said of the other sites alone.`;
  });
}

/** How the values of a field are distributed at one site, in a cell. */
export function distributionWords({ counts, numbers }: Field["sites"][number]): string {
  if (counts !== null) return counts.map(({ code, n }) => `${labelOf(code)}: ${n}`).join(", ");
  if (numbers === null || numbers.median === null) return "";
  const number = (value: number | null) => (value === null ? "\u2013" : plainNumber(value, 1));
  return `${number(numbers.median)} (${number(numbers.lower_quartile)} to ${number(numbers.upper_quartile)})`;
}
