import { buildReport as buildReportOf } from "../run/build-report.js";
import type { ReportChoices, BuiltReport as ReportOfRun } from "../run/index.js";
import { thisMachine } from "./machine.js";
import { openStudy, type StudyInput } from "./study-input.js";
import type { Terminal } from "./terminal.js";

/** Everything a report folder holds, in memory, and what it was made from. */
export interface BuiltReport extends StudyInput, ReportOfRun {}

/** Computes a whole report folder from a study file on a disk. */
export async function buildReport(
  studyPath: string,
  choices: ReportChoices,
  terminal: Terminal,
): Promise<BuiltReport> {
  // what draws is loaded beside the reading
  const machine = await thisMachine();
  const study = await openStudy(studyPath, terminal);
  const { progress } = terminal;
  return { ...study, ...(await buildReportOf(study, choices, { ...machine, progress })) };
}
