import { poolSummaries, unitedSites } from "../../../pooling/pooled/index.js";
import { type ReadSummary, summariesText } from "../../../pooling/summary/index.js";
import { pooledFigures, tableFigures } from "../../../report/pooling/pooled-figures.js";
import { pooledParts } from "../../../report/pooling/pooled-page.js";
import type { Machine } from "../../../run/machine.js";
import { pooledReport } from "../../../run/pooling/pooled-report.js";
import { summariesInFile } from "../../../run/pooling/summaries-in-file.js";
import { InputError } from "../../../schema/input-error.js";
import { archiveOf } from "../../../workbook/archive.js";
import { type NamedBytes, namedBytesOf } from "../named-bytes.js";
import { sectionView } from "../section-view.js";
import type { PooledView, PoolingTasks, SiteInFile, SummaryFileView } from "./pooling-tasks.js";

interface FileOnDesk {
  readonly view: SummaryFileView;
  readonly read: readonly ReadSummary[];
}

/**
 * The tasks about a pool of sites: every answer is that of the run that the command line makes of the same files.
 *
 * @param machine what a run needs of the page
 * @param progress told what is being done
 */
export function poolingTasks(machine: Machine, progress: (step: string) => void): PoolingTasks {
  const readAll = (files: readonly NamedBytes[]): readonly ReadSummary[] => {
    progress("reading the summaries");
    return files.flatMap(({ name, bytes }) => summariesInFile({ file: name, bytes }, machine));
  };

  return {
    poolView: async (files) => {
      progress("reading the summaries");
      const onDesk = files.map((file) => fileOnDesk(file, machine));
      const views = onDesk.map(({ view }) => view);
      const read = onDesk.flatMap((file) => file.read);
      if (read.length === 0) return { files: views, refusal: null, pooled: null };
      progress("pooling");
      const pooled = await orRefusal(() => pooledView(read, machine));
      return "refusal" in pooled
        ? { files: views, refusal: pooled.refusal, pooled: null }
        : { files: views, refusal: null, pooled: pooled.value };
    },
    poolReport: async (files) => {
      const read = readAll(files);
      progress("pooling");
      const { files: report, results } = await pooledReport(read, machine);
      progress("packing");
      return {
        name: `${results.agreed.file.synthetic ? "synthetic-" : ""}pooled.zip`,
        bytes: archiveOf(report.map(({ path, content }) => ({ path: `pooled/${path}`, content }))),
      };
    },
    poolMerged: async (files) => {
      const sites = unitedSites(readAll(files));
      const { synthetic } = sites[0]!.agreed.file;
      const path = `${synthetic ? "synthetic-" : ""}merged-summaries.json`;
      return namedBytesOf({ path, content: summariesText(sites) });
    },
  };
}

function fileOnDesk({ name, bytes }: NamedBytes, machine: Machine): FileOnDesk {
  try {
    const read = summariesInFile({ file: name, bytes }, machine);
    return { read, view: { name, sites: read.map(siteInFile), refusal: null } };
  } catch (error) {
    return { read: [], view: { name, sites: [], refusal: refusalIn(error) } };
  }
}

function siteInFile({ summary }: ReadSummary): SiteInFile {
  const all = summary.groups.find(({ family }) => family === "all");
  return {
    site: summary.site,
    injuries: String(all?.n ?? "not told"),
    persons: String(all?.persons ?? "not told"),
    version: summary.toolkit_version,
    fingerprint: summary.agreed.sha256,
  };
}

const noPixels = new Uint8Array();

async function pooledView(
  read: readonly ReadSummary[],
  { sha256, version }: Pick<Machine, "sha256" | "version">,
): Promise<PooledView> {
  const results = poolSummaries(read, { sha256, version });
  const drawing = { drawPng: () => Promise.resolve(noPixels) };
  const figures = await pooledFigures(results, drawing);
  const curves = await tableFigures(results, drawing);
  // the last part tells of the folder, which is not there before it is saved
  const parts = pooledParts({ results, figures, curves }).filter(({ id }) => id !== "made");
  return {
    isSynthetic: results.agreed.file.synthetic,
    sites: results.sites.length,
    first: parts.filter(({ id }) => isReadFirst(id)).map(sectionView),
    further: parts.filter(({ id }) => !isReadFirst(id)).map(sectionView),
  };
}

/** The answer in words, and each site's own beside it. */
const isReadFirst = (id: string): boolean => ["answer", "by-site"].includes(id);

async function orRefusal<Value>(
  act: () => Promise<Value>,
): Promise<{ readonly value: Value } | { readonly refusal: string }> {
  try {
    return { value: await act() };
  } catch (error) {
    return { refusal: refusalIn(error) };
  }
}

/** What is wrong with what was brought, in words; a fault of the toolkit is none of that. */
function refusalIn(error: unknown): string {
  if (error instanceof InputError) return error.message;
  throw error;
}
