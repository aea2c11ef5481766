import type { SourceFile } from "../../ingest/index.js";
import { settingsText } from "../../ingest/text/settings-text.js";
import { tableNames } from "../../schema/table-names.js";
import type { Plan } from "../../study/index.js";
import type { FromSite } from "../../study/plan-data.js";
import { RunError } from "../run-error.js";
import type { StudyFolder } from "../study-folder.js";

/** A site with its tables named, as its folder or its own study file names them. */
export interface ResolvedSite extends Omit<FromSite, "folder" | "study"> {}

/** A plan in which every site names its tables, and the study files of the sites that were read for it. */
export interface ResolvedPlan {
  readonly plan: Plan;
  readonly studies: readonly { readonly file: string; readonly bytes: Uint8Array }[];
}

interface Opened {
  readonly site: ResolvedSite;
  /** Whether its own study file marks it as invented; null where there is none. */
  readonly synthetic: boolean | null;
  readonly study: { readonly file: string; readonly bytes: SourceFile["bytes"] } | null;
}

/**
 * The plan of a study of several sites with the tables of each site in place of its folder or study file, and with what follows
 * from the sites being several: the site is one of the strata of every adjusted comparison, dates are on calendars of their own
 * where those of one site are, and the whole is marked as invented where the sites are.
 *
 * @returns the plan as it is where it names no sites
 * @throws PlanError of a site's own study file; RunError where sites do not go together
 */
export async function resolvedPlan(
  plan: Plan,
  { name, open }: Pick<StudyFolder, "name" | "open">,
): Promise<ResolvedPlan> {
  const { from_sites } = plan.data;
  if (from_sites === undefined) return { plan, studies: [] };
  const opened: Opened[] = [];
  for (const site of from_sites) opened.push(await openedSite(site, { name, open }));
  const sites = opened.map(({ site }) => site);
  refuseMixed(opened, plan);
  refuseOtherPersons(sites, plan);
  const { compare, data } = plan;
  const isOnOwn = data.calendar === "per_person" || sites.some(({ calendar }) => calendar === "per_person");
  const isHeld = compare.by === "site_id" || compare.adjust_for.includes("site_id");
  return {
    plan: {
      ...plan,
      synthetic: plan.synthetic || opened.some(({ synthetic }) => synthetic === true),
      data: { ...data, from_sites: sites, ...(isOnOwn ? { calendar: "per_person" as const } : {}) },
      compare: isHeld ? compare : { ...compare, adjust_for: [...compare.adjust_for, "site_id"] },
    },
    studies: opened.flatMap(({ study }) => study ?? []),
  };
}

async function openedSite(
  { folder, study, ...own }: FromSite,
  { name, open }: Pick<StudyFolder, "name" | "open">,
): Promise<Opened> {
  const file = study ?? (folder === undefined ? null : `${folder}/study.yaml`);
  if (file === null) return { site: own, synthetic: null, study: null };
  const what = `study file of the site ${own.site}`;
  const bytes = await open(file, { what, by: `under "data.from_sites" in ${name}` });
  const { readPlan } = await import("../../study/read-plan.js");
  const { data, synthetic } = readPlan(file, settingsText(file, bytes).text);
  if (data.from_sites !== undefined)
    throw new RunError(
      `${file}: the study of the site ${own.site} is itself of several sites.\n  Name these sites in ${name}, each by itself.`,
    );
  return { site: { ...withPathsFrom(file, data), ...own }, synthetic, study: { file, bytes } };
}

/** The data of a study with the paths as they are seen from where its study file is named. */
function withPathsFrom(file: string, { from_sites: _, ...data }: Plan["data"]): Omit<ResolvedSite, "site"> {
  const end = Math.max(file.lastIndexOf("/"), file.lastIndexOf("\\")) + 1;
  const from = (path: string) => (isAbsolute(path) ? path : `${file.slice(0, end)}${path}`);
  const { mappings, answers } = data;
  const named = tableNames.flatMap((table) => {
    const path = data[table];
    return path === undefined ? [] : [[table, from(path)] as const];
  });
  return {
    ...data,
    ...Object.fromEntries(named),
    ...(mappings === undefined
      ? {}
      : {
          mappings: Object.fromEntries(
            Object.entries(mappings).map(([table, path]) => [table, from(path)] as const),
          ),
        }),
    ...(answers === undefined ? {} : { answers: from(answers) }),
  };
}

const isAbsolute = (path: string): boolean => /^([\\/]|[A-Za-z]:)/.test(path);

/** Invented rows and rows of patients are never pooled. */
function refuseMixed(opened: readonly Opened[], plan: Plan): void {
  const invented = opened.filter(({ synthetic }) => synthetic === true);
  const others = opened.filter(({ synthetic }) => synthetic === false);
  const named = (sites: readonly Opened[]) => sites.map(({ site }) => site.site).join(", ");
  if (invented.length > 0 && others.length > 0)
    throw new RunError(
      `Invented data are never pooled with data of patients: "synthetic: true" stands in the study files of ${named(invented)} and not in those of ${named(others)}.\n  Leave one kind out under data.from_sites, or correct the study files of the sites.`,
    );
  if (plan.synthetic && others.length > 0)
    throw new RunError(
      `The study is marked "synthetic: true", but the study files of ${named(others)} are not.\n  Remove the mark, or correct the study files of the sites.`,
    );
}

/** A site that states how far its person ids go must mean what the study states. */
function refuseOtherPersons(sites: readonly ResolvedSite[], { data }: Plan): void {
  if (data.person_ids !== "shared") return;
  const apart = sites.filter(({ person_ids }) => person_ids === "per_site");
  if (apart.length === 0) return;
  throw new RunError(
    `The study states person_ids: shared, but ${apart.map(({ site }) => site).join(", ")} state per_site: the same person has another id there.\n  Write person_ids: per_site, so that everybody is a person of their own at each site. To keep people of several sites together, every site states person_ids: shared in its own study file and shares its copy again under one common key.`,
  );
}
