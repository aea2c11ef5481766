import type { Disclosure } from "../../privacy/index.js";
import { html, type Safe } from "../../report/escape.js";
import { bullets, heading } from "../../report/layout/blocks.js";
import { type Row, table } from "../../report/layout/table.js";
import { labelOf } from "../../schema/index.js";
import { capital, counted } from "../../words/phrases.js";
import { datesKeep } from "./disclosure-words.js";

/** What a copy does not hold so that no day can be reckoned from the close, and that a report on it differs by that. */
export function daysProtect({ settings, injury_days }: Disclosure): string {
  if (settings.dates === "as-they-are") {
    return "The day of every injury is in it, as was asked.";
  }
  const { fewest, window, people_in_reach_of_close, injuries_after_their_record } = injury_days;
  return `Somebody who knows when the data were closed, when the site's first patient was seen, and its weekdays or fixed days of the month, is left with at least ${counted(fewest ?? 0, "possible day", "possible days")} for the first injury of any person. For that each record ends on a day of its own within ${window} days before the close, as if the data had been closed on it: ${counted(people_in_reach_of_close, "person was", "people were")} followed until then, and ${counted(injuries_after_their_record, "injury", "injuries")} came later. A report on the copy is a report on these shorter records; everything else in it is the same but for dates known to the month and contacts that are told to the week.`;
}

/** What the dates of the copy still tell, and what it cost that they tell no more. */
export function whatDatesTell(disclosure: Disclosure): Safe {
  const { settings } = disclosure;
  return html`${heading("What this way of writing dates takes away")}<p>${datesKeep[settings.dates].takes}</p>
${settings.dates === "as-they-are" ? null : html`${possibleDays(disclosure)}${whatItCost(disclosure)}`}${heading("What it does not take away")}${bullets([...datesKeep[settings.dates].leaves])}`;
}

function possibleDays({ injury_days }: Disclosure): Safe {
  const { window, people } = injury_days;
  const exact = people[0]?.people ?? 0;
  return html`${heading("What somebody could reckon who knows the close and the calendar")}<p>Somebody who is still followed has the closing date as last contact, and that date is often known: without more, the day of the injury would follow to the day. So each record ends between 0 and ${window - 1} days before the close of its site, by a number drawn with the key. Counted here is what is left to somebody who knows when the first and the last patients of a site were seen and on which weekdays, or which of them in the month, it is open: exact for ${counted(exact, "person", "people")}.</p>
${table({
  caption: "People by the number of days possible for their first injury",
  columns: [{ head: "Possible days" }, { head: "People", align: "numbers" }],
  groups: [
    {
      heading: null,
      rows: people.map(({ from, to, people: n }): Row => [daysInWords(from, to), n]),
    },
  ],
  note: "Where the weekday can be told from the days of contact, a seventh of the days is counted; where a site has its days by a rule such as the first Tuesday of a month, only days that fit it.",
})}`;
}

const daysInWords = (from: number, to: number | null): string =>
  to === null ? `${from} and more` : from === to ? `${from}` : `${from} to ${to}`;

function whatItCost({ injury_days, settings }: Disclosure): Safe {
  const { days_followed, people_to_the_week, people_with_months, injuries_after_their_record } = injury_days;
  const lost = days_followed.before - days_followed.in_copy;
  const share = days_followed.before === 0 ? 0 : (100 * lost) / days_followed.before;
  return html`${heading("What that cost")}${bullets([
    `Follow-up: ${lost} of ${days_followed.before} days from injury to last contact are not told (${share.toFixed(1)} %), and ${counted(injuries_after_their_record, "injury", "injuries")} of the last days are not in the copy. The day on which a record ends has nothing to do with its course, so that this makes intervals a little wider and no estimate biased.`,
    ...injury_days.returns_after_their_record
      .filter(({ before }) => before > 0)
      .map(
        ({ milestone, before, in_copy }) =>
          `${capital(labelOf(milestone))}: ${in_copy} of ${before} returns with a day or a latest day are told.`,
      ),
    `${counted(people_to_the_week, "person has", "people have")} visits, scans, treatments and last contact told to the week only (three days either way), since the close or the first patient is near. A return that was dated on a day of contact is then known to the week; others stay to the day.`,
    `${counted(people_with_months, "person has a date", "people have dates")} known to the month. Each is told as a span of 61 days that holds the month, its middle at most 15 days away, so that neither the length of the month nor where it begins tells the day of the year.`,
    ...(settings.closingWindow === 28
      ? []
      : [`The window was chosen as ${settings.closingWindow} days; 28 is the usual one.`]),
  ])}`;
}
