import type { Disclosure } from "../../privacy/index.js";
import { fieldLabel } from "../../privacy/index.js";
import { html, type Safe } from "../../report/escape.js";
import { bullets } from "../../report/layout/blocks.js";
import { type PagePart, pageOf } from "../../report/layout/shell.js";
import { type Row, table } from "../../report/layout/table.js";
import { labelOf } from "../../schema/index.js";
import { counted, listed } from "../../words/phrases.js";
import { beforeItLeaves, datesProtect, stillThere } from "./disclosure-words.js";
import { daysProtect, whatDatesTell } from "./told-days.js";

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
    lead: `What was taken out, what is left, and who could still be recognised. ${counted(injuriesIn(disclosure), "injury", "injuries")}, ${counted(disclosure.people, "person", "people")}.`,
    synthetic: page.synthetic,
    skip: { to: "short", words: "To the short of it" },
    parts: [
      part("short", "The short of it", shortOfIt(page)),
      part("people", "Who could be recognised", whoCouldBe(disclosure)),
      part("dates", "What the dates still tell", whatDatesTell(disclosure)),
      part("texts", "What stood in free text", whatTextsHeld(disclosure)),
      part("left", "What still identifies", html`${bullets(stillThere(disclosure))}`),
      part("before", "Before it leaves", html`${bullets(beforeItLeaves)}`),
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
<p>Nobody is named in this copy. ${counted(by("left-out"), "column is", "columns are")} left out, among them all free text; ids are replaced by keyed names (${counted(by("renamed"), "column", "columns")}); ${datesProtect[disclosure.settings.dates]}</p>
<p>That does not make it anonymous. ${rareSentence(rare, injuriesIn(disclosure), combinations.k)} Counted were ${fields}. Somebody who knows more than that about a person can find more.</p>
<p>Whether it may leave is not for a program to say: law, consent, ethics approval and the rules of the site decide.</p>
</div>
<p>${daysProtect(disclosure)}</p>
${lost.length === 0 ? html`<p>Everything that the study compares by or adjusts for stands in the copy as it was. Rows in another order can change the last digit of a figure, and a p-value that comes from dealing the groups out at random a little more; --keep-order keeps both.</p>\n` : html`<p>The study compares by or adjusts for what the copy no longer holds as it was, so that a report on the copy will differ there: ${listed(lost)}.</p>\n`}`;
}

function rareSentence(rare: number, injuries: number, k: number): string {
  if (rare === 0) {
    return `Every combination that was counted is shared by at least ${k} people, which is no guarantee.`;
  }
  return `${rare} of ${counted(injuries, "injury", "injuries")} ${rare === 1 ? "has" : "have"} a combination that fewer than ${k} people share: there a person might be picked out.`;
}

function whoCouldBe(disclosure: Disclosure): Safe {
  const { combinations, one_outcome, rare_values } = disclosure;
  const { k } = combinations;
  return html`<p>Rows that are alike in ${listed(combinations.fields.map(fieldLabel))} are one class. A class is counted by its people, not by its rows: several injuries of one person hide nobody. Fewer than ${k} people in a class: its people stand out (k-anonymity with k = ${k}; Sweeney 2002).</p>
${sizesTable(disclosure)}${lessenedWords(disclosure)}${readBackTable(disclosure)}${rareRowsWords(combinations.rare_rows)}${
  one_outcome.classes === 0
    ? null
    : html`<p>In ${counted(one_outcome.classes, "class", "classes")} of at least ${k} people (${counted(one_outcome.people, "person", "people")}) all returned by what is known, or none did. Whoever knows that somebody is among them knows that too, however many they are (Machanavajjhala and others 2007).</p>\n`
}${rare_values.length === 0 ? null : rareValuesTable(disclosure)}`;
}

function sizesTable({ combinations }: Disclosure): Safe {
  const rows = combinations.in_copy.map((sizes, place): Row => {
    const before = combinations.before[place];
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
    note: "Before: after ids, dates, ages and texts were seen to, and before anything was done about rare combinations.",
  });
}

function lessenedWords({ combinations, settings }: Disclosure): Safe {
  const { made_coarser, cells_left_out, injuries_left_out } = combinations;
  if (settings.rare === "list") {
    return html`<p>Rare combinations were listed and not changed.</p>\n`;
  }
  const done =
    settings.rare === "generalise"
      ? made_coarser
      : [
          ...cells_left_out.map(
            ({ field, cells }) => `${field} left out of ${counted(cells, "row", "rows")}`,
          ),
          ...(injuries_left_out === 0
            ? []
            : [
                `${counted(injuries_left_out, "injury", "injuries")} left out whole, where that was not enough`,
              ]),
        ];
  if (done.length === 0) return html`<p>No combination was rare; nothing was changed for that reason.</p>\n`;
  return html`<p>${settings.rare === "generalise" ? "Whole columns were made coarser, one step after another, until no combination was rare or no step was left:" : "Single cells were left out, at as little loss as a greedy search finds, those that the study needs last; what belongs to the person was left out of all rows of the person:"}</p>
${bullets(done)}`;
}

function readBackTable({ read_back }: Disclosure): Safe | null {
  if (read_back.length === 0) return null;
  const known = read_back.filter((each) => each.read_back > each.allowed).map(({ field }) => field);
  return html`<p>A cell that is left out may be read from what stands beside it: a site from the codes of its raters or the weeks of its visits, a grade from pulleys and operations. So each was read back by the likeliest value after all other columns, as learned from all other people, and the columns that told most were left out beside it until the rest told no more than the commonest value does, by one standard deviation of such a guess. ${
    known.length === 0
      ? "That was reached everywhere."
      : `For ${listed(known)} it was not, since what is left is what the study times or compares: these values count as known in the classes above.`
  }</p>
${table({
  caption: "What can be read back",
  columns: [
    { head: "Left out or made coarser" },
    { head: "Cells", align: "numbers" },
    { head: "Right by the commonest value", align: "numbers" },
    { head: "Read back before", align: "numbers" },
    { head: "Read back in the copy", align: "numbers" },
    { head: "Left out or made coarser beside them" },
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
  return html`<p>Rows of the injuries in the copy that stand out, as a spreadsheet numbers them: ${shown.join(", ")}${more > 0 ? ` and ${more} more (all in disclosure.json)` : ""}.</p>\n`;
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
    note: "These columns were not among those counted. A high climbing level or a rare mechanism can be known to many.",
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
    note: "Columns of a file that the toolkit does not know are never read, so that none of them can be in the copy. Rows that were set aside are not in it either. disclosure.json has the cells column by column.",
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
    return html`<p>Nothing of the usual forms was found in free text: no addresses, telephone or record numbers, dates, titles with names. Only forms are recognised, not names as such. No free text is in the copy.</p>\n`;
  }
  return html`<p>No free text is in the copy. This is what it seems to hold in the tables at the site, by its form; the words themselves are not repeated.</p>
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
  return html`<p>Made by pulley-outcomes ${version}. The same tables, settings and key give the same bytes. The key lies with the site and is not part of the copy.</p>
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
            ? `shifted, at most ${settings.shiftDays + settings.closingWindow} days`
            : settings.dates,
        ],
        ["days before the close on one of which each record ends", `${settings.closingWindow}`],
        ["bands of age and of years of climbing", `${settings.bandYears} years`],
        ["ages together from", `${settings.oldest}`],
        ["body mass and height", settings.body],
        ["k", `${settings.k}`],
        ["columns counted", combinations.fields.map(fieldLabel).join(", ")],
        ["rare combinations", settings.rare],
        ["order of rows", settings.order],
      ],
    },
  ],
})}`;
}
