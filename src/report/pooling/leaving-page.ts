import type { SiteSummary, SummaryFigure } from "../../pooling/summary/index.js";
import { withheldReasons } from "../../pooling/summary/withheld.js";
import { counted } from "../../schema/counted.js";
import { intervalName } from "../../words/estimates.js";
import { capital } from "../../words/phrases.js";
import {
  beforeSummaryLeaves,
  heldBackName,
  whatStays,
  whyNoPerson,
  withheldWords,
} from "../../words/pooling/leaving.js";
import { html, type Safe } from "../escape.js";
import { bullets, caution, heading } from "../layout/blocks.js";
import { type PagePart, type PageParts, pageOf } from "../layout/shell.js";
import { descriptionTables, qualityTables } from "./leaving-description.js";
import { agreedTable, comparisonsTable, endsTable, groupsTable, matrixTables } from "./leaving-figures.js";
import { leavingTable } from "./leaving-table.js";

/** What the page is made from besides the summary. */
export interface LeavingPage extends Pick<PageParts, "fontCss" | "sha256"> {
  readonly summary: SiteSummary;
  /** The file that leaves, and its size. */
  readonly file: { readonly name: string; readonly bytes: number; readonly sha256: string };
}

/** Everything that leaves a site in its summary, in words and figures, what was held back and why: for an ethics board. */
export function leavingPage(page: LeavingPage): Promise<string> {
  const { summary, fontCss, sha256 } = page;
  return pageOf({
    title: `What leaves the site \u201c${summary.site}\u201d`,
    kind: "Summary of a site for a pooled study",
    lead: "Everything in the file that leaves the building, what stays, and why.",
    synthetic: summary.agreed.file.synthetic,
    skip: { to: "short", words: "Skip to the summary" },
    parts: leavingParts(page),
    fontCss,
    sha256,
  });
}

/** The parts of the page, for a door that shows them in a page of its own. */
export const leavingParts = ({
  summary,
  file,
}: Pick<LeavingPage, "summary" | "file">): readonly PagePart[] => [
  part("short", "Summary", shortOfIt({ summary, file })),
  part("why", "Why no person can be recognised", whyPart(summary)),
  part("held-back", "What was held back", heldBackPart(summary)),
  part("figures", "The figures that leave", figuresPart(summary)),
  ...leavingTable(summary),
  part("site", "What the site says of itself and of its records", descriptionTables(summary)),
  part("rows", "What became of the rows", qualityTables(summary)),
  part("asked", "What all sites are asked", agreedTable(summary)),
  part("matrices", "How the figures of a group go together", matrixTables(summary)),
  part("before", "Before the file leaves", html`${bullets(beforeSummaryLeaves)}`),
];

const part = (id: string, title: string, body: Safe): PagePart => ({ id, title, body });

function shortOfIt({ summary, file }: Pick<LeavingPage, "summary" | "file">): Safe {
  const { groups, comparisons, held_back, small_cells, description, risk_sets } = summary;
  const figures = [...groups, ...groups.flatMap(({ other_ends }) => other_ends), ...comparisons].flatMap(
    (each) => each.figures.filter(({ estimate }) => estimate !== null),
  );
  const written = small_cells.choice === "written";
  return html`<div class="plain-words">
<p>One file leaves: ${file.name}, ${counted(file.bytes, "byte", "bytes")}. It holds ${counted(figures.length, "figure", "figures")} about ${counted(groups.length, "group", "groups")} and ${counted(comparisons.length, "comparison", "comparisons")}, each with its error; ${risk_sets?.leaves ? "a table of counts by bins of time; " : ""}a description of the site; and counts of what became of its rows. ${peopleWords(description.persons)}</p>
<p>${
    written
      ? "By the choice of whoever made it, small cells are written: exact counts and figures of single people may be in it."
      : `Nothing in it is about fewer than ${small_cells.smallest} people (${small_cells.smallest} is a choice of the site). ${counted(held_back.length, "group, comparison or end was", "groups, comparisons or ends were")} held back as a whole.`
  }</p>
<p>A program cannot decide whether the file may leave the site: law, consent, ethics approval and the rules of the site decide.</p>
</div>
${heading("What stays at the site")}${bullets(whatStays)}<p>Fingerprint of the file (SHA-256): ${file.sha256}. A changed file has another one.</p>
`;
}

const peopleWords = (persons: SiteSummary["description"]["persons"]): string =>
  typeof persons === "number" ? `The figures are about ${counted(persons, "person", "people")}.` : "";

function whyPart({ small_cells: { choice, smallest }, risk_sets }: SiteSummary): Safe {
  return choice === "written"
    ? html`<p>Small cells are written, so nothing is held back: a figure of one person is that person's outcome. Make the summary without --small-cells write unless everybody concerned has agreed to this.</p>\n`
    : html`${bullets(whyNoPerson(smallest, { withTable: risk_sets?.leaves === true }))}`;
}

function heldBackPart({
  groups,
  comparisons,
  held_back,
  agreed,
  small_cells: { choice, smallest },
}: SiteSummary): Safe {
  if (choice === "written") return html`<p>Nothing.</p>\n`;
  const isWithheld = ({ reason }: SummaryFigure) => withheldReasons.some((each) => each === reason);
  const single = [...groups, ...comparisons].flatMap(({ figures }) => figures.filter(isWithheld)).length;
  const whole = held_back.map(
    (one) => `${capital(heldBackName(one, agreed))}: ${withheldWords[one.reason](smallest)}.`,
  );
  return html`${whole.length === 0 ? html`<p>No group, comparison or end was held back as a whole.</p>\n` : bullets(whole)}${
    single === 0
      ? null
      : html`<p>Of the groups and comparisons that leave, ${counted(single, "single figure was", "single figures were")} held back, as the tables below say.</p>\n`
  }`;
}

const figuresPart = (
  summary: SiteSummary,
): Safe => html`<p>Shares and days as they leave, each with its ${intervalName(summary.agreed.file.confidence_level)}. People with several injuries count once in every error.</p>
${groupsTable(summary)}${comparisonsTable(summary)}${endsTable(summary)}${caution()}`;
