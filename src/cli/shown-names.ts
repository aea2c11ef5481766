import { dirname, isAbsolute, relative, resolve } from "node:path";
import { tableNames } from "../schema/table-names.js";
import type { Plan } from "../study/index.js";

/** The name under which each file of a study stands in what is written. */
export type ShownNames = (file: string) => string;

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

/** A plan with its files under the names that are told. */
export function withShownNames(plan: Plan, told: ShownNames): Plan {
  const { data } = plan;
  const files = tableNames.flatMap((table) => {
    const file = data[table];
    return file === undefined ? [] : [[table, told(file)] as const];
  });
  const mappings = Object.entries(data.mappings ?? {}).map(([table, file]) => [table, told(file)] as const);
  return {
    ...plan,
    data: {
      ...data,
      ...Object.fromEntries(files),
      ...(data.mappings === undefined ? {} : { mappings: Object.fromEntries(mappings) }),
      ...(data.answers === undefined ? {} : { answers: told(data.answers) }),
    },
  };
}

/** Every file that a study names, as it names it. */
export const filesOf = ({ data }: Plan): readonly string[] =>
  [...tableNames.map((table) => data[table]), ...Object.values(data.mappings ?? {}), data.answers].filter(
    (file) => file !== undefined,
  );

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
