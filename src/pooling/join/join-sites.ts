import type { AnswerAccount } from "../../schema/accounting.js";
import type { TypedRow } from "../../schema/cells.js";
import type { CohortTables, ReadCohort } from "../../schema/cohort-tables.js";
import type { IsoDate } from "../../schema/dates.js";
import type { PersonIds } from "../../schema/person-key.js";
import { refuseTwice } from "./recorded-twice.js";
import type { SiteRead } from "./site-read.js";
import { withStates } from "./states.js";

/**
 * One cohort from the rows of several sites, in the order of the sites: what a table would hold in which somebody had put them
 * below one another. Every injury bears the name that its site has here; where the rows of one folder are of several sites of
 * its own, "north-a" is what the folder of north calls a. Names of injuries are those of the site with its name before them, so
 * that two sites may number alike. Person ids stay as they are: whether equal ones are one person is for the study to state.
 *
 * @param sites each with the account of its rows, which stays that of its files
 * @param options personIds: whether the same person id at two sites is one person
 * @throws JoinError where one injury of one person is recorded at two sites: it would count twice
 */
export function joinSites(
  sites: readonly SiteRead[],
  { personIds }: { readonly personIds: PersonIds },
): ReadCohort {
  const named = sites.map((one) => ({ ...one, nameOf: siteNamer(one) }));
  if (personIds === "shared") refuseTwice(sites);
  const tables = named.map(({ site, states, read, nameOf }) =>
    renamed(read.tables, { site, states, nameOf }),
  );
  const all = <Name extends Exclude<keyof CohortTables, "personIds" | "closings">>(name: Name) =>
    tables.flatMap((own) => own[name] as readonly unknown[]) as unknown as CohortTables[Name];
  const closings = new Map<string | null, IsoDate | null>();
  for (const [i, { closedOn }] of named.entries())
    for (const { values } of tables[i]!.injuries) closings.set(values.site_id, closedOn);
  return {
    tables: {
      injuries: all("injuries"),
      treatments: all("treatments"),
      imaging: all("imaging"),
      visits: all("visits"),
      sites: all("sites"),
      personIds,
      closings,
    },
    accounts: named.flatMap(({ site, read }) => read.accounts.map((account) => ({ ...account, site }))),
    queries: named.flatMap(({ read }) => read.queries),
    answers: answersOfAll(named.flatMap(({ read }) => read.answers ?? [])),
  };
}

/** The site ids that the injuries of some tables bear; null is none. */
export const siteIdsOf = ({ injuries }: Pick<CohortTables, "injuries">): readonly (string | null)[] => [
  ...new Set(injuries.map(({ values }) => values.site_id)),
];

/** The name here of a site id of some tables: that of the site where all injuries are of one. */
function siteNamer({ site, read }: SiteRead): (id: string | null) => string {
  const ids = siteIdsOf(read.tables);
  return ids.length <= 1 ? () => site : (id) => (id === null ? site : `${site}-${id}`);
}

interface Renaming extends Pick<SiteRead, "site" | "states"> {
  readonly nameOf: (id: string | null) => string;
}

function renamed(
  tables: CohortTables,
  { site, states, nameOf }: Renaming,
): Omit<CohortTables, "personIds" | "closings"> {
  const ofInjury = <Row extends { readonly injury_id: string }>(rows: readonly TypedRow<Row>[]) =>
    rows.map((row) => ({
      ...row,
      values: { ...row.values, injury_id: `${site}/${row.values.injury_id}` },
    }));
  return {
    injuries: ofInjury(tables.injuries).map((row) => ({
      ...row,
      values: { ...row.values, site_id: nameOf(row.values.site_id) },
    })),
    treatments: ofInjury(tables.treatments),
    imaging: ofInjury(tables.imaging),
    visits: ofInjury(tables.visits),
    sites: withStates(sitesRenamed(tables, nameOf), {
      site,
      states,
      names: siteIdsOf(tables).map(nameOf),
    }),
  };
}

/** The rows of the sites of which there are injuries; where no injury names a site, the only row there is. */
function sitesRenamed(
  tables: Pick<CohortTables, "injuries" | "sites">,
  nameOf: Renaming["nameOf"],
): CohortTables["sites"] {
  const ids = siteIdsOf(tables);
  const isNamed = ids.some((id) => id !== null);
  const rows = tables.sites.filter(({ values }) => (isNamed ? ids.includes(values.site_id) : true));
  const own = isNamed || rows.length === 1 ? rows : [];
  return own.map((row) => ({ ...row, values: { ...row.values, site_id: nameOf(row.values.site_id) } }));
}

/** The accounts of all files of answers together; null where no site has given any. */
function answersOfAll(accounts: readonly AnswerAccount[]): AnswerAccount | null {
  if (accounts.length <= 1) return accounts[0] ?? null;
  return accounts.reduce((one, other) => ({
    file: `${one.file}, ${other.file}`,
    read: one.read + other.read,
    blank: one.blank + other.blank,
    used: added(one.used, other.used),
    repeated: one.repeated + other.repeated,
    notUsed: added(one.notUsed, other.notUsed),
    cellsChanged: one.cellsChanged + other.cellsChanged,
    rowsLeftOut: one.rowsLeftOut + other.rowsLeftOut,
  }));
}

const added = <Counts extends Readonly<Record<string, number>>>(one: Counts, other: Counts): Counts =>
  Object.fromEntries(Object.entries(one).map(([code, n]) => [code, n + other[code]!])) as unknown as Counts;
