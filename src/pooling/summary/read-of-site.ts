import type { ReadCohort } from "../../schema/cohort-tables.js";
import { InputError } from "../../schema/input-error.js";
import type { SiteRow } from "../../schema/sites.js";
import { visible } from "../../schema/words/wording.js";
import type { Plan } from "../../study/plan.js";

/** The tables do not say of which site a summary is wanted, or hold nothing of it. */
export class SiteError extends InputError {
  override readonly name = "SiteError";
}

/** The rows of one site, with its name and its plan. */
export interface ReadOfSite {
  readonly site: string;
  readonly read: ReadCohort;
  /** The agreed study file, which names no sites here. */
  readonly plan: Plan;
  /** What the site states of itself. */
  readonly rows: readonly SiteRow[];
  /** How many sites the tables name. */
  readonly among: number;
}

/** Longest list of sites in a message. */
const mostNamed = 20;

/** The sites that the injuries of the tables name, in order of their names. */
export const sitesNamed = ({ tables }: ReadCohort): readonly string[] =>
  [...new Set(tables.injuries.flatMap(({ values }) => values.site_id ?? []))].sort();

/** @throws SiteError where it is not clear which site is meant, or it has no injury */
export function readOfSite(
  read: ReadCohort,
  { named, plan }: { readonly named: string | undefined; readonly plan: Plan },
): ReadOfSite {
  const stated = read.tables.sites;
  const sites = sitesNamed(read);
  const asked = { ...plan, who: withoutSites(plan.who) };
  const site = named ?? (sites.length === 1 ? sites[0] : undefined);
  if (site === undefined)
    throw new SiteError(
      sites.length === 0
        ? "The tables do not say which site they are of.\n  Name it with --site: the name by which the others in the pool know it."
        : `The tables hold injuries of ${sites.length} sites, and a summary is of one: ${listOf(sites)}.\n  Name one of them with --site.`,
    );
  const rowsOf = (name: string) =>
    stated.map(({ values }) => values).filter(({ site_id }) => site_id === name);
  if (sites.length < 2 && (sites.length === 0 || sites[0] === site)) {
    const rows = sites.length === 0 ? stated.map(({ values }) => values) : rowsOf(site);
    return { site, read, plan: asked, rows, among: sites.length };
  }
  if (!sites.includes(site))
    throw new SiteError(
      `No injury of the tables is of the site "${visible(site, 200)}".\n  ${sites.length === 1 ? "The site" : "The sites"} of the tables: ${listOf(sites)}.`,
    );
  return { site, read: restricted(read, site), plan: asked, rows: rowsOf(site), among: sites.length };
}

const listOf = (sites: readonly string[]): string =>
  sites
    .slice(0, mostNamed)
    .map((site) => visible(site, 200))
    .join(", ") + (sites.length > mostNamed ? " and others" : "");

function withoutSites({ sites: _, ...who }: Plan["who"]): Plan["who"] {
  return who;
}

function restricted(read: ReadCohort, site: string): ReadCohort {
  const { tables } = read;
  const injuries = tables.injuries.filter(({ values }) => values.site_id === site);
  const own = new Set(injuries.map(({ values }) => values.injury_id));
  const ofThese = <Row extends { readonly values: { readonly injury_id: string } }>(rows: readonly Row[]) =>
    rows.filter(({ values }) => own.has(values.injury_id));
  return {
    ...read,
    tables: {
      ...tables,
      injuries,
      treatments: ofThese(tables.treatments),
      imaging: ofThese(tables.imaging),
      visits: ofThese(tables.visits),
      sites: tables.sites.filter(({ values }) => values.site_id === site),
    },
  };
}
