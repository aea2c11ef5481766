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
      ? "Dates are the real ones."
      : "Dates are not real: each person has a calendar of their own. STARTDT and ADT are days on it. " +
        `ADT of those still followed (CNSDTDSC: last contact or close of the data) is a day of their own, drawn from the last ${settings.closingWindow} days before the close; what came later is not told.`;
  return `# ${inMarkdown(about.title)}

${about.description}

| file | what it holds |
| --- | --- |
${resources.map(({ path, title }) => `| ${path} | ${title} |`).join("\n")}
| datapackage.json | every column: type, unit, terms, limits (Frictionless Data Package 1, Table Schema) |
| csv-metadata.json | the same for readers of CSV on the Web (W3C) |
| disclosure.html | what was taken out, what is left, who could still be recognised |

CSV is UTF-8 with commas, a header line and LF; a blank cell says that nothing is known. A cell that a spreadsheet would
take for a formula begins with an apostrophe.

## The time-to-event dataset

It follows the structure of CDISC's ADaM Basic Data Structure for Time-to-Event Analyses 1.0, as CSV and without a claim to
conform to a submission. CNSR is 0 for the event. AVAL is ADT minus STARTDT in days, with nothing added: day 0 is the
origin. One subject may have several injuries: the key is USUBJID, INJID, PARAMCD, and injuries of one subject are not
independent. Treatments were observed, not allotted: TRTP repeats TRTA. Ends that compete with a return have codes of
their own (2 to 5); whoever treats them as censoring estimates something else than a share of people back. AVALLO and AVALHI give
the days between which the return lies. ${calendar}

## Caution

General information about groups of past patients: not a diagnosis, not treatment advice, not a forecast for one finger. A licensed
clinician decides; local codes, ethics approval and data-protection rules prevail. Do not try to recognise anybody. There is
no licence in this folder: whoever publishes it has to choose one and be allowed to.

Made by pulley-outcomes ${version}.
`;
}

/** A text from outside as Markdown: on one line, and nothing in it is markup. */
const inMarkdown = (text: string): string => oneLine(text).replaceAll(/[\\`*_[\]<>#|&~!]/g, "\\$&");
