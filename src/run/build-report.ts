import type { AnswerOptions, Results } from "../study/index.js";
import type { Listener, Machine } from "./machine.js";
import { type Manifest, manifestFile, type OutputFile } from "./manifest.js";
import type { StudyInput } from "./open-study.js";
import { RunError } from "./run-error.js";

/** Everything a report folder holds, in memory. */
export interface BuiltReport {
  readonly files: readonly OutputFile[];
  readonly results: Results;
}

/** What is written of counts with fewer people behind them than the smallest cell. */
export type SmallCells = Manifest["small_cells"];

export interface ReportChoices extends SmallCells {
  /** The name of the study file, where it has another one than when the report was made. */
  readonly studyName?: string;
  /** The results, where they were computed before from the same study. */
  readonly results?: Results;
}

/**
 * Computes a whole report folder from a study that was opened: answer, draw, render.
 * The same input gives the same bytes.
 *
 * @throws RunError where nothing could be told without small cells
 */
export async function buildReport(
  study: StudyInput,
  { studyName, results: known, ...smallCells }: ReportChoices,
  { progress, ...machine }: Machine & Pick<Listener, "progress">,
): Promise<BuiltReport> {
  progress("estimating");
  const results = known ?? (await resultsOf(study, smallCells));
  // not by the index, which also holds what draws and reads fonts under Node
  const [{ renderFigures }, { renderReport }] = await Promise.all([
    import("../report/render-figures.js"),
    import("../report/render.js"),
  ]);
  progress("drawing figures");
  const figures = await renderFigures(results, machine);
  progress("writing the report");
  const { sha256, version, engine } = machine;
  const files: OutputFile[] = [
    ...(await renderReport({ results, figures, version, fontCss: machine.fontCss(), sha256 })),
    { path: "study.yaml", content: study.studyText },
  ];
  const { studyFile, inputs, plan } = study;
  const made = {
    toolkit_version: version,
    engine,
    synthetic: plan.synthetic,
    study_file: { ...studyFile, name: studyName ?? studyFile.name },
    small_cells: smallCells,
    inputs: [...inputs],
  };
  return { results, files: [...files, manifestFile({ ...made, outputs: files }, sha256)] };
}

/** What the sites of a study mean and record, beside one another; null where it names none. */
async function harmonisedOf({ read, plan }: Pick<StudyInput, "read" | "plan">, cells: SmallCells) {
  if (plan.data.from_sites === undefined) return null;
  const { harmonisedTables } = await import("../pooling/harmonise/index.js");
  return harmonisedTables(read.tables, plan, cells);
}

/** The results as they may be written. */
export async function resultsOf(
  {
    read,
    plan,
    cohort,
    sealed = null,
  }: Pick<StudyInput, "read" | "plan"> & Partial<Pick<StudyInput, "sealed">> & Pick<AnswerOptions, "cohort">,
  { choice, smallest }: SmallCells,
): Promise<Results> {
  const { answer, fewestRows, withoutSmallCells } = await import("../study/index.js");
  const exact = { ...answer(read, plan, { smallestCell: smallest, cohort }), sealed };
  const sites = await harmonisedOf({ read, plan }, { choice, smallest });
  if (choice === "written") {
    if (sites === null) return exact;
    const { small_cells } = exact;
    const found = (small_cells.found ?? 0) + sites.smallCells;
    return { ...exact, harmonised: sites.told, small_cells: { ...small_cells, found } };
  }
  const results = {
    ...withoutSmallCells(exact, fewestRows(read.tables, smallest)),
    harmonised: sites?.told ?? null,
  };
  if (typeof results.accounting.analysis.analysed === "number") return results;
  throw new RunError(
    `Fewer than ${smallest} people are analysed, so that every count would be a small cell.\n  Omit --small-cells and keep the report at the site, or wait for more data.`,
  );
}
