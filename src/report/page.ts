import { counted } from "../schema/counted.js";
import { peopleOf } from "../words/phrases.js";
import { clockWords, milestoneWords } from "../words/terms.js";
import type { ReportContext, Section } from "./context.js";
import { type PageParts, pageOf } from "./layout/shell.js";
import { afterSection } from "./sections/after.js";
import { answerSection } from "./sections/answer.js";
import { bySiteSection } from "./sections/by-site.js";
import { careSection } from "./sections/care.js";
import { cautionsSection } from "./sections/cautions.js";
import { checklistSection } from "./sections/checklist.js";
import { cohortSection } from "./sections/cohort.js";
import { countedSection } from "./sections/counted.js";
import { curvesSection } from "./sections/curves.js";
import { distancesSection } from "./sections/distances.js";
import { effectsSection } from "./sections/effects.js";
import { estimandsSection } from "./sections/estimands.js";
import { followUpSection } from "./sections/follow-up.js";
import { methodsSection } from "./sections/methods.js";
import { missingSection } from "./sections/missing.js";
import { provenanceSection } from "./sections/provenance.js";
import { queriesSection } from "./sections/queries.js";
import { sitesSection } from "./sections/sites.js";
import { trialSection } from "./sections/trial.js";

export interface PageInput extends ReportContext, Pick<PageParts, "fontCss" | "sha256"> {}

/** The sections in the order a reader asks; a section that has nothing to say is not there. */
export function sectionsOf(context: ReportContext): readonly Section[] {
  const before = [
    answerSection(context),
    careSection(context),
    sitesSection(context),
    countedSection(context),
    trialSection(context),
    cohortSection(context),
    followUpSection(context),
    missingSection(context),
    curvesSection(context),
    afterSection(context),
    effectsSection(context),
    bySiteSection(context),
    distancesSection(context),
    estimandsSection(context),
    queriesSection(context),
    methodsSection(context),
    cautionsSection(context),
  ].filter((one) => one !== null);
  return [
    ...before,
    checklistSection(context.results, [...before.map(({ id }) => id), "provenance"]),
    provenanceSection(context),
  ];
}

/**
 * The report as one page that stands alone: drawings and style inside it, no script, no connection, and a policy
 * that would stop either. All text from data is escaped.
 *
 * @throws Error when `sha256` does not give 64 hexadecimal digits, or a figure holds more than a drawing
 */
export async function renderPage(input: PageInput): Promise<string> {
  const { plan } = input.results;
  return pageOf({
    title: plan.title,
    kind: "Outcomes of finger pulley injuries in climbers",
    lead: leadOf(input),
    synthetic: plan.synthetic,
    skip: { to: "answer", words: "To the answer" },
    parts: sectionsOf(input),
    fontCss: input.fontCss,
    sha256: input.sha256,
  });
}

function leadOf({ results }: ReportContext): string {
  const { plan, accounting } = results;
  const { milestone, clock } = plan.question;
  const { analysed, persons } = accounting.analysis;
  return `When were they ${milestoneWords[milestone].back}, counted from ${clockWords[clock]}? ${counted(analysed, "injury", "injuries")} in ${peopleOf(persons)}.`;
}
