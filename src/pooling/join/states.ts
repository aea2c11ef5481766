import type { CohortTables } from "../../schema/cohort-tables.js";
import { isKeyedDefinition, plainDefinition } from "../../schema/definitions.js";
import { blankRow } from "../../schema/field.js";
import { InputError } from "../../schema/input-error.js";
import { type SiteRow, siteRow } from "../../schema/sites.js";

/** Columns of the sites table in which a site says what its words mean and how it works. */
export type States = {
  readonly [Name in keyof Omit<SiteRow, "site_id" | "name" | "country">]?: SiteRow[Name] | undefined;
};

/** A site is said to mean something else than it states itself. */
export class StatesError extends InputError {
  override readonly name = "StatesError";
}

/**
 * The rows of a site with what the study file says that it states: where its own table says nothing, or only by the keyed name
 * of a shared copy. What the table says in words stands, and nobody may say otherwise.
 *
 * @param rows of the site's own table
 * @param options names: of the site, one a site id of its injuries
 * @throws StatesError where the two contradict each other
 */
export function withStates(
  rows: CohortTables["sites"],
  given: { readonly site: string; readonly states: States | undefined; readonly names: readonly string[] },
): CohortTables["sites"] {
  const { states, names } = given;
  if (states === undefined) return rows;
  const known = new Set(rows.map(({ values }) => values.site_id));
  const blank = names
    .filter((name) => !known.has(name))
    .map((site_id) => ({ file: "study file", row: 0, values: { ...blankRow(siteRow), site_id } }));
  return [...rows, ...blank].map((row) => ({ ...row, values: stated(row.values, given) }));
}

function stated(
  values: SiteRow,
  { site, states = {} }: { site: string; states: States | undefined },
): SiteRow {
  const said = Object.entries(states).filter(([, value]) => value !== null && value !== undefined);
  for (const [column, value] of said) {
    const own = values[column as keyof SiteRow];
    if (own === null || isKeyedDefinition(String(own))) continue;
    if (plainDefinition(String(own)) === plainDefinition(String(value))) continue;
    throw new StatesError(
      `data.from_sites, site ${site}, "${column}": the study file says that the site states "${value}", but its own table says "${own}".\n  Ask the site, and correct the one or the other.`,
    );
  }
  return { ...values, ...Object.fromEntries(said) };
}
