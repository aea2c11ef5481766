import { tableNames } from "../schema/table-names.js";
import type { Plan } from "../study/index.js";

/** The name under which each file of a study stands in what is written. */
export type ShownNames = (file: string) => string;

/** A plan with its files under the names that are shown. */
export function withShownNames(plan: Plan, shownName: ShownNames): Plan {
  const { data } = plan;
  const files = tableNames.flatMap((table) => {
    const file = data[table];
    return file === undefined ? [] : [[table, shownName(file)] as const];
  });
  const mappings = Object.entries(data.mappings ?? {}).map(
    ([table, file]) => [table, shownName(file)] as const,
  );
  return {
    ...plan,
    data: {
      ...data,
      ...Object.fromEntries(files),
      ...(data.mappings === undefined ? {} : { mappings: Object.fromEntries(mappings) }),
      ...(data.answers === undefined ? {} : { answers: shownName(data.answers) }),
    },
  };
}

/** Every file that a study names, as it names it, once. */
export const filesOf = ({ data }: Plan): readonly string[] => {
  const named = [
    ...tableNames.map((table) => data[table]),
    ...Object.values(data.mappings ?? {}),
    data.answers,
  ];
  return [...new Set(named)].filter((file) => file !== undefined);
};
