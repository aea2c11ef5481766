import type { SourceFile } from "../../ingest/index.js";
import { joinSites, type SiteRead, siteIdsOf } from "../../pooling/join/index.js";
import { InputError } from "../../schema/input-error.js";
import type { Plan } from "../../study/index.js";
import type { Fingerprint } from "../fingerprint.js";
import { RunError } from "../run-error.js";
import type { OpenedTables, StudyFolder } from "../study-folder.js";
import type { ResolvedSite } from "./resolve-sites.js";

type Folder = Omit<StudyFolder, "bytes">;

/** Opens the tables of a study of one site. */
type OpenOne = (study: { readonly folder: Folder; readonly plan: Plan }) => Promise<OpenedTables>;

/**
 * Opens the tables of every site, each with its own mappings, order of dates, answers and closing day, and joins them.
 *
 * @param study a plan whose sites name their tables
 * @param openOne opens the tables of a study of one site
 * @throws RunError that names the site, where its files cannot be read or do not go with the others
 */
export async function openSites(
  { folder, plan }: { readonly folder: Folder; readonly plan: Plan },
  openOne: OpenOne,
): Promise<OpenedTables> {
  const shown = folder.shownNames(plan);
  const tables: SourceFile[] = [];
  const read: SiteRead[] = [];
  const inputs: Fingerprint[] = [];
  for (const own of plan.data.from_sites ?? []) {
    const ofSite = await named(own.site, () =>
      openOne({ folder: folderOf(own.site, { folder, shown, tables }), plan: planOf(own, plan) }),
    );
    refuseOtherPersons(ofSite, { own, plan });
    read.push({
      site: own.site,
      read: ofSite.read,
      closedOn: closingOf(own, plan),
      ownCalendars: own.calendar === "per_person",
      states: own.states,
    });
    inputs.push(...ofSite.inputs);
  }
  return {
    read: joinSites(read, { personIds: plan.data.person_ids ?? "per_site" }),
    forSite: null,
    inputs: inputs.filter(({ name }, i) => inputs.findIndex((other) => other.name === name) === i),
  };
}

/** The day on which the data of a site were closed: its own, else that of the study; none on calendars of their own. */
const closingOf = ({ closed_on, calendar }: ResolvedSite, { data }: Plan) =>
  calendar === "per_person" ? null : (closed_on ?? data.closed_on ?? null);

/** The study with the tables of one site alone. */
function planOf({ site: _, states: _states, ...own }: ResolvedSite, plan: Plan): Plan {
  const { from_sites: _sites, calendar: _calendar, closed_on, ...data } = plan.data;
  const isOnOwn = own.calendar === "per_person";
  const { date_order = data.date_order, ...tables } = own;
  return {
    ...plan,
    data: { ...data, ...(isOnOwn || closed_on === undefined ? {} : { closed_on }), ...tables, date_order },
  };
}

interface OfFolder {
  readonly folder: Folder;
  readonly shown: ReturnType<Folder["shownNames"]>;
  /** Tables of the sites before, which are held in memory as well. */
  readonly tables: SourceFile[];
}

/** The folder of the study as one site is read from it. */
const folderOf = (site: string, { folder, shown, tables }: OfFolder): Folder => ({
  ...folder,
  shownNames: () => shown,
  open: (file, { what, by }) => folder.open(file, { what: `${what} of the site ${site}`, by }),
  opened: (own) => {
    tables.push(...own);
    folder.opened?.(tables);
  },
});

/** An error of a site's files, with the name of the site before it. */
async function named<T>(site: string, made: () => Promise<T>): Promise<T> {
  try {
    return await made();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    throw new RunError(`Site ${site}: ${error.message}`, { cause: error });
  }
}

/** Of a folder with several sites, one statement on person ids must hold within it and across. */
function refuseOtherPersons(
  { read }: OpenedTables,
  { own, plan }: { readonly own: ResolvedSite; readonly plan: Plan },
): void {
  const across = plan.data.person_ids ?? "per_site";
  const ids = siteIdsOf(read.tables);
  if (ids.length <= 1 || read.tables.personIds === across) return;
  throw new RunError(
    `Site ${own.site}: its rows are of ${ids.length} sites, whose person ids are ${read.tables.personIds} by its own study file; this study says ${across}.\n  State person_ids: ${read.tables.personIds} under data, or name these sites one by one.`,
  );
}
