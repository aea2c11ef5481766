import { deriveCohort } from "../../cohort/derive.js";
import { linkTables } from "../../cohort/link.js";
import type { CohortTables } from "../../schema/cohort-tables.js";
import type { Plan } from "../../study/plan.js";
import { specificationOf } from "../../study/specification.js";
import type { SiteCohort } from "./describe-site.js";

/**
 * All injuries of some tables as the cohort of one site, linked and derived. What the site states of itself are the rows of its
 * sites table to which an injury belongs; where no injury names a site, all of them.
 *
 * @param tables typed rows
 * @param options site: the name by which the site is known; plan: what is asked
 */
export function siteCohort(
  tables: CohortTables,
  { site, plan }: { readonly site: string; readonly plan: Plan },
): SiteCohort {
  const linked = linkTables(tables);
  const named = new Set(linked.flatMap(({ injury }) => injury.values.site_id ?? []));
  const rows = tables.sites.map(({ values }) => values);
  return {
    site,
    rows: named.size === 0 ? rows : rows.filter(({ site_id }) => named.has(site_id)),
    linked,
    records: deriveCohort(linked, specificationOf(plan).question).records,
  };
}
