import { type PooledResults, poolSummaries, unitedSites } from "../../pooling/pooled/index.js";
import { type ReadSummary, summariesText } from "../../pooling/summary/index.js";
import { pooledTableFiles } from "../../report/pooling/pooled-csv.js";
import { pooledFigures, tableFigures } from "../../report/pooling/pooled-figures.js";
import { pooledPage } from "../../report/pooling/pooled-page.js";
import { figureFiles } from "../../report/render.js";
import { jsonText } from "../../schema/json-text.js";
import type { Machine } from "../machine.js";
import type { OutputFile } from "../manifest.js";
import { folderManifest } from "../sharing/shared-plan.js";

/** Where the summaries lie in a pooled report, from which it is made again. */
export const summariesFile = "summaries.json";

/** Everything a pooled report holds, in memory. */
export interface PooledReport {
  readonly files: readonly OutputFile[];
  readonly results: PooledResults;
}

/**
 * The folder of a pooled report: page, results, tables, and the summaries it was made from. The same summaries give the same bytes.
 *
 * @throws SummaryError where the summaries cannot be pooled
 */
export async function pooledReport(
  read: readonly ReadSummary[],
  machine: Pick<Machine, "sha256" | "version" | "fontCss" | "drawPng" | "drawSvg">,
): Promise<PooledReport> {
  const { sha256, version, fontCss } = machine;
  const results = poolSummaries(read, { version, sha256 });
  const figures = await pooledFigures(results, machine);
  const curves = await tableFigures(results, machine);
  const { synthetic } = results.agreed.file;
  const css = fontCss();
  const files: OutputFile[] = [
    { path: "report.html", content: await pooledPage({ results, figures, curves, fontCss: css, sha256 }) },
    ...pooledTableFiles(results),
    ...[...figures, ...curves].flatMap((figure) => figureFiles(figure, { fontCss: css, synthetic })),
    { path: "results.json", content: jsonText(results) },
    { path: summariesFile, content: summariesText(unitedSites(read)) },
  ];
  const about = {
    kind: "pooled report" as const,
    version,
    synthetic,
    sha256,
  };
  return { results, files: [...files, folderManifest(files, about)] };
}
