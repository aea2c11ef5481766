import { dirname, resolve } from "node:path";
import type { SourceFile } from "../ingest/index.js";
import type { ReadCohort } from "../schema/index.js";
import type { Plan } from "../study/index.js";
import { readInput } from "./files.js";
import { type Fingerprint, fingerprintOf } from "./manifest.js";
import type { Terminal } from "./terminal.js";

/** A study file, its tables as read, and the fingerprints of every file that was opened. */
export interface StudyInput {
  readonly plan: Plan;
  readonly studyText: string;
  readonly read: ReadCohort;
  readonly studyFile: Fingerprint;
  readonly inputs: readonly Fingerprint[];
}

/** Tables a study file can name, in the order in which they are read. */
const tableNames = ["injuries", "treatments", "imaging", "visits", "sites", "single_sheet"] as const;

/**
 * Opens a study file and every table it names.
 *
 * @throws PlanError, StopError or CommandError; nothing has been written by then
 */
export async function openStudy(path: string, { progress }: Terminal): Promise<StudyInput> {
  const { readPlan } = await import("../study/index.js");
  const { readCohort } = await import("../ingest/index.js");
  const studyBytes = await readInput(path, { what: "study file", by: "the command line" });
  const studyText = new TextDecoder().decode(studyBytes);
  const name = path.split(/[\\/]/).at(-1)!;
  const plan = readPlan(name, studyText);
  const sources: SourceFile[] = [];
  for (const table of tableNames) {
    const file = plan.data[table];
    if (file === undefined) continue;
    progress(`reading ${file}`);
    const bytes = await readInput(resolve(dirname(path), file), {
      what: `table ${table}`,
      by: `"data.${table}" in ${name}`,
    });
    sources.push({ table, file, bytes });
  }
  progress("checking rows");
  const read = readCohort(sources, {
    closedOn: plan.data.closed_on ?? null,
    thresholdMm: plan.distance.threshold_mm,
    dateOrder: plan.data.date_order,
    calendar: plan.data.calendar ?? "common",
  });
  return {
    plan,
    studyText,
    read,
    studyFile: fingerprintOf(name, studyBytes),
    inputs: sources.map(({ file, bytes }) => fingerprintOf(file, bytes)),
  };
}
