import { dirname, isAbsolute, relative, resolve } from "node:path";
import { filesOf, type ShownNames } from "../run/study-files.js";
import type { Plan } from "../study/index.js";

/**
 * Names for the files of a study that say nothing of the computer: relative to the study file where a file lies below its
 * folder, else the file's name alone; two files of one name are numbered.
 *
 * @param studyPath where the study file lies
 * @param plan with the paths as they are written in it
 */
export function shownNames(studyPath: string, plan: Plan): ShownNames {
  const names = new Map<string, string>();
  const placeOf = (file: string) => resolve(dirname(studyPath), file);
  for (const file of filesOf(plan)) {
    const place = placeOf(file);
    if (names.has(place)) continue;
    names.set(place, numbered(nameOf(file, studyPath), [...names.values()]));
  }
  return (file) => names.get(placeOf(file)) ?? nameOf(file, studyPath);
}

/** A path with a drive, a server or a scheme, on whichever system it is read. */
const ofAnotherSystem = /^([A-Za-z][A-Za-z0-9+.-]*:|\\\\|\/\/)/;

function nameOf(file: string, studyPath: string): string {
  const folder = dirname(resolve(studyPath));
  const below = relative(folder, resolve(folder, file)).replaceAll("\\", "/");
  const isOutside = isAbsolute(below) || below === ".." || below.startsWith("../");
  if (!isOutside && !ofAnotherSystem.test(file)) return below;
  return file.split(/[\\/]/).findLast((part) => part !== "") ?? file;
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
