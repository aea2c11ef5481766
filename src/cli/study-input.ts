import { dirname, resolve } from "node:path";
import type { StudyInput as OpenedStudy } from "../run/index.js";
import { openStudy as openStudyIn } from "../run/open-study.js";
import { filesOf } from "../run/study-files.js";
import { largestSettings } from "../schema/settings/parse-yaml.js";
import type { Plan } from "../study/index.js";
import { sha256 } from "./machine.js";
import { type Load, mustHaveRoomFor } from "./own-process.js";
import { readInput } from "./read-input.js";
import { shownNames } from "./shown-names.js";
import type { Terminal } from "./terminal.js";

/** A study that was opened from a disk. */
export interface StudyInput extends OpenedStudy {
  /** Where each of its files lies: nothing is written there. */
  readonly paths: readonly string[];
  /** Where the file of answers lies: a list that holds all of them may take its place. */
  readonly answersPath: string | null;
}

/**
 * Opens a study file and every table it names.
 *
 * @throws PlanError, StopError, RunError or CommandError; nothing has been written by then
 */
export async function openStudy(
  path: string,
  terminal: Terminal,
  {
    hasRoom = () => undefined,
    ...options
  }: {
    readonly purpose?: "for a report" | "for the site";
    /** Called where the tables, or those of one more site, are about to be read and there is room for them in this process. */
    readonly hasRoom?: () => void;
  } = {},
): Promise<StudyInput> {
  const name = path.split(/[\\/]/).at(-1)!;
  const placeOf = (file: string) => resolve(dirname(path), file);
  let files: readonly string[] = [];
  let answersPath: string | null = null;
  const folder = {
    name,
    bytes: await readInput(path, { what: "study file", by: "on the command line", atMost: largestSettings }),
    shownNames: (plan: Plan) => {
      files = filesOf(plan);
      answersPath = plan.data.answers === undefined ? null : placeOf(plan.data.answers);
      return shownNames(path, plan);
    },
    open: (file: string, { what, by }: { readonly what: string; readonly by: string }) =>
      readInput(placeOf(file), { what, by, ...(what === "mapping" ? { atMost: largestSettings } : {}) }),
    opened: (tables: readonly Load[]) => {
      mustHaveRoomFor(tables);
      hasRoom();
    },
  };
  const study = await openStudyIn(folder, { ...terminal, sha256 }, options);
  return { ...study, answersPath, paths: [path, ...files.map(placeOf)] };
}
