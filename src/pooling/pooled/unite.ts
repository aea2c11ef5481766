import { counted } from "../../schema/counted.js";
import { oneLine } from "../../schema/hidden-characters.js";
import { visible } from "../../schema/words/wording.js";
import { type AgreedDifference, agreedDifferences } from "../summary/agreed.js";
import { type ReadSummary, summariesText } from "../summary/read-summaries.js";
import type { SiteSummary } from "../summary/site-summary.js";
import { SummaryError } from "../summary/summary-error.js";

/**
 * The sites of any number of files, each once, in the order of their names: the same in whatever order and by whatever steps the files were
 * merged.
 *
 * @throws SummaryError where one site is there with two contents, or the sites were not asked the same, key by key
 */
export function unitedSites(read: readonly ReadSummary[]): readonly SiteSummary[] {
  if (read.length === 0)
    throw new SummaryError("There is no summary to pool.\n  Name the files of at least one site.");
  const bySite = new Map<string, ReadSummary & { readonly text: string }>();
  for (const one of read) {
    const { site } = one.summary;
    const text = summariesText([one.summary]);
    const before = bySite.get(site);
    if (before !== undefined && before.text !== text)
      throw new SummaryError(
        `The site "${visible(site, 200)}" is there twice, and not the same: in ${oneLine(before.file)} and in ${oneLine(one.file)} (they differ in "${firstDifference(before.summary, one.summary)}").\n  Keep the later one, or have each site bear a name of its own.`,
      );
    if (before === undefined) bySite.set(site, { ...one, text });
  }
  const sites = [...bySite.values()].sort((one, other) => (one.summary.site < other.summary.site ? -1 : 1));
  refuseUnlike(sites);
  return sites.map(({ summary }) => summary);
}

/** The key of a summary at which two first differ. */
function firstDifference(one: SiteSummary, other: SiteSummary): string {
  const keys = Object.keys(one) as (keyof SiteSummary)[];
  return keys.find((key) => JSON.stringify(one[key]) !== JSON.stringify(other[key])) ?? "site";
}

/** So many sites and keys are named in one message. */
const mostNamed = 20;

function refuseUnlike(sites: readonly ReadSummary[]): void {
  const first = sites[0]!;
  const unlike = sites.filter(({ summary }) => summary.agreed.sha256 !== first.summary.agreed.sha256);
  if (unlike.length === 0) return;
  const lines = unlike.slice(0, mostNamed).flatMap(({ summary }) => [
    `The site "${visible(summary.site, 200)}" was not asked what the site "${visible(first.summary.site, 200)}" was:`,
    ...agreedDifferences(first.summary.agreed.file, summary.agreed.file)
      .slice(0, mostNamed)
      .map((difference) => `  ${keyLine(difference, first.summary.site, summary.site)}`),
  ]);
  const more = unlike.length - mostNamed;
  throw new SummaryError(
    [
      ...lines,
      ...(more > 0 ? [`and ${counted(more, "further site", "further sites")}.`] : []),
      "  Give all sites one study file, and have these make their summaries again; only names, data and seed may differ.",
    ].join("\n"),
  );
}

const keyLine = ({ key, one, other }: AgreedDifference, first: string, second: string): string =>
  `${key}: ${shown(one)} at "${visible(first, 80)}", ${shown(other)} at "${visible(second, 80)}"`;

const shown = (value: string | null): string => (value === null ? "not there" : visible(value, 200));
