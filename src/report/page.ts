import type { ReportContext, Section } from "./context.js";
import { html, type Safe, trusted } from "./escape.js";
import { printStyle } from "./layout/style-print.js";
import { screenStyle } from "./layout/style-screen.js";
import { answerSection } from "./sections/answer.js";
import { careSection } from "./sections/care.js";
import { cautionsSection } from "./sections/cautions.js";
import { checklistSection } from "./sections/checklist.js";
import { cohortSection } from "./sections/cohort.js";
import { countedSection } from "./sections/counted.js";
import { curvesSection } from "./sections/curves.js";
import { distancesSection } from "./sections/distances.js";
import { effectsSection } from "./sections/effects.js";
import { followUpSection } from "./sections/follow-up.js";
import { methodsSection } from "./sections/methods.js";
import { provenanceSection } from "./sections/provenance.js";
import { queriesSection } from "./sections/queries.js";
import { syntheticLine } from "./words/cautions.js";
import { backWords, clockWords } from "./words/terms.js";

export interface PageInput extends ReportContext {
  /** Style rules that bring the fonts as `data:`; may be empty. */
  readonly fontCss: string;
  /** SHA-256 of a text's UTF-8 bytes, as 64 hexadecimal digits: it names the one style sheet that the page may use. */
  readonly sha256: (text: string) => string | Promise<string>;
}

/** The sections in the order a reader asks; a section that has nothing to say is not there. */
export function sectionsOf(context: ReportContext): readonly Section[] {
  const before = [
    answerSection(context),
    careSection(context),
    countedSection(context),
    cohortSection(context),
    followUpSection(context),
    curvesSection(context),
    effectsSection(context),
    distancesSection(context),
    queriesSection(context),
    methodsSection(context),
    cautionsSection(),
  ].filter((one) => one !== null);
  return [...before, checklistSection(before.map(({ id }) => id)), provenanceSection(context)];
}

/**
 * The report as one page that stands alone: drawings and style inside it, no script, no connection, and a policy
 * that would stop either. All text from data is escaped.
 *
 * @throws Error when `sha256` does not give 64 hexadecimal digits, or a figure holds more than a drawing
 */
export async function renderPage(input: PageInput): Promise<string> {
  const style = input.fontCss + screenStyle + printStyle;
  const digest = base64Of(await input.sha256(style));
  const page = document({ context: input, policy: policyOf(digest), style: trusted(style) });
  return page.markup;
}

function base64Of(digest: string): string {
  if (!/^[0-9a-f]{64}$/.test(digest))
    throw new Error(`sha256 must give 64 hexadecimal digits; found "${digest}"`);
  const bytes = digest.match(/../g) ?? [];
  return btoa(String.fromCharCode(...bytes.map((byte) => Number.parseInt(byte, 16))));
}

/** Nothing may be loaded or sent, and no style but this one applies. */
const policyOf = (digest: string): string =>
  `default-src 'none'; style-src 'sha256-${digest}'; img-src data:; font-src data:; base-uri 'none'; form-action 'none'`;

function document({ context, policy, style }: { context: ReportContext; policy: string; style: Safe }): Safe {
  const { plan } = context.results;
  const sections = sectionsOf(context);
  const title =
    plan.synthetic && !plan.title.startsWith("SYNTHETIC") ? `SYNTHETIC: ${plan.title}` : plan.title;
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${trusted(policy)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>${title}</title>
<style>${style}</style>
</head>
<body${plan.synthetic ? html` class="synthetic"` : null}>
<a class="skip" href="#answer">To the answer</a>
${plan.synthetic ? html`<p class="synthetic-banner">${syntheticLine}</p>\n<p class="print-mark" aria-hidden="true">${syntheticLine}</p>\n` : null}<div class="page">
${masthead(context)}<div class="columns">
${contents(sections)}<main>
${sections.map(sectionBlock)}</main>
</div>
</div>
</body>
</html>
`;
}

function masthead({ results }: ReportContext): Safe {
  const { plan, accounting } = results;
  const { milestone, clock } = plan.question;
  return html`<header class="masthead">
<p class="kind">Outcomes of finger pulley injuries in climbers</p>
<h1>${plan.title}</h1>
<p class="asked">When were they ${backWords[milestone]}, counted from ${clockWords[clock]}? ${accounting.analysis.analysed} injuries, ${accounting.analysis.persons} people.</p>
</header>
`;
}

const contents = (
  sections: readonly Section[],
): Safe => html`<nav class="contents" aria-labelledby="contents-title">
<h2 id="contents-title">Contents</h2>
<ol>
${sections.map(({ id, title }) => html`<li><a href="#${id}">${title}</a></li>\n`)}</ol>
</nav>
`;

const sectionBlock = ({
  id,
  title,
  body,
}: Section): Safe => html`<section id="${id}" aria-labelledby="${id}-title">
<h2 id="${id}-title">${title}</h2>
${body}</section>
`;
