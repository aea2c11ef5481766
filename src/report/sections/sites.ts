import { labelOf } from "../../schema/labels.js";
import type { Harmonised } from "../../study/results-harmonised.js";
import { plainNumber, share } from "../../words/numbers.js";
import {
  distributionWords,
  fieldHeading,
  leftOutSentences,
  lossSentencesOfSites,
  scheduleSentences,
  statedHeading,
  statedSentences,
} from "../../words/pooling/harmonised.js";
import { type ReportContext, type Section, section } from "../context.js";
import { html, type Safe } from "../escape.js";
import { behind, bullets, heading } from "../layout/blocks.js";
import { type Column, type Row, table } from "../layout/table.js";

/** What the sites are, before any answer of theirs: schedules and losses first, then meanings, then every field. */
export function sitesSection({ results }: ReportContext): Section | null {
  const { harmonised, plan } = results;
  if (harmonised === null) return null;
  return section("sites", harmonisedBody(harmonised, plan.compare.adjust_for));
}

/** The same, whether from rows or from summaries of sites. */
export function harmonisedBody(
  { schedules, losses, stated, fields }: Harmonised,
  heldEqual: readonly string[],
): Safe {
  return html`<p>Sites can differ in what they find because they differ in how they look. What differs in how they look comes first.</p>
${heading("When people were seen, and whom the sites lost")}${bullets([...scheduleSentences(schedules), ...lossSentencesOfSites(losses)])}${behind("Schedules and losses, site by site", html`${schedulesTable(schedules)}${lossesTable(losses)}`)}${heading("What the sites mean")}${bullets(statedSentences(stated))}${behind("What each site states", statedTable(stated))}${heading("What the sites record")}${bullets(leftOutSentences(fields, heldEqual))}${behind("Field by field, what each site records", fieldsTable(fields))}`;
}

const numbers = (head: string): Column => ({ head, align: "numbers" });
const none = "\u2013";
const plain = (value: number | null): string => (value === null ? none : plainNumber(value, 1));
const shareOrNone = (value: number | null): string => (value === null ? none : share(value));

const schedulesTable = ({ sites }: Harmonised["schedules"]): Safe =>
  table({
    caption: "When the sites saw their people, and how exactly they know the returns",
    columns: [
      { head: "Site" },
      numbers("Injuries with a contact"),
      numbers("Contacts an injury, median"),
      numbers("Days between contacts, median (quartiles)"),
      numbers("Longest time without a contact, median days"),
      numbers("Returns"),
      numbers("Span of a return, median days"),
      numbers("Known to more than 14 days only"),
    ],
    groups: [
      {
        heading: null,
        rows: sites.map(
          (site): Row => [
            site.site,
            site.seen,
            plain(site.contacts.median),
            site.days_between.median === null
              ? none
              : `${plain(site.days_between.median)} (${plain(site.days_between.lower_quartile)} to ${plain(site.days_between.upper_quartile)})`,
            plain(site.longest_gap.median),
            site.returns,
            plain(site.span_days.median),
            shareOrNone(site.wide_share),
          ],
        ),
      },
    ],
    note: "Contacts: visits and the first visit, each day once. A return known to the day has a span of 0. Schedules are called unlike where medians of days between contacts differ by more than half as much again, median spans of a return by more than 14 days, or shares known to more than 14 days only by more than 30 percentage points (our choice).",
  });

const lossesTable = ({ sites, horizon_days }: Harmonised["losses"]): Safe =>
  table({
    caption: `Lost to follow-up before day ${horizon_days}, by site`,
    columns: [
      { head: "Site" },
      numbers("Injuries"),
      numbers("Lost"),
      numbers("Share lost"),
      numbers("Completeness"),
    ],
    groups: [
      {
        heading: null,
        rows: sites.map(
          ({ site, analysed, lost, share: part, completeness }): Row => [
            site,
            analysed,
            lost,
            shareOrNone(part),
            shareOrNone(completeness),
          ],
        ),
      },
    ],
    note: "Lost: last seen before that day and before the data of the site were closed, without any end. Completeness: observed over possible time. Losses are called unlike where shares differ by more than 10 percentage points (our choice).",
  });

/** What is stated, and by whom: texts that mean the same stand once. */
function statedTable(stated: Harmonised["stated"]): Safe {
  const told = stated.filter(({ verdict }) => verdict !== "not_stated");
  const silent = stated.filter(({ verdict }) => verdict === "not_stated");
  return table({
    caption: "What the sites state of themselves",
    columns: [{ head: "Stated" }, { head: "Sites" }],
    groups: told.map((one) => ({ heading: statedHeading(one), rows: statements(one) })),
    note: `In the words of the sites.${silent.length === 0 ? "" : ` Not stated by any site: ${silent.map(({ field }) => labelOf(field)).join(", ")}.`}`,
  });
}

function statements({ sites }: Harmonised["stated"][number]): Row[] {
  const texts = [...new Set(sites.flatMap(({ values }) => values))];
  const naming = (isMeant: (values: readonly string[]) => boolean) =>
    sites.filter(({ values }) => isMeant(values)).map(({ site }) => site);
  const silent = naming((values) => values.length === 0);
  return [
    ...texts.map((text): Row => [labelOf(text), naming((values) => values.includes(text)).join(", ")]),
    ...(silent.length === 0 ? [] : [["not stated", silent.join(", ")]]),
  ];
}

const fieldsTable = (fields: Harmonised["fields"]): Safe =>
  table({
    caption: "The fields that the question uses, by site",
    columns: [{ head: "Site" }, numbers("Known"), numbers("Of"), numbers("Share"), { head: "Distribution" }],
    groups: fields.map((field) => ({
      heading: fieldHeading(field),
      rows: field.sites.map(
        (site): Row => [site.site, site.known, site.n, shareOrNone(site.share), distributionWords(site)],
      ),
    })),
    note: "Words: how often each occurs. Numbers: median (lower to upper quartile). A blank date of a return says that it was not reached yet, and is no gap.",
  });
