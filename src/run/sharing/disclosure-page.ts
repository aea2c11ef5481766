import type { Disclosure } from "../../privacy/index.js";
import { fieldLabel } from "../../privacy/index.js";
import { html, type Safe } from "../../report/escape.js";
import { bullets } from "../../report/layout/blocks.js";
import { type PagePart, pageOf } from "../../report/layout/shell.js";
import { type Row, table } from "../../report/layout/table.js";
import { counted } from "../../schema/counted.js";
import { labelOf } from "../../schema/index.js";
import { listed } from "../../words/phrases.js";
import { daysProtect, whatDatesDisclose } from "./disclosed-days.js";
import { beforeItLeaves, datesProtect, stillIdentifying } from "./disclosure-words.js";

/** What the page is made from besides the disclosure. */
export interface DisclosurePage {
  readonly disclosure: Disclosure;
  /** Title of the copy's study. */
  readonly title: string;
  readonly synthetic: boolean;
  /** What the study asks for and the copy no longer holds as it was. */
  readonly lost: readonly string[];
  readonly version: string;
  readonly fontCss: string;
  readonly sha256: (text: string) => string;
}

/** The disclosure report: what was taken out, what is left, and who could still be recognised, in plain words. */
export function disclosurePage(page: DisclosurePage): Promise<string> {
  const { disclosure } = page;
  return pageOf({
    title: page.title,
    kind: "Disclosure report of a copy that may leave the site",
    lead: `What was removed, what is left, and who could still be recognised. ${counted(injuriesIn(disclosure), "injury", "injuries")}, ${counted(disclosure.people, "person", "people")}.`,
    synthetic: page.synthetic,
    skip: { to: "short", words: "Skip to the summary" },
    parts: [
      part("short", "Summary", shortOfIt(page)),
      part("people", "Who could be recognised", whoCouldBe(disclosure)),
      part("dates", "What the dates still disclose", whatDatesDisclose(disclosure)),
      part("texts", "What the free text contained", whatTextsHeld(disclosure)),
      part("left", "What still identifies", html`${bullets(stillIdentifying(disclosure))}`),
      part("before", "Before the copy leaves the site", html`${bullets(beforeItLeaves)}`),
      part("done", "What was done, column by column", whatWasDone(disclosure)),
      part("made", "How this copy was made", howMade(page)),
    ],
    fontCss: page.fontCss,
    sha256: page.sha256,
  });
}

const part = (id: string, title: string, body: Safe): PagePart => ({ id, title, body });

const injuriesIn = ({ rows }: Disclosure): number =>
  rows.find((each) => each.table === "injuries")?.in_copy ?? 0;

function shortOfIt({ disclosure, lost }: DisclosurePage): Safe {
  const { combinations, columns } = disclosure;
  const by = (done: string) => columns.filter((column) => column.done === done).length;
  const rare = combinations.rare_rows.length;
  const fields = listed(combinations.fields.map(fieldLabel));
  return html`<div class="plain-words">
<p>Nobody is named in this copy. ${counted(by("left-out"), "column is", "columns are")} left out, including all free text; ids are replaced by keyed names (${counted(by("renamed"), "column", "columns")}); ${datesProtect[disclosure.settings.dates]}</p>
<p>That does not make it anonymous. ${rareSentence(rare, injuriesIn(disclosure), combinations.k)} The values counted were ${fields}. Somebody who knows more than that about a person can find out more.</p>
<p>A program cannot decide whether the copy may leave the site: law, consent, ethics approval and the rules of the site decide.</p>
</div>
<p>${daysProtect(disclosure)}</p>
${lost.length === 0 ? html`<p>Everything that the study compares by or adjusts for is unchanged in the copy. Another order of rows can change the last digit of a figure, and a p-value from randomly permuted groups a little more; --keep-order avoids both.</p>\n` : html`<p>The study compares by or adjusts for values that are no longer the same in the copy, so that a report on the copy will differ: ${listed(lost)}.</p>\n`}`;
}

function rareSentence(rare: number, injuries: number, k: number): string {
  if (rare === 0) {
    return `Every combination of values that was counted is shared by at least ${k} people, but this is no guarantee.`;
  }
  return `${rare} of ${counted(injuries, "injury", "injuries")} ${rare === 1 ? "has" : "have"} a combination of values that fewer than ${k} people share: these people could be singled out.`;
}

