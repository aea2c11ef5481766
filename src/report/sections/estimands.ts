import { estimandWords } from "../../words/estimands.js";
import { type ReportContext, type Section, section } from "../context.js";
import { html } from "../escape.js";
import { behind } from "../layout/blocks.js";
import { estimandAnchor } from "../layout/estimand-mark.js";

/** What each figure is a figure of, in a line each: the marks beside the figures lead here. Null where there are none. */
export function estimandsSection({ results }: ReportContext): Section | null {
  const { estimands } = results;
  if (estimands.length === 0) return null;
  return section(
    "estimands",
    html`<p>The numbers in square brackets beside the figures lead here.</p>
${behind(
  "Figure by figure",
  html`<p>Of whom a figure speaks, how they were treated, from when they are counted, what is made of those who gave up or came to another end, what of those lost, and what is adjusted for.</p>
<ol class="figures-of">
${estimands.map((one, i) => html`<li id="${estimandAnchor(i + 1)}">${estimandWords(one, results)}</li>\n`)}</ol>
`,
)}`,
  );
}
