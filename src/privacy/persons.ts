import type { CohortTables } from "../schema/cohort-tables.js";
import type { InjuryRow } from "../schema/injuries.js";
import type { LinkedTableName } from "../schema/table-names.js";

/** The tables whose rows name an injury, with the injuries themselves. */
export const injuryTables = [
  "injuries",
  "treatments",
  "imaging",
  "visits",
] as const satisfies readonly LinkedTableName[];

/** A row as plain values by column. */
export type Values = Readonly<Record<string, unknown>>;

/** A person id is only unique within its site; the two together as one text. */
export const personOf = ({ site_id, person_id }: Pick<InjuryRow, "site_id" | "person_id">): string =>
  JSON.stringify([site_id, person_id]);

/** The person behind each injury id. */
export const personsOfInjuries = ({ injuries }: CohortTables): ReadonlyMap<string, string> =>
  new Map(injuries.map(({ values }) => [values.injury_id, personOf(values)]));
