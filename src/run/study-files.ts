import { tableNames } from "../schema/table-names.js";
import type { Plan } from "../study/index.js";
import type { FromSite } from "../study/plan-data.js";

/** The name under which each file of a study stands in what is written. */
export type ShownNames = (file: string) => string;

/** A plan with its files under the names that are shown. */
export const withShownNames = (plan: Plan, shownName: ShownNames): Plan => {
  const { from_sites, ...data } = plan.data;
  return {
    ...plan,
    ...(plan.sealed === undefined ? {} : { sealed: shownName(plan.sealed) }),
    data: {
      ...shownIn(data, shownName),
      ...(from_sites && { from_sites: from_sites.map((site) => shownIn(site, shownName)) }),
    },
  };
};

type Tables = Omit<FromSite, "site" | "states" | "folder" | "study" | "date_order">;

/** Tables, mappings and answers under the names that are shown. */
function shownIn<Data extends Tables>(data: Data, shownName: ShownNames): Data {
  const files = tableNames.flatMap((table) => {
    const file = data[table];
    return file === undefined ? [] : [[table, shownName(file)] as const];
  });
  const mappings = Object.entries(data.mappings ?? {}).map(
    ([table, file]) => [table, shownName(file)] as const,
  );
  return {
    ...data,
    ...Object.fromEntries(files),
    ...(data.mappings === undefined ? {} : { mappings: Object.fromEntries(mappings) }),
    ...(data.answers === undefined ? {} : { answers: shownName(data.answers) }),
  };
}

/** Every file that a study names, as it names it, once. */
export const filesOf = ({ data, sealed }: Plan): readonly string[] => [
  ...new Set([
    ...[data, ...(data.from_sites ?? [])].flatMap(filesIn),
    ...(sealed === undefined ? [] : [sealed]),
  ]),
];

/** The files of one site, or of a study of one. */
export const filesIn = (data: Tables): readonly string[] => {
  const named = [
    ...tableNames.map((table) => data[table]),
    ...Object.values(data.mappings ?? {}),
    data.answers,
  ];
  return [...new Set(named)].filter((file) => file !== undefined);
};
