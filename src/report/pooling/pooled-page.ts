import type { PooledResults } from "../../pooling/pooled/index.js";
import { counted } from "../../schema/counted.js";
import { associationLine, cautions, undecidedLine } from "../../words/cautions.js";
import { pooledMethods } from "../../words/pooling/pooled-methods.js";
import {
  answerSentences,
  mainAnswers,
  sayPoolingCaution,
  whatSitesCanTell,
} from "../../words/pooling/pooled-plain.js";
import { clockWords, labelOf, milestoneWords } from "../../words/terms.js";
import type { DrawnFigure } from "../context.js";
import { html, type Safe } from "../escape.js";
import { behind, bullets, caution, cautionAgain } from "../layout/blocks.js";
import { drawnFigure } from "../layout/figure.js";
import { type PagePart, type PageParts, pageOf } from "../layout/shell.js";
import { harmonisedBody } from "../sections/sites.js";
import { explainedPart } from "./explained-part.js";
import { agreedTable } from "./leaving-figures.js";
import {
  answersTables,
  contributionsTable,
  siteTables,
  spreadTable,
  withoutTables,
} from "./pooled-tables.js";
import { tablePart } from "./table-section.js";

export interface PooledPage extends Pick<PageParts, "fontCss" | "sha256"> {
  readonly results: PooledResults;
  readonly figures: readonly DrawnFigure[];
  /** Curves from risk-set tables. */
  readonly curves: readonly DrawnFigure[];
}

/** The pooled report: the answer and what the sites can tell, what they are, their figures, how it was made. */
export function pooledPage({ results, figures, curves, fontCss, sha256 }: PooledPage): Promise<string> {
  const { agreed, sites } = results;
  const { milestone, clock } = agreed.file.question;
  return pageOf({
    title: `${agreed.file.synthetic ? "SYNTHETIC: " : ""}Pooled answer of ${counted(sites.length, "site", "sites")}`,
    kind: "Outcomes of finger pulley injuries in climbers, pooled from summaries of sites",
    lead: `When were they ${milestoneWords[milestone].back}, counted from ${clockWords[clock]}? No row of a patient was passed around.`,
    synthetic: agreed.file.synthetic,
    skip: { to: "answer", words: "To the answer" },
    parts: pooledParts({ results, figures, curves }),
    fontCss,
    sha256,
  });
}

/** The parts of the page, for a door that shows them in a page of its own. */
export const pooledParts = ({
  results,
  figures,
  curves,
}: Pick<PooledPage, "results" | "figures" | "curves">): readonly PagePart[] => [
  part("answer", "The answer", answerPart(results)),
  part(
    "sites",
    "What the sites are",
    harmonisedBody(results.harmonised, results.agreed.file.compare.adjust_for),
  ),
  part(
    "by-site",
    "Each site's own answer",
    html`${figures.map((figure) => drawnFigure(figure, results.agreed.file.synthetic))}${behind("Site by site, in numbers", siteTables(results))}${cautionAgain()}`,
  ),
  part(
    "all-answers",
    "All pooled answers",
    html`${behind("By every landmark: all groups, grades and comparisons", answersTables(results))}${cautionAgain()}`,
  ),
  ...tablePart(results, curves),
  part("spread", "How far the sites lie apart", spreadTable(results)),
  part("explained", "Whether what the sites are goes with what they find", explainedPart(results)),
  part(
    "without",
    "The answer without each site",
    html`${behind("Without each site in turn", withoutTables(results))}${cautionAgain()}`,
  ),
  part(
    "contributions",
    "Who contributes what",
    behind("Site by site, and what each held back", contributionsTable(results)),
  ),
  part("asked", "What all sites were asked", behind("Key by key", agreedTable(results))),
  part(
    "methods",
    "Methods",
    behind("What was run, sentence by sentence with its published source", bullets(pooledMethods(results))),
  ),
  part("cautions", "What this report is and is not", html`${bullets(cautions)}`),
  part("made", "How this report was made", madePart(results)),
];

const part = (id: string, title: string, body: Safe): PagePart => ({ id, title, body });

function answerPart(results: PooledResults): Safe {
  const before = results.cautions.map(sayPoolingCaution);
  return html`<div class="plain-words">
${mainAnswers(results).map((answer) => html`<p>${answerSentences(answer, results).join(" ")}</p>\n`)}${hasComparison(results) ? html`<p>${undecidedLine} ${associationLine(labelOf(results.agreed.file.compare.by))}</p>\n` : null}</div>
<h3>What ${counted(results.sites.length, "site", "sites")} can tell, and what not</h3>
${bullets(whatSitesCanTell(results))}${before.length === 0 ? null : html`<h3>Before you use it</h3>\n${bullets(before)}`}${caution()}`;
}

const hasComparison = ({ answers }: PooledResults): boolean => answers.some(({ of }) => of === "comparison");

const madePart = ({ toolkit_version, agreed, sites }: PooledResults): Safe =>
  html`<p>Made by pulley-outcomes ${toolkit_version} from summaries.json, which is in this folder and holds ${counted(sites.length, "summary", "summaries")}. The same summaries give the same bytes, in whatever order and by whatever steps they were merged; pulley-outcomes recompute makes the report again and compares it. Fingerprint of what all sites were asked (SHA-256): ${agreed.sha256}.</p>\n`;
