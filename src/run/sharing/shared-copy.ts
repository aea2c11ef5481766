import {
  defaultSettings,
  type SecretKey,
  type SharedCohort,
  type ShareSettings,
  shareCohort,
} from "../../privacy/index.js";
import { jsonText } from "../../schema/index.js";
import { neededFields } from "../../study/needed-fields.js";
import type { Plan } from "../../study/plan.js";
import { readPlan } from "../../study/read-plan.js";
import type { Machine } from "../machine.js";
import type { OutputFile } from "../manifest.js";
import type { StudyInput } from "../open-study.js";
import { RunError } from "../run-error.js";
import { disclosurePage } from "./disclosure-page.js";
import { fileOf, folderManifest, lostForStudy, sharedPlan, sharedStudyText } from "./shared-plan.js";

/** The usual settings of a copy, for what a study needs. */
export const settingsFor = (plan: Plan): ShareSettings => ({
  ...defaultSettings,
  neededByStudy: neededFields(plan),
  milestone: plan.question.milestone,
  closedOn: plan.data.closed_on ?? null,
});

/**
 * A de-identified copy of the tables of a study.
 *
 * @throws RunError when no injury is early enough to be told; RangeError for columns that cannot be counted
 */
export function copyOf(
  { read }: Pick<StudyInput, "read">,
  options: { readonly key: SecretKey; readonly settings: ShareSettings },
): SharedCohort {
  const copy = shareCohort(read.tables, options);
  const { rows, settings } = copy.disclosure;
  if (rows.some(({ table, in_copy }) => table === "injuries" && in_copy > 0)) return copy;
  throw new RunError(
    `Every injury is within the last ${settings.closingWindow} days before the closing date of its site, or too close to its first patient, so that it cannot be shared without disclosing its date.\n  Share these data when more time has passed.`,
  );
}

type Describing = Pick<Machine, "sha256" | "version" | "fontCss">;

/** The report on what a copy discloses, as a page. */
export const disclosureOf = (
  copy: SharedCohort,
  { plan, title }: { readonly plan: Plan; readonly title: string },
  { sha256, version, fontCss }: Describing,
): Promise<string> =>
  disclosurePage({
    disclosure: copy.disclosure,
    title,
    synthetic: plan.synthetic,
    lost: lostForStudy(plan, copy),
    version,
    fontCss: fontCss(),
    sha256,
  });

/** Every file of a copy that may leave the site: its tables, its study file, and the report on what it discloses. */
export async function copyFiles(
  copy: SharedCohort,
  { plan, settings }: { readonly plan: Plan; readonly settings: ShareSettings },
  machine: Describing,
): Promise<readonly OutputFile[]> {
  const shared = sharedPlan(plan, { copy, settings });
  const studyText = sharedStudyText(shared, settings);
  // the copy must be a study that can be read, whatever the original was
  readPlan("study.yaml", studyText);
  const files: OutputFile[] = [
    { path: "study.yaml", content: studyText },
    ...copy.tables.map(({ table, text }) => ({ path: fileOf(table, plan), content: text })),
    { path: "disclosure.html", content: await disclosureOf(copy, { plan, title: shared.title }, machine) },
    { path: "disclosure.json", content: jsonText(copy.disclosure) },
  ];
  const { version, sha256 } = machine;
  const about = { kind: "shared copy" as const, version, synthetic: plan.synthetic, sha256 };
  return [...files, folderManifest(files, about)];
}
