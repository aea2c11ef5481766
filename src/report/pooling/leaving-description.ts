import type { SiteSummary } from "../../pooling/summary/index.js";
import { labelOf } from "../../schema/labels.js";
import { plainNumber, share } from "../../words/numbers.js";
import { capital, listed } from "../../words/phrases.js";
import { codeWords, exclusionWords, sayKnown } from "../../words/terms.js";
import { type Content, html, type Safe } from "../escape.js";
import { type Row, table } from "../layout/table.js";

type Description = SiteSummary["description"];

/** What a site says of itself, and how its records are filled. */
export const descriptionTables = ({ description }: SiteSummary): Safe =>
  html`${statedTable(description)}${fieldsTable(description)}${followTable(description)}`;

const statedTable = ({ stated }: Description): Safe =>
  table({
    caption: "What the site states of itself, word for word",
    columns: [{ head: "Column of the table of sites" }, { head: "What it says" }],
    groups: [
      {
        heading: null,
        rows: stated.map(
          ({ field, values }): Row => [
            capital(labelOf(field)),
            values.length === 0 ? "not stated" : values.join("; "),
          ],
        ),
      },
    ],
  });

const fieldsTable = ({ fields }: Description): Safe =>
  table({
    caption: "How the fields are filled that the question uses",
    columns: [
      { head: "Field" },
      { head: "Injuries", align: "numbers" },
      { head: "Recorded", align: "numbers" },
      { head: "Values" },
    ],
    groups: [
      {
        heading: null,
        rows: fields.map(
          (field): Row => [capital(labelOf(field.field)), field.n, field.known, valuesOf(field)],
        ),
      },
    ],
  });

function valuesOf({ counts, numbers }: Description["fields"][number]): string {
  if (counts !== null)
    return counts
      .filter(({ n }) => n !== 0)
      .map(({ code, n }) => `${labelOf(code)}: ${n}`)
      .join(", ");
  if (numbers === null) return "";
  return numbersOf(numbers);
}

function numbersOf({
  mean,
  standard_deviation,
  median,
  lower_quartile,
  upper_quartile,
}: Description["schedule"]["contacts"]): string {
  const one = (name: string, value: number | null) =>
    value === null ? [] : [`${name} ${plainNumber(value, 1)}`];
  return listed([
    ...one("mean", mean),
    ...one("standard deviation", standard_deviation),
    ...one("median", median),
    ...one("lower quartile", lower_quartile),
    ...one("upper quartile", upper_quartile),
  ]);
}

function followTable({ schedule, returns, ends, loss, follow_up_days, imaging }: Description): Safe {
  const rows: (readonly [string, Content])[] = [
    ["Injuries with a contact after the first day", schedule.seen],
    ["Contacts an injury", numbersOf(schedule.contacts)],
    ["Days between contacts", numbersOf(schedule.days_between)],
    ["Longest time between two contacts, days", numbersOf(schedule.longest_gap)],
    ["Injuries that returned", returns.n],
    ...returns.known.map(({ code, n }) => [`Return ${sayKnown(code)}`, n] as const),
    ["Returns known to a span of more than 14 days", returns.wide],
    ["Width of the spans of returns, days", numbersOf(returns.span_days)],
    ...ends.map(({ code, n }) => [`Record ended with: ${codeWords(code)}`, n] as const),
    ["Lost before the horizon", loss.lost],
    ["Completeness of follow-up", loss.completeness === null ? "left out" : share(loss.completeness)],
    [
      "Median follow-up, days",
      follow_up_days.value === null ? "left out" : plainNumber(follow_up_days.value, 0),
    ],
    ...(imaging === null
      ? []
      : [
          ["Distance readings", imaging.readings] as const,
          ["Injuries with a reading", imaging.injuries] as const,
          ["Different raters", imaging.raters === null ? "none named" : imaging.raters] as const,
        ]),
  ];
  return table({
    caption: "How people were seen and followed",
    columns: [{ head: "What" }, { head: "How many or how long", align: "numbers" }],
    groups: [{ heading: null, rows }],
  });
}

/** What became of the rows, and the queries about them by kind. */
export function qualityTables({ quality }: SiteSummary): Safe {
  const { tables, queries, analysis } = quality;
  const rows: Row[] = [
    ["Injuries used", analysis.injuries],
    ["Injuries analysed", analysis.analysed],
    ["People among these", analysis.persons],
    ...analysis.excluded.map(({ code, n }): Row => [`Not analysed: ${exclusionWords[code]}`, n]),
  ];
  return html`${table({
    caption: "Injuries",
    columns: [{ head: "What" }, { head: "Number", align: "numbers" }],
    groups: [{ heading: null, rows }],
  })}${
    tables === null
      ? html`<p>The tables hold other sites as well, so that their rows and queries are not counted here.</p>\n`
      : html`${table({
          caption: "Rows of the tables",
          columns: [
            { head: "Table" },
            { head: "Read", align: "numbers" },
            { head: "Used", align: "numbers" },
            { head: "Set aside", align: "numbers" },
          ],
          groups: [
            {
              heading: null,
              rows: tables.map((one): Row => [labelOf(one.table), one.read, one.used, one.set_aside]),
            },
          ],
        })}${table({
          caption: "Data queries by kind",
          columns: [{ head: "Query" }, { head: "Number", align: "numbers" }],
          groups: [
            {
              heading: null,
              rows: (queries ?? []).map(({ code, n }): Row => [codeWords(code), n]),
            },
          ],
        })}`
  }`;
}
