import type { AnswersFile, CohortForSite, SourceFile } from "../ingest/index.js";
import { settingsText } from "../ingest/text/settings-text.js";
import { oneLine } from "../schema/hidden-characters.js";
import type { ReadCohort } from "../schema/index.js";
import { tableNames } from "../schema/table-names.js";
import type { Plan } from "../study/index.js";
import { type Fingerprint, fingerprintOf } from "./fingerprint.js";
import type { Listener, Machine } from "./machine.js";
import { plainStudyText } from "./plain-study.js";
import { RunError } from "./run-error.js";
import { type ShownNames, withShownNames } from "./study-files.js";

/** A study file, its tables as read, and the fingerprints of every file that was opened. */
export interface StudyInput {
  /** What the study asks, its files under the names that may be shown. */
  readonly plan: Plan;
  /** The plan as a study file, without the comments of its author. */
  readonly studyText: string;
  readonly read: ReadCohort;
  /** Every query for the site to answer; only where it was asked for. */
  readonly forSite: CohortForSite | null;
  /** Of the plan as a study file: comments and layout of the original do not matter. */
  readonly studyFile: Fingerprint;
  readonly inputs: readonly Fingerprint[];
}

/** What to call a file in a message, and where it is named. */
export interface NamedFile {
  readonly what: string;
  readonly by: string;
}

/** The files of a study, wherever they lie. */
export interface StudyFolder {
  /** Name of the study file. */
  readonly name: string;
  readonly bytes: Uint8Array;
  /** The name of a file in what is written, which says nothing of where it lies. */
  readonly shownNames: (plan: Plan) => ShownNames;
  /** @throws InputError, or an error of the door, where there is no such file */
  readonly open: (file: string, named: NamedFile) => Promise<Uint8Array>;
  /** Told of the tables before they are read, for a door that has to make room; may throw. */
  readonly opened?: (tables: readonly SourceFile[]) => void;
}

/**
 * Opens a study file and every table it names.
 *
 * @throws PlanError, StopError, RunError, or what the folder throws; nothing has been written by then
 */
export async function openStudy(
  folder: StudyFolder,
  { sha256, ...listener }: Listener & Pick<Machine, "sha256">,
  { purpose = "for a report" }: { readonly purpose?: "for a report" | "for the site" } = {},
): Promise<StudyInput> {
  const { progress } = listener;
  // the reader alone: checking a sheet needs no statistics
  const { readPlan } = await import("../study/read-plan.js");
  const { openSource, readCohort, readCohortForSite } = await import("../ingest/index.js");
  const { name } = folder;
  const plan = readPlan(name, textOf(folder, listener));
  const shownName = folder.shownNames(plan);
  const opened: SourceFile[] = [];
  for (const table of tableNames) {
    const file = plan.data[table];
    if (file === undefined) continue;
    progress(`reading ${oneLine(file)}`);
    const bytes = await folder.open(file, { what: `table ${table}`, by: `under "data.${table}" in ${name}` });
    opened.push({ table, file: shownName(file), bytes });
  }
  folder.opened?.(opened);
  const answers = await answersOf({ folder, plan, shownName });
  const keep = answers !== null || purpose === "for the site" ? "every" : "some";
  const mappings = await mappingsOf({ folder, plan, shownName, listener });
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
  const shownPlan = withShownNames(plan, shownName);
  const studyText = plainStudyText(shownPlan);
  return {
    plan: shownPlan,
    studyText,
    read: forSite ?? readCohort(sources, options),
    forSite,
    inputs: fingerprintsOf(files, sha256),
    studyFile: fingerprintOf({ name, content: studyText }, sha256),
  };
}

/** The text of a file of settings; a listener hears where it is not UTF-8. */
function textOf(
  { name, bytes }: { readonly name: string; readonly bytes: Uint8Array },
  { notice }: Pick<Listener, "notice">,
): string {
  const { text, encoding } = settingsText(name, bytes);
  if (encoding === "windows-1252") notice(notUtf8(name));
  return text;
}

/** What is said of a file of settings that was saved in an older encoding. */
export const notUtf8 = (name: string): string =>
  `${name} is not UTF-8 and was read as Windows-1252. Check the letters with accents. To be certain, save the file as UTF-8.`;

/** One fingerprint a file, also where several tables are sheets of one workbook. */
function fingerprintsOf(files: readonly AnswersFile[], sha256: Machine["sha256"]): readonly Fingerprint[] {
  const first = files.filter(({ file }, i) => files.findIndex((other) => other.file === file) === i);
  return first.map(({ file, bytes }) => fingerprintOf({ name: file, content: bytes }, sha256));
}

interface StudyFiles {
  readonly folder: StudyFolder;
  readonly plan: Plan;
  readonly shownName: ShownNames;
}

/** The mappings that a study names, each with the table it is for. */
async function mappingsOf({
  folder,
  plan,
  shownName,
  listener,
}: StudyFiles & { readonly listener: Pick<Listener, "notice"> }) {
  const named = tableNames.flatMap((table) => {
    const file = plan.data.mappings?.[table];
    return file === undefined ? [] : [{ table, file }];
  });
  if (named.length === 0) return [];
  const { readMapping } = await import("../ingest/mapping/index.js");
  return Promise.all(
    named.map(async ({ table, file }) => {
      const by = `under "data.mappings.${table}" in the study file`;
      const bytes = await folder.open(file, { what: "mapping", by });
      const mapping = readMapping({ file, text: textOf({ name: file, bytes }, listener) });
      if (mapping.table === table) return { table, file: shownName(file), bytes, mapping };
      throw new RunError(
        `${oneLine(file)}: this is a mapping for the table ${mapping.table}, but it is named for the table ${table}.\n  Correct data.mappings in the study file.`,
      );
    }),
  );
}

/** The file in which the site has answered earlier queries, if the study names one. */
async function answersOf({ folder, plan, shownName }: StudyFiles): Promise<AnswersFile | null> {
  const file = plan.data.answers;
  if (file === undefined) return null;
  const named = { what: "file of answers", by: 'under "data.answers" in the study file' };
  return { file: shownName(file), bytes: await folder.open(file, named) };
}
