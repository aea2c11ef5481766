import type { Results } from "../study/index.js";
import { CommandError, exitCodes } from "./exit-codes.js";
import { type Manifest, manifestFile, sha256 } from "./manifest.js";
import { openStudy, type StudyInput } from "./study-input.js";
import type { Terminal } from "./terminal.js";
import { engineName, toolkitVersion } from "./version.js";
import type { OutputFile } from "./writing/index.js";

/** Everything a report folder holds, in memory, and what it was made from. */
export interface BuiltReport extends StudyInput {
  readonly files: readonly OutputFile[];
  readonly results: Results;
}

/** What is written of counts with fewer people behind them than the smallest cell. */
export type SmallCells = Manifest["small_cells"];

export interface ReportChoices extends SmallCells {
  /** The name of the study file, where it has another one than when the report was made. */
  readonly studyName?: string;
}

/**
 * Computes a whole report folder from a study file: read, answer, draw, render.
 * The same input gives the same bytes.
 */
export async function buildReport(
  studyPath: string,
  { studyName, ...smallCells }: ReportChoices,
  terminal: Terminal,
): Promise<BuiltReport> {
  const study = await openStudy(studyPath, terminal);
  terminal.progress("estimating");
  const results = await resultsOf(study, smallCells);
  const { fontFaceCss, renderFigures, renderReport } = await import("../report/index.js");
  terminal.progress("drawing figures");
  const figures = await renderFigures(results);
  terminal.progress("writing the report");
  const version = toolkitVersion();
  const files: OutputFile[] = [
    ...(await renderReport({ results, figures, version, fontCss: fontFaceCss(), sha256 })),
    { path: "study.yaml", content: study.studyText },
  ];
  const { studyFile, inputs, plan } = study;
  const made = {
    toolkit_version: version,
    engine: engineName(),
    synthetic: plan.synthetic,
    study_file: { ...studyFile, name: studyName ?? studyFile.name },
    small_cells: smallCells,
    inputs: [...inputs],
  };
  return { ...study, results, files: [...files, manifestFile(made, files)] };
}

/** The results as they may be written. */
async function resultsOf({ read, plan }: StudyInput, { choice, smallest }: SmallCells): Promise<Results> {
  const { answer, fewestRows, withoutSmallCells } = await import("../study/index.js");
  const exact = answer(read, plan, { smallestCell: smallest });
  if (choice === "written") return exact;
  const results = withoutSmallCells(exact, fewestRows(read.tables, smallest));
  if (typeof results.accounting.analysis.analysed === "number") return results;
  throw new CommandError(
    exitCodes.input,
    `Fewer than ${smallest} people are analysed, so that every count would be a small cell.\n  Omit --small-cells and keep the report at the site, or wait for more data.`,
  );
}
