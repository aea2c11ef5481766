import type { AnswersFile, SourceFile } from "../ingest/index.js";
import { settingsText } from "../ingest/text/settings-text.js";
import { oneLine } from "../schema/hidden-characters.js";
import { tableNames } from "../schema/table-names.js";
import type { Plan } from "../study/index.js";
import type { SealedResult } from "../study/sealed/sealed-plan.js";
import { type Fingerprint, fingerprintOf } from "./fingerprint.js";
import type { Listener, Machine } from "./machine.js";
import { readSealed } from "./open-sealed.js";
import { plainStudyText } from "./plain-study.js";
import { RunError } from "./run-error.js";
import { openSites } from "./sites/open-sites.js";
import { resolvedPlan } from "./sites/resolve-sites.js";
import { type ShownNames, withShownNames } from "./study-files.js";
import type { OpenedTables, StudyFolder } from "./study-folder.js";

/** A study file with its tables as read. */
export interface StudyInput extends OpenedTables {
  /** What the study asks, its files under the names that may be shown. */
  readonly plan: Plan;
  /** The plan as a study file, without the comments of its author. */
  readonly studyText: string;
  /** Of the plan as a study file: comments and layout of the original do not matter. */
  readonly studyFile: Fingerprint;
  /** What the plan asks beside what was sealed before; null where it names no sealed plan. */
  readonly sealed: SealedResult | null;
}

/** What tables are opened for: a site wants every query, a report no more than it shows. */
export interface Purpose {
  readonly purpose?: "for a report" | "for the site";
}

type Opener = Listener & Pick<Machine, "sha256">;

/**
 * Opens a study file and every table it names.
 *
 * @throws PlanError, StopError, RunError, or what the folder throws; nothing has been written by then
 */
export async function openStudy(
  folder: StudyFolder,
  opener: Opener,
  purpose: Purpose = {},
): Promise<StudyInput> {
  // the reader alone: checking a sheet needs no statistics
  const { readPlan } = await import("../study/read-plan.js");
  const { sha256 } = opener;
  const { plan, studies } = await resolvedPlan(readPlan(folder.name, textOf(folder, opener)), folder);
  const study = { folder, plan };
  const seal = await sealedFileOf(study);
  const tables = await openTables(study, opener, purpose);
  const shownName = folder.shownNames(plan);
  const named = [...studies, ...seal].map(({ file, bytes }) => ({ file: shownName(file), bytes }));
  const inputs = [...fingerprintsOf(named, sha256), ...tables.inputs];
  const input = studyInputOf(study, { tables: { ...tables, inputs }, sha256 });
  return seal.length === 0 ? input : { ...input, sealed: await besideSealedFile(plan, seal[0]!, sha256) };
}

/** The file of the sealed plan, where the study names one. */
async function sealedFileOf({ folder, plan: { sealed: file } }: NamedPlan): Promise<AnswersFile[]> {
  if (file === undefined) return [];
  const bytes = await folder.open(file, { what: "sealed plan", by: `under "sealed" in ${folder.name}` });
  return [{ file, bytes }];
}

async function besideSealedFile(
  plan: Plan,
  seal: AnswersFile,
  sha256: Machine["sha256"],
): Promise<SealedResult> {
  const { besideSealed } = await import("../study/sealed/sealed-plan.js");
  return besideSealed(plan, await readSealed(seal, { sha256 }));
}

interface NamedPlan {
  /** Where its files lie; the study file itself has been read. */
  readonly folder: Omit<StudyFolder, "bytes">;
  readonly plan: Plan;
}

/** A plan with its tables, as a run takes it. */
export function studyInputOf(
  { folder, plan }: { readonly folder: Pick<StudyFolder, "name" | "shownNames">; readonly plan: Plan },
  { tables, sha256 }: { readonly tables: OpenedTables } & Pick<Machine, "sha256">,
): StudyInput {
  const shownPlan = withShownNames(plan, folder.shownNames(plan));
  const studyText = plainStudyText(shownPlan);
  const studyFile = fingerprintOf({ name: folder.name, content: studyText }, sha256);
  return { ...tables, plan: shownPlan, studyText, studyFile, sealed: null };
}

/** Opens every table that a plan names. They depend on `tablesAsked` of the plan and on the files alone. */
export const openTables = (study: NamedPlan, opener: Opener, purpose: Purpose = {}): Promise<OpenedTables> =>
  study.plan.data.from_sites === undefined
    ? openTablesOfSite(study, opener, purpose)
    : openSites(study, (ofSite) => openTablesOfSite(ofSite, opener, { purpose: "for a report" }));

/** Opens the tables of a plan that names those of one site, or of several in one table. */
async function openTablesOfSite(
  { folder, plan }: NamedPlan,
  { sha256, ...listener }: Opener,
  { purpose = "for a report" }: Purpose,
): Promise<OpenedTables> {
  const { progress } = listener;
  const { openSource, readCohort, readCohortForSite } = await import("../ingest/index.js");
  const shownName = folder.shownNames(plan);
  const opened: SourceFile[] = [];
  for (const table of tableNames) {
    const file = plan.data[table];
    if (file === undefined) continue;
    progress(`reading ${oneLine(file)}`);
    const named = { what: `table ${table}`, by: `under "data.${table}" in ${folder.name}` };
    opened.push({ table, file: shownName(file), bytes: await folder.open(file, named) });
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
  const { data, thresholdMm } = tablesAsked(plan);
  const options = {
    closedOn: data.closed_on ?? null,
    thresholdMm,
    dateOrder: data.date_order,
    calendar: data.calendar ?? "common",
    personIds: data.person_ids,
    ...(answers === null ? {} : { answers }),
  };
  const forSite = purpose === "for the site" ? readCohortForSite(sources, options) : null;
  const files = [...opened, ...mappings, ...(answers === null ? [] : [answers])];
  return {
    read: forSite ?? readCohort(sources, options),
    forSite,
    inputs: fingerprintsOf(files, sha256),
  };
}

/** What of a plan the reading of its tables depends on. */
export const tablesAsked = ({ data, distance }: Plan) => ({ data, thresholdMm: distance.threshold_mm });

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

interface StudyFiles extends NamedPlan {
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
