import type { AboutDeposit, Resource } from "../../exchange/index.js";
import type { ShareSettings } from "../../privacy/index.js";
import { oneLine } from "../../schema/index.js";

/** The page that a reader of a deposit opens first. */
export function readmeText({
  about,
  resources,
  settings,
  version,
}: {
  readonly about: AboutDeposit;
  readonly resources: readonly Resource[];
  readonly settings: ShareSettings;
  readonly version: string;
}): string {
  const calendar =
    settings.dates === "as-they-are"
      ? "The dates are the real ones."
      : "The dates are not real: each person has a separate calendar. STARTDT and ADT are dates on it. " +
        `For people who were still followed (CNSDTDSC: last contact or close of the data), ADT is a day drawn at random from the last ${settings.closingWindow} days before the closing date; nothing later is included.`;
  return `# ${inMarkdown(about.title)}

${about.description}

| file | what it contains |
| --- | --- |
${resources.map(({ path, title }) => `| ${path} | ${title} |`).join("\n")}
| datapackage.json | every column: type, unit, terms, limits (Frictionless Data Package 1, Table Schema) |
| csv-metadata.json | the same for readers of CSV on the Web (W3C) |
| disclosure.html | what was removed, what is left, and who could still be recognised |

CSV files are UTF-8, with commas, a header line and LF line ends; a blank cell means that the value is not known. A cell
that a spreadsheet would read as a formula begins with an apostrophe.

## The time-to-event dataset

It follows the structure of CDISC's ADaM Basic Data Structure for Time-to-Event Analyses 1.0, as CSV; it does not claim
to conform to the requirements of a submission. CNSR is 0 for the event. AVAL is ADT minus STARTDT in days, with nothing
added: day 0 is the origin. One subject may have several injuries: the key is USUBJID, INJID, PARAMCD, and the injuries of
one subject are not independent. Treatments were observed, not allocated: TRTP repeats TRTA. Ends that compete with a
return have their own codes (2 to 5); an analysis that treats them as censoring does not estimate the share of people who
have returned. AVALLO and AVALHI give the days between which the return lies. ${calendar}

## Caution

General information about groups of past patients: not a diagnosis, not treatment advice, not a forecast for one finger. A licensed
clinician decides; local codes, ethics approval and data-protection rules prevail. Do not try to recognise anybody. There is
no licence in this folder: whoever publishes it has to choose one, and must be allowed to publish it.

Made by pulley-outcomes ${version}.
`;
}

/** A text from outside as Markdown: on one line, and nothing in it is markup. */
const inMarkdown = (text: string): string => oneLine(text).replaceAll(/[\\`*_[\]<>#|&~!]/g, "\\$&");
