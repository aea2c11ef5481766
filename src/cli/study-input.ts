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
import type { Terminal } from "./terminal.js";
import { filesOf, type ToldNames, toldNames, withToldNames } from "./told-names.js";

/** A study file, its tables as read, and the fingerprints of every file that was opened. */
export interface StudyInput {
  /** What the study asks, its files under the names that may be told. */
  readonly plan: Plan;
  /** The plan as a study file, without the comments of its author. */
  readonly studyText: string;
  readonly read: ReadCohort;
  /** Every doubt for the site to answer; only where it was asked for. */
  readonly forSite: CohortForSite | null;
  /** Of the plan as a study file: comments and layout of the original do not matter. */
  readonly studyFile: Fingerprint;
  readonly inputs: readonly Fingerprint[];
  /** Where each of these files lies: nothing is written there. */
  readonly paths: readonly string[];
}

/**
 * Opens a study file and every table it names.
 *
 * @throws PlanError, StopError or CommandError; nothing has been written by then
 */
export async function openStudy(
  path: string,
  { progress, notice }: Terminal,
  { doubts = "for a report" }: { readonly doubts?: "for a report" | "for the site" } = {},
): Promise<StudyInput> {
  const { readPlan } = await import("../study/index.js");
  const { openSource, readCohort, readCohortForSite } = await import("../ingest/index.js");
  const name = path.split(/[\\/]/).at(-1)!;
  const studyNamed = { what: "study file", by: "the command line", name, notice };
  const plan = readPlan(name, (await readSettingsFile(path, studyNamed)).text);
  const told = toldNames(path, plan);
  const opened: SourceFile[] = [];
  for (const table of tableNames) {
    const file = plan.data[table];
    if (file === undefined) continue;
    progress(`reading ${oneLine(file)}`);
    const bytes = await readInput(resolve(dirname(path), file), {
      what: `table ${table}`,
      by: `"data.${table}" in ${name}`,
    });
    opened.push({ table, file: told(file), bytes });
  }
  mustHaveRoomFor(opened);
  const answers = await answersOf({ path, plan, told });
  const keep = answers !== null || doubts === "for the site" ? "every" : "some";
  const mappings = await mappingsOf({ path, plan, told, notice });
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
    ...(answers === null ? {} : { answers }),
  };
  const forSite = doubts === "for the site" ? readCohortForSite(sources, options) : null;
  const files = [...opened, ...mappings, ...(answers === null ? [] : [answers])];
  const toldPlan = withToldNames(plan, told);
  const studyText = plainStudyText(toldPlan);
  return {
    plan: toldPlan,
    studyText,
    read: forSite ?? readCohort(sources, options),
    forSite,
    inputs: fingerprintsOf(files),
    paths: [path, ...filesOf(plan).map((file) => resolve(dirname(path), file))],
    studyFile: fingerprintOf(name, studyText),
  };
}

/** One fingerprint a file, also where several tables are sheets of one workbook. */
function fingerprintsOf(files: readonly AnswersFile[]): readonly Fingerprint[] {
  const first = files.filter(({ file }, place) => files.findIndex((other) => other.file === file) === place);
  return first.map(({ file, bytes }) => fingerprintOf(file, bytes));
}

interface StudyFiles {
  readonly path: string;
  readonly plan: Plan;
  readonly told: ToldNames;
}

/** The mappings that a study names, each with the table it is for. */
async function mappingsOf({
  path,
  plan,
  told,
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
      const by = { what: "mapping", by: `"data.mappings.${table}" in the study file`, name: file, notice };
      const { bytes, text } = await readSettingsFile(resolve(dirname(path), file), by);
      const mapping = readMapping({ file, text });
      if (mapping.table === table) return { table, file: told(file), bytes, mapping };
      throw new CommandError(
        exitCodes.input,
        `${oneLine(file)}: is a mapping for the table ${mapping.table}, and named for ${table}.\n  Correct the study file under data.mappings.`,
      );
    }),
  );
}

/** The file in which the site has answered earlier doubts, where the study names one. */
async function answersOf({ path, plan, told }: StudyFiles): Promise<AnswersFile | null> {
  const file = plan.data.answers;
  if (file === undefined) return null;
  const named = { what: "file of answers", by: '"data.answers" in the study file' };
  return { file: told(file), bytes: await readInput(resolve(dirname(path), file), named) };
}