function whoCouldBe(disclosure: Disclosure): Safe {
  const { combinations, one_outcome, rare_values } = disclosure;
  const { k } = combinations;
  return html`<p>Rows with the same ${listed(combinations.fields.map(fieldLabel))} form one class. The size of a class is the number of its people, not of its rows, since several injuries of one person protect nobody. People in a class of fewer than ${k} can be singled out (k-anonymity with k = ${k}; Sweeney 2002).</p>
${sizesTable(disclosure)}${lessenedWords(disclosure)}${readBackTable(disclosure)}${rareRowsWords(combinations.rare_rows)}${
  one_outcome.classes === 0
    ? null
    : html`<p>In ${counted(one_outcome.classes, "class", "classes")} of at least ${k} people (${counted(one_outcome.people, "person", "people")}) either everybody is known to have returned, or nobody is. Whoever knows that somebody belongs to such a class also knows that outcome, however large the class is (Machanavajjhala and others 2007).</p>\n`
}${rare_values.length === 0 ? null : rareValuesTable(disclosure)}`;
}

function sizesTable({ combinations }: Disclosure): Safe {
  const rows = combinations.in_copy.map((sizes, i): Row => {
    const before = combinations.before[i];
    const people =
      sizes.to === null
        ? `${sizes.from} and more`
        : sizes.from === sizes.to
          ? `${sizes.from}`
          : `${sizes.from} to ${sizes.to}`;
    return [people, before?.classes ?? 0, before?.rows ?? 0, sizes.classes, sizes.rows];
  });
  return table({
    caption: "Classes by the number of people in them",
    columns: [
      { head: "People in the class" },
      { head: "Classes before", align: "numbers" },
      { head: "Injuries before", align: "numbers" },
      { head: "Classes in the copy", align: "numbers" },
      { head: "Injuries in the copy", align: "numbers" },
    ],
    groups: [{ heading: null, rows }],
    note: "Before: after ids, dates, ages and texts were changed, and before anything was done about rare combinations.",
  });
}

function lessenedWords({ combinations, settings }: Disclosure): Safe {
  const { made_coarser, cells_left_out, injuries_left_out } = combinations;
  if (settings.rare === "list") {
    return html`<p>Rare combinations were listed but not changed.</p>\n`;
  }
  const done =
    settings.rare === "generalise"
      ? made_coarser
      : [
          ...cells_left_out.map(
            ({ field, cells }) => `${field} left out in ${counted(cells, "row", "rows")}`,
          ),
          ...(injuries_left_out === 0
            ? []
            : [
                `${counted(injuries_left_out, "injury", "injuries")} left out completely, because leaving out cells was not enough`,
              ]),
        ];
  if (done.length === 0) return html`<p>No combination was rare; nothing was changed for that reason.</p>\n`;
  return html`<p>${settings.rare === "generalise" ? "Whole columns were made coarser, one step after another, until no combination was rare or no step was left:" : "Single cells were left out, as few as a greedy search finds, and those that the study needs last. Values that belong to the person were left out in all rows of the person:"}</p>
${bullets(done)}`;
}

function readBackTable({ read_back }: Disclosure): Safe | null {
  if (read_back.length === 0) return null;
  const known = read_back.filter((each) => each.read_back > each.allowed).map(({ field }) => field);
  return html`<p>A value that is left out can sometimes be inferred from other columns: a site from the codes of its raters or the weeks of its visits, a grade from pulleys and operations. Therefore each such value was predicted from all other columns, as learned from all other people, and the most revealing columns were left out too, until the prediction was no better than naming the most common value (within one standard deviation of such a guess). ${
    known.length === 0
      ? "This was achieved for every column."
      : `It was not achieved for ${listed(known)}, because the remaining columns are those that the study times or compares: these values count as known in the classes above.`
  }</p>
${table({
  caption: "What can be inferred from other columns",
  columns: [
    { head: "Left out or made coarser" },
    { head: "Cells", align: "numbers" },
    { head: "Right by naming the most common value", align: "numbers" },
    { head: "Inferred before", align: "numbers" },
    { head: "Inferred in the copy", align: "numbers" },
    { head: "Columns left out or made coarser as well" },
  ],
  groups: [
    {
      heading: null,
      rows: read_back.map(
        (each): Row => [
          each.field,
          each.cells,
          each.commonest,
          each.read_back_before,
          each.read_back,
          each.columns.length === 0 ? "nothing" : each.columns.join(", "),
        ],
      ),
    },
  ],
})}`;
}

/** More rows than this are counted, not listed; they stand in disclosure.json. */
const rowsListed = 60;

