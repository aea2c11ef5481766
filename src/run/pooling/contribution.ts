import { type RiskSetsAsked, type SiteSummary, summariesText } from "../../pooling/summary/index.js";
import { summariseSite } from "../../pooling/summary/summarise-site.js";
import { leavingPage } from "../../report/pooling/leaving-page.js";
import { type Fingerprint, fingerprintOf } from "../fingerprint.js";
import type { Machine } from "../machine.js";
import type { OutputFile } from "../manifest.js";
import type { StudyInput } from "../open-study.js";
import { RunError } from "../run-error.js";
import { folderManifest } from "../sharing/shared-plan.js";

/** A site's summary and the page on what leaves in it. */
export interface Contribution {
  readonly summary: SiteSummary;
  readonly files: readonly OutputFile[];
  /** Names of the two files. */
  readonly summaryFile: string;
  readonly pageFile: string;
  /** The file of the summary as the page names it. */
  readonly file: Fingerprint;
}

interface Asked {
  readonly site?: string;
  readonly smallCells: SiteSummary["small_cells"];
  /** Asks for a risk-set table as well. */
  readonly riskSets?: RiskSetsAsked;
}

/**
 * What one site contributes to a pool.
 *
 * @throws SiteError where it is not clear of which site; RunError where nothing may be told
 */
export async function contributionOf(
  { read, plan }: Pick<StudyInput, "read" | "plan">,
  { site, smallCells, riskSets }: Asked,
  { sha256, version, fontCss }: Pick<Machine, "sha256" | "version" | "fontCss">,
): Promise<Contribution> {
  const summary = summariseSite(
    { read, plan },
    { ...(site === undefined ? {} : { site }), ...(riskSets && { riskSets }), smallCells, version, sha256 },
  );
  if (summary.groups.length === 0)
    throw new RunError(
      `Fewer than ${smallCells.smallest} people of the site are analysed, so that nothing may leave in a summary.\n  Wait for more data.`,
    );
  const text = summariesText([summary]);
  const name = fileNameOf(summary);
  const summaryFile = `${name}-summary.json`;
  const pageFile = `${name}-leaving.html`;
  const file = fingerprintOf({ name: summaryFile, content: text }, sha256);
  const page = await leavingPage({ summary, file, fontCss: fontCss(), sha256 });
  const files = [
    { path: summaryFile, content: text },
    { path: pageFile, content: page },
  ];
  const about = {
    kind: "contribution" as const,
    version,
    synthetic: plan.synthetic,
    sha256,
  };
  return { summary, summaryFile, pageFile, file, files: [...files, folderManifest(files, about)] };
}

/** The site's name as far as it can be part of a file's name. */
function fileNameOf({ site, agreed }: SiteSummary): string {
  const plain = site
    .normalize("NFKD")
    .replace(/[^A-Za-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, 60);
  const marked = plain === "" ? "site" : plain;
  return agreed.file.synthetic ? `synthetic-${marked}` : marked;
}
