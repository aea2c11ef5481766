import { dirname, resolve } from "node:path";
import type { AnswersFile, CohortForSite, SourceFile } from "../ingest/index.js";
import { oneLine } from "../schema/hidden-characters.js";
import type { ReadCohort } from "../schema/index.js";
import { tableNames } from "../schema/table-names.js";
import type { Plan } from "../study/index.js";
import { CommandError, exitCodes } from "./exit-codes.js";
import { type Fingerprint, fingerprintOf } from "./manifest.js";
import { mustHaveRoomFor } from "./own-process.js";
import { plainStudyText } from "./plain-study.js";
import { readInput, readSettingsFile } from "./read-input.js";
import { filesOf, type ShownNames, shownNames, withShownNames } from "./shown-names.js";
import type { Terminal } from "./terminal.js";

/** A study file, its tables as read, and the fingerprints of every file that was opened. */
export interface StudyInput {
  /** What the study asks, its files under the names that may be shownName. */
  readonly plan: Plan;
  /** The plan as a study file, without the comments of its author. */
  readonly studyText: string;
  readonly read: ReadCohort;
  /** Every query for the site to answer; only where it was asked for. */
  readonly forSite: CohortForSite | null;
  /** Of the plan as a study file: comments and layout of the original do not matter. */
  readonly studyFile: Fingerprint;
  readonly inputs: readonly Fingerprint[];
  /** Where each of these files lies: nothing is written there. */
  readonly paths: readonly string[];
  /** Where the file of answers lies: a list that holds all of them may take its place. */
  readonly answersPath: string | null;
}

/**
 * Opens a study file and every table it names.
 *
 * @throws PlanError, StopError or CommandError; nothing has been written by then
 */
export async function openStudy(
  path: string,
  { progress, notice }: Terminal,
  { purpose = "for a report" }: { readonly purpose?: "for a report" | "for the site" } = {},
): Promise<StudyInput> {
  // the reader alone: checking a sheet needs no statistics
  const { readPlan } = await import("../study/read-plan.js");
  const { openSource, readCohort, readCohortForSite } = await import("../ingest/index.js");
  const name = path.split(/[\\/]/).at(-1)!;
  const studyNamed = { what: "study file", by: "on the command line", name, notice };
  const plan = readPlan(name, (await readSettingsFile(path, studyNamed)).text);
  const shownName = shownNames(path, plan);
  const opened: SourceFile[] = [];
  for (const table of tableNames) {
    const file = plan.data[table];
    if (file === undefined) continue;
    progress(`reading ${oneLine(file)}`);
    const bytes = await readInput(resolve(dirname(path), file), {
      what: `table ${table}`,
      by: `under "data.${table}" in ${name}`,
    });
    opened.push({ table, file: shownName(file), bytes });
  }
  mustHaveRoomFor(opened);
  const answers = await answersOf({ path, plan, shownName });
  const keep = answers !== null || purpose === "for the site" ? "every" : "some";
  const mappings = await mappingsOf({ path, plan, shownName, notice });
  const sources = await Promise.all(
    opened.map(async (source) => {
      const sheet = plan.data.sheets?.[source.table] ?? null;
      const mapped = mappings.find(({ table }) => table === source.table);
      if (mapped === undefined) return openSource(source, { sheet, keep });
      const { openMapped } = await import("../ingest/mapping/index.js");
      return openMapped(source, { mapping: mapped.mapping, ...(sheet === null ? {} : { sheet }) });
    }),
  );
  progress("checking rows");
  const options = {
    closedOn: plan.data.closed_on ?? null,
    thresholdMm: plan.distance.threshold_mm,
    dateOrder: plan.data.date_order,
    calendar: plan.data.calendar ?? "common",
    personIds: plan.data.person_ids,
    ...(answers === null ? {} : { answers }),
  };
  const forSite = purpose === "for the site" ? readCohortForSite(sources, options) : null;
  const files = [...opened, ...mappings, ...(answers === null ? [] : [answers])];
  const toldPlan = withShownNames(plan, shownName);
  const studyText = plainStudyText(toldPlan);
  return {
    plan: toldPlan,
    studyText,
    read: forSite ?? readCohort(sources, options),
    forSite,
    inputs: fingerprintsOf(files),
    answersPath: plan.data.answers === undefined ? null : resolve(dirname(path), plan.data.answers),
    paths: [path, ...filesOf(plan).map((file) => resolve(dirname(path), file))],
    studyFile: fingerprintOf(name, studyText),
  };
}

/** One fingerprint a file, also where several tables are sheets of one workbook. */
function fingerprintsOf(files: readonly AnswersFile[]): readonly Fingerprint[] {
  const first = files.filter(({ file }, i) => files.findIndex((other) => other.file === file) === i);
  return first.map(({ file, bytes }) => fingerprintOf(file, bytes));
}

interface StudyFiles {
  readonly path: string;
  readonly plan: Plan;
  readonly shownName: ShownNames;
}

/** The mappings that a study names, each with the table it is for. */
async function mappingsOf({
  path,
  plan,
  shownName,
  notice,
}: StudyFiles & { readonly notice: Terminal["notice"] }) {
  const named = tableNames.flatMap((table) => {
    const file = plan.data.mappings?.[table];
    return file === undefined ? [] : [{ table, file }];
  });
  if (named.length === 0) return [];
  const { readMapping } = await import("../ingest/mapping/index.js");
  return Promise.all(
    named.map(async ({ table, file }) => {
      const by = {
        what: "mapping",
        by: `under "data.mappings.${table}" in the study file`,
        name: file,
        notice,
      };
      const { bytes, text } = await readSettingsFile(resolve(dirname(path), file), by);
      const mapping = readMapping({ file, text });
      if (mapping.table === table) return { table, file: shownName(file), bytes, mapping };
      throw new CommandError(
        exitCodes.input,
        `${oneLine(file)}: this is a mapping for the table ${mapping.table}, but it is named for the table ${table}.\n  Correct data.mappings in the study file.`,
      );
    }),
  );
}

/** The file in which the site has answered earlier queries, if the study names one. */
async function answersOf({ path, plan, shownName }: StudyFiles): Promise<AnswersFile | null> {
  const file = plan.data.answers;
  if (file === undefined) return null;
  const named = { what: "file of answers", by: 'under "data.answers" in the study file' };
  return { file: shownName(file), bytes: await readInput(resolve(dirname(path), file), named) };
}