function rareRowsWords(rare: Disclosure["combinations"]["rare_rows"]): Safe | null {
  if (rare.length === 0) return null;
  const shown = rare.slice(0, rowsListed).map(({ row }) => String(row));
  const more = rare.length - shown.length;
  return html`<p>Rows of the table of injuries in the copy whose person could be singled out, as a spreadsheet numbers them: ${shown.join(", ")}${more > 0 ? ` and ${more} more (all in disclosure.json)` : ""}.</p>\n`;
}

const rareValuesTable = ({ rare_values, combinations }: Disclosure): Safe =>
  table({
    caption: `Other columns with values that fewer than ${combinations.k} people share`,
    columns: [
      { head: "Column" },
      { head: "Such values", align: "numbers" },
      { head: "People who have one", align: "numbers" },
    ],
    groups: [
      {
        heading: null,
        rows: rare_values.map(({ column, values, people }): Row => [labelOf(column), values, people]),
      },
    ],
    note: "These columns were not among those counted. A high climbing level or a rare mechanism may be known to many people.",
  });

function whatWasDone({ columns, rows }: Disclosure): Safe {
  return table({
    caption: "Columns of the copy",
    columns: [
      { head: "What was done" },
      { head: "Columns" },
      { head: "Cells filled before", align: "numbers" },
      { head: "In the copy", align: "numbers" },
    ],
    groups: rows.map(({ table: name, used, in_copy }) => ({
      heading: `${name}: ${counted(used, "row", "rows")} used, ${in_copy} in the copy`,
      rows: rowsByDeed(columns.filter((column) => column.table === name)),
    })),
    note: "Columns that are not part of the toolkit's tables are never read, so that none of them can be in the copy. Rows that were set aside are not in it either. disclosure.json gives the cells column by column.",
  });
}

/** One row for what was done alike, what was left as it was last. */
function rowsByDeed(columns: Disclosure["columns"]): readonly Row[] {
  const deeds = new Map<string, Disclosure["columns"][number][]>();
  for (const column of columns) deeds.set(column.says, [...(deeds.get(column.says) ?? []), column]);
  return [...deeds.values()]
    .sort((one, other) => Number(one[0]?.done === "kept") - Number(other[0]?.done === "kept"))
    .map((alike): Row => {
      const sum = (part: "cells_before" | "cells_in_copy") =>
        alike.reduce((total, column) => total + column[part], 0);
      const names = alike.map(({ column }) => column).join(", ");
      return [alike[0]?.says ?? "", names, sum("cells_before"), sum("cells_in_copy")];
    });
}

function whatTextsHeld({ in_texts }: Disclosure): Safe {
  if (in_texts.length === 0) {
    return html`<p>None of the usual identifying patterns was found in free text: no addresses, telephone or record numbers, dates, or titles with names. Only patterns are recognised, not names as such. The copy contains no free text.</p>\n`;
  }
  return html`<p>The copy contains no free text. The table shows what the free text in the tables at the site seems to contain, judged by its form; the words themselves are not repeated.</p>
${table({
  caption: "Found in free text, which is left out",
  columns: [{ head: "Table and column" }, { head: "Looks like" }, { head: "Texts", align: "numbers" }],
  groups: [
    {
      heading: null,
      rows: in_texts.map(({ table: name, column, kind, texts }): Row => [`${name}, ${column}`, kind, texts]),
    },
  ],
})}`;
}

function howMade({ disclosure, version }: DisclosurePage): Safe {
  const { settings, combinations } = disclosure;
  return html`<p>Made by pulley-outcomes ${version}. The same tables, settings and key give the same bytes. The key stays at the site and is not part of the copy.</p>
${table({
  caption: "Settings",
  columns: [{ head: "Setting" }, { head: "Value" }],
  groups: [
    {
      heading: null,
      rows: [
        [
          "dates",
          settings.dates === "shifted"
            ? `shifted by at most ${settings.shiftDays + settings.closingWindow} days`
            : settings.dates,
        ],
        ["window before the closing date within which each record ends", `${settings.closingWindow} days`],
        ["bands of age and of years of climbing", counted(settings.bandYears, "year", "years")],
        ["ages that form one band", `${settings.oldest} and over`],
        ["body mass and height", settings.body],
        ["people who must share a combination (k)", `${settings.k}`],
        ["columns counted", combinations.fields.map(fieldLabel).join(", ")],
        ["rare combinations", settings.rare],
        ["order of rows", settings.order],
      ],
    },
  ],
})}`;
}
