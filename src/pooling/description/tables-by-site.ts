import type { CohortTables } from "../../schema/cohort-tables.js";

/** The tables of one site among joined ones. */
export interface TablesOfSite {
  readonly site: string;
  readonly tables: CohortTables;
}

/** Joined tables taken apart again by the site that their injuries bear, in the order of the rows. */
export function tablesBySite(tables: CohortTables): readonly TablesOfSite[] {
  const names = [...new Set(tables.injuries.flatMap(({ values }) => values.site_id ?? []))];
  const siteOf = new Map(tables.injuries.map(({ values }) => [values.injury_id, values.site_id]));
  return names.map((site) => {
    const isOwn = ({ values }: { readonly values: { readonly injury_id: string } }) =>
      siteOf.get(values.injury_id) === site;
    return {
      site,
      tables: {
        ...tables,
        injuries: tables.injuries.filter(isOwn),
        treatments: tables.treatments.filter(isOwn),
        imaging: tables.imaging.filter(isOwn),
        visits: tables.visits.filter(isOwn),
        sites: tables.sites.filter(({ values }) => values.site_id === site),
      },
    };
  });
}
