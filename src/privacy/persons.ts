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

/** Names the person of an injury: the id with its site, or alone where sites share their ids. */
export const personNamer =
  ({ personIds }: Pick<CohortTables, "personIds">) =>
  ({ site_id, person_id }: Pick<InjuryRow, "site_id" | "person_id">): string =>
    JSON.stringify(personIds === "shared" ? [person_id] : [site_id, person_id]);

/** The person behind each injury id. */
export function personsOfInjuries(tables: CohortTables): ReadonlyMap<string, string> {
  const personOf = personNamer(tables);
  return new Map(tables.injuries.map(({ values }) => [values.injury_id, personOf(values)]));
}
