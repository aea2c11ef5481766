import { type ReportingItem, reportingItems } from "../../words/reporting-items.js";
import { type SectionId, sectionTitles } from "../../words/sections.js";
import { sources } from "../../words/sources.js";
import { type Section, section } from "../context.js";
import { html } from "../escape.js";
import { type Row, table } from "../layout/table.js";

/** Which items of the reporting guideline this report answers, and which are left to its authors. */
export function checklistSection(present: readonly SectionId[]): Section {
  return section(
    "checklist",
    html`<p>The 22 items of the STROBE statement for cohort studies, in our words (${sources.reporting}). What software cannot know is left to the authors.</p>
${table({
  caption: "Where each item is answered",
  columns: [{ head: "Item" }, { head: "Asks for" }, { head: "Answered in" }, { head: "For the authors" }],
  groups: [{ heading: null, rows: reportingItems.map((item, i) => itemRow(item, { index: i, present })) }],
})}`,
  );
}

function itemRow(
  { item, answeredIn, byYou }: ReportingItem,
  { index, present }: { index: number; present: readonly SectionId[] },
): Row {
  const links = answeredIn
    .filter((id) => present.includes(id))
    .map((id, i) => html`${i > 0 ? "; " : null}<a href="#${id}">${sectionTitles[id]}</a>`);
  return [index + 1, item, links.length > 0 ? links : "\u2013", byYou ?? "\u2013"];
}
