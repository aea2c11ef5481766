import type { Disclosure } from "../../privacy/index.js";
import { html, type Safe } from "../../report/escape.js";
import { bullets, heading } from "../../report/layout/blocks.js";
import { type Row, table } from "../../report/layout/table.js";
import { counted } from "../../schema/counted.js";
import { labelOf } from "../../schema/index.js";
import { capital } from "../../words/phrases.js";
import { datesKeep } from "./disclosure-words.js";

/** What a copy does not hold so that no day can be reckoned from the close, and that a report on it differs by that. */
export function daysProtect({ settings, injury_days }: Disclosure): string {
  if (settings.dates === "as-they-are") {
    return "The copy contains the day of every injury, as requested.";
  }
  const { fewest, window, people_in_reach_of_close, injuries_after_their_record } = injury_days;
  return `For somebody who knows the closing date, the day on which the site's first patient was seen, and the weekdays or the days of the month on which the site is open, at least ${counted(fewest ?? 0, "day remains", "days remain")} possible for the first injury of any person. To achieve this, each record ends on a randomly drawn day within ${window} days before the closing date, as if the data had been closed on that day: ${counted(people_in_reach_of_close, "person was", "people were")} followed until then, and ${counted(injuries_after_their_record, "injury", "injuries")} occurred later. A report on the copy is a report on these shorter records. Everything else in it is the same, except for dates known to the month and contacts that are given to the week.`;
}

/** What the dates of the copy still tell, and what it cost that they tell no more. */
export function whatDatesDisclose(disclosure: Disclosure): Safe {
  const { settings } = disclosure;
  return html`${heading("What this way of writing dates removes")}<p>${datesKeep[settings.dates].takes}</p>
${settings.dates === "as-they-are" ? null : html`${possibleDays(disclosure)}${whatItCost(disclosure)}`}${heading("What it does not remove")}${bullets([...datesKeep[settings.dates].leaves])}`;
}

function possibleDays({ injury_days }: Disclosure): Safe {
  const { window, people } = injury_days;
  const exact = people[0]?.people ?? 0;
  return html`${heading("What somebody could work out who knows the closing date and the clinic days")}<p>For people who are still followed, the last contact is the closing date, which is often known; without protection, the exact day of the injury would follow from it. Therefore each record ends between 0 and ${window - 1} days before the closing date of its site, by a number drawn with the key. The table counts the days that remain possible for somebody who knows when the first and the last patients of a site were seen, and on which weekdays, or on which of them in the month, it is open. The exact day follows for ${counted(exact, "person", "people")}.</p>
${table({
  caption: "People by the number of possible days of their first injury",
  columns: [{ head: "Possible days" }, { head: "People", align: "numbers" }],
  groups: [
    {
      heading: null,
      rows: people.map(({ from, to, people: n }): Row => [daysInWords(from, to), n]),
    },
  ],
  note: "If the days of contact reveal the weekday, a seventh of the days is counted. If a site is open by a rule such as the first Tuesday of a month, only the days that fit the rule are counted.",
})}`;
}

const daysInWords = (from: number, to: number | null): string =>
  to === null ? `${from} and more` : from === to ? `${from}` : `${from} to ${to}`;

function whatItCost({ injury_days, settings }: Disclosure): Safe {
  const { days_followed, people_to_the_week, people_with_months, injuries_after_their_record } = injury_days;
  const lost = days_followed.before - days_followed.in_copy;
  const share = days_followed.before === 0 ? 0 : (100 * lost) / days_followed.before;
  return html`${heading("What this protection costs")}${bullets([
    `Follow-up: ${lost} of ${counted(days_followed.before, "day", "days")} from injury to last contact are not included (${share.toFixed(1)} %), and ${counted(injuries_after_their_record, "injury", "injuries")} of the last days ${injuries_after_their_record === 1 ? "is" : "are"} not in the copy. The day on which a record ends is independent of its course, so that intervals become a little wider but no estimate is biased.`,
    ...injury_days.returns_after_their_record
      .filter(({ before }) => before > 0)
      .map(
        ({ milestone, before, in_copy }) =>
          `${capital(labelOf(milestone))}: ${in_copy} of ${counted(before, "return", "returns")} with a day or a latest day ${before === 1 ? "is" : "are"} in the copy.`,
      ),
    `${counted(people_to_the_week, "person has", "people have")} visits, scans, treatments and last contact given to the week only (three days either way), because they are close to the closing date or to the first patient. A return dated on a day of contact is then known to the week; others remain known to the day.`,
    `${counted(people_with_months, "person has a date", "people have dates")} known to the month. Each is given as a span of 61 days that contains the month, with its middle at most 15 days away, so that neither the length of the month nor its beginning reveals the day of the year.`,
    ...(settings.closingWindow === 28
      ? []
      : [`The window is ${settings.closingWindow} days, as requested; the usual window is 28 days.`]),
  ])}`;
}
