import type { CopiedTable, SharedCohort, ShareSettings } from "../../privacy/index.js";
import { counted, jsonText, labelOf, yamlText } from "../../schema/index.js";
import type { Plan } from "../../study/index.js";
import { neededFields } from "../../study/needed-fields.js";
import type { Machine } from "../machine.js";
import { type FolderKind, folderFormats, listedFiles, type OutputFile } from "../manifest.js";

/** Words at the head of the title of every copy. */
const copyMark = "De-identified copy: ";

/** Longest title that a study file takes. */
const longestTitle = 200;

/** The study of the copy: the same question of the same rows, files and sites under their new names. */
export function sharedPlan(
  plan: Plan,
  { copy, settings }: { readonly copy: SharedCohort; readonly settings: ShareSettings },
): Plan {
  const { compare } = plan;
  const bySite = compare.by === "site_id";
  const renamed = (group: string) => (bySite ? copy.siteName(group) : group);
  const { closed_on, ...data } = {
    ...Object.fromEntries(copy.tables.map(({ table }) => [table, fileOf(table, plan)])),
    date_order: "year-first" as const,
    closed_on: plan.data.closed_on,
    // per site, equal ids of two sites have different names in the copy
    person_ids: plan.data.person_ids ?? "per_site",
  };
  // what was sealed is the site's own; the copy asks under another name, of other files
  const { sealed: _, ...asked } = plan;
  return {
    ...asked,
    study: `${plan.study.slice(0, 57)}-shared`,
    title: titleOfCopy(plan.title),
    data:
      settings.dates === "as-they-are"
        ? { ...data, ...(closed_on === undefined ? {} : { closed_on }) }
        : { ...data, calendar: "per_person" },
    compare: {
      ...compare,
      groups: compare.groups.map(renamed),
      reference: renamed(compare.reference),
    },
    who: { ...plan.who, ...(plan.who.sites && { sites: plan.who.sites.map(copy.siteName) }) },
  };
}

function titleOfCopy(title: string): string {
  if (title.includes(copyMark)) return title;
  const [, synthetic = "", rest = ""] = /^(SYNTHETIC: )?(.*)$/su.exec(title) ?? [];
  return `${synthetic}${copyMark}${rest}`.slice(0, longestTitle);
}

/** The file of a table; invented data are marked in its name. */
export const fileOf = (table: CopiedTable["table"], { synthetic }: Pick<Plan, "synthetic">): string =>
  `${synthetic ? "synthetic-" : ""}${table}.csv`;

/** The study file of the copy as text. */
export function sharedStudyText(plan: Plan, settings: ShareSettings): string {
  const mark = plan.synthetic ? "# SYNTHETIC: invented data, which say nothing about patients.\n" : "";
  const dates =
    settings.dates === "as-they-are"
      ? ""
      : "# The dates are on a separate calendar for each person: only the number of days between them is meaningful.\n";
  return `${mark}# The study file of a de-identified copy, written together with it. See disclosure.html.\n${dates}${yamlText(plan)}`;
}

/** What the study needs and the copy no longer holds as it was, in words. */
export function lostForStudy(plan: Plan, { disclosure }: SharedCohort): readonly string[] {
  const needed = neededFields(plan);
  const { made_coarser, cells_left_out } = disclosure.combinations;
  const banded = disclosure.columns
    .filter(({ done, column }) => done === "banded" && needed.includes(column))
    .map(({ column }) => `${labelOf(column)} is given in bands`);
  const coarser = needed.flatMap((field) => made_coarser.filter((says) => says.includes(labelOf(field))));
  const without = needed.flatMap((field) =>
    cells_left_out
      .filter((each) => each.field === labelOf(field))
      .map(({ cells }) => `${labelOf(field)} is left out in ${counted(cells, "row", "rows")}`),
  );
  return [...banded, ...coarser, ...without];
}

interface AboutFolder extends Pick<Machine, "sha256" | "version"> {
  readonly kind: FolderKind;
  readonly synthetic: boolean;
}

/** What a folder holds that may leave; nothing about the files it was made from, which stay at the site. */
export function folderManifest(
  files: readonly OutputFile[],
  { kind, version, synthetic, sha256 }: AboutFolder,
): OutputFile {
  const manifest = {
    format: folderFormats[kind],
    toolkit_version: version,
    synthetic,
    outputs: listedFiles(files, sha256),
  };
  return { path: "manifest.json", content: jsonText(manifest) };
}
