import { buildReport as buildReportOf } from "../run/build-report.js";
import type { Machine, ReportChoices, BuiltReport as ReportOfRun } from "../run/index.js";
import { thisMachine } from "./machine.js";
import { OwnProcessNeeded } from "./own-process.js";
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
  // what draws is loaded beside the reading, but not where another process is going to read
  let starting: Promise<Machine> | null = null;
  const hasRoom = () => {
    starting ??= thisMachine();
    // should it fail, that is said where it is waited for
    starting.catch(() => undefined);
  };
  const study = await openStudy(studyPath, terminal, { hasRoom }).catch(async (error: unknown) => {
    if (error instanceof OwnProcessNeeded && starting !== null) await stopDrawing(starting);
    throw error;
  });
  const machine = await (starting ?? thisMachine());
  const { progress } = terminal;
  return { ...study, ...(await buildReportOf(study, choices, { ...machine, progress })) };
}

/** Of several sites the first may have had room and a later one not. */
async function stopDrawing(starting: Promise<Machine>): Promise<void> {
  await starting;
  const { stopThreads } = await import("../report/drawing-threads.js");
  await stopThreads();
}
