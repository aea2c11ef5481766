import type { Results } from "../../study/results.js";
import { type ReportingItem, reportingItems } from "../../words/reporting-items.js";
import { type SectionId, sectionTitles } from "../../words/sections.js";
import { sources } from "../../words/sources.js";
import { type Section, section } from "../context.js";
import { html, type Safe } from "../escape.js";
import { behind } from "../layout/blocks.js";
import { type Row, table } from "../layout/table.js";

/** Where nothing in the report answers an item. */
const notAnswered = "Not answered by this report: the author must add it.";

/** Which items of the reporting guideline this report answers, where, and which are left to its authors. */
export function checklistSection(results: Results, present: readonly SectionId[]): Section {
  return section(
    "checklist",
    html`<p>The items of the STROBE statement for cohort studies, in our words (${sources.reporting}). A section is named only where it answers; what software cannot know is left to the authors.</p>
${behind(
  "Item by item",
  table({
    caption: "Where each item is answered",
    columns: [{ head: "Item" }, { head: "Asks for" }, { head: "Answered in" }, { head: "For the authors" }],
    groups: [{ heading: null, rows: reportingItems.map((item) => itemRow(item, { results, present })) }],
  }),
)}`,
  );
}

function itemRow(
  { number, item, places, byYou }: ReportingItem,
  { results, present }: { readonly results: Results; readonly present: readonly SectionId[] },
): Row {
  const links = places.flatMap(({ section: id, says }): Safe[] => {
    const words = says === undefined ? "" : says(results);
    if (words === null || !present.includes(id)) return [];
    return [html`<a href="#${id}">${sectionTitles[id]}</a>${words === "" ? null : ` (${words})`}`];
  });
  const answered = links.map((link, i) => html`${i > 0 ? "; " : null}${link}`);
  return [number, item, answered.length > 0 ? answered : notAnswered, byYou ?? "\u2013"];
}
