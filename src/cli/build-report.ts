import { manifestFile, sha256 } from "./manifest.js";
import { openStudy, type StudyInput } from "./study-input.js";
import type { Terminal } from "./terminal.js";
import { engineName, toolkitVersion } from "./version.js";
import type { OutputFile } from "./writing/index.js";

/** Everything a report folder holds, in memory, and what it was made from. */
export interface BuiltReport extends StudyInput {
  readonly files: readonly OutputFile[];
}

/**
 * Computes a whole report folder from a study file: read, answer, draw, render.
 * The same input gives the same bytes.
 */
export async function buildReport(studyPath: string, terminal: Terminal): Promise<BuiltReport> {
  const study = await openStudy(studyPath, terminal);
  const { answer } = await import("../study/index.js");
  terminal.progress("estimating");
  const results = answer(study.read, study.plan);
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
    study_file: studyFile,
    inputs: [...inputs],
  };
  return { ...study, files: [...files, manifestFile(made, files)] };
}
