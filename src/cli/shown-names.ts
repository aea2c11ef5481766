import { dirname, isAbsolute, relative, resolve } from "node:path";
import { filesIn, filesOf, type ShownNames } from "../run/study-files.js";
import type { Plan } from "../study/index.js";

/**
 * Names for the files of a study that say nothing of the computer: relative to the study file where a file lies below its
 * folder, else the file's name alone, of several sites after the name of its site; two files of one name are numbered.
 *
 * @param studyPath where the study file lies
 * @param plan with the paths as they are written in it
 */
export function shownNames(studyPath: string, plan: Plan): ShownNames {
  const names = new Map<string, string>();
  const placeOf = (file: string) => resolve(dirname(studyPath), file);
  const add = (file: string, name: string) => {
    const place = placeOf(file);
    if (!names.has(place)) names.set(place, numbered(name, [...names.values()]));
  };
  for (const { site, ...own } of plan.data.from_sites ?? []) {
    for (const file of filesIn(own)) add(file, nameOf(file, studyPath, `${site}/`));
  }
  for (const file of filesOf(plan)) add(file, nameOf(file, studyPath));
  return (file) => names.get(placeOf(file)) ?? nameOf(file, studyPath);
}

/** A path with a drive, a server or a scheme, on whichever system it is read. */
const ofAnotherSystem = /^([A-Za-z][A-Za-z0-9+.-]*:|\\\\|\/\/)/;

/** @param before stands before the name alone of a file that lies elsewhere: whose it is */
function nameOf(file: string, studyPath: string, before = ""): string {
  const folder = dirname(resolve(studyPath));
  const below = relative(folder, resolve(folder, file)).replaceAll("\\", "/");
  const isOutside = isAbsolute(below) || below === ".." || below.startsWith("../");
  if (!isOutside && !ofAnotherSystem.test(file)) return below;
  return `${before}${file.split(/[\\/]/).findLast((part) => part !== "") ?? file}`;
}

/** The name with a number before its ending, where it is taken already. */
function numbered(name: string, taken: readonly string[]): string {
  if (!taken.includes(name)) return name;
  const [, stem, ending] = /^(.*?)(\.[^./]*)?$/s.exec(name)!;
  for (let number = 2; ; number++) {
    const other = `${stem}-${number}${ending ?? ""}`;
    if (!taken.includes(other)) return other;
  }
}
