import { readFileSync } from "node:fs";
import { deriveCohort, linkTables } from "../../../src/cohort/index.js";
import type { CohortTables } from "../../../src/schema/cohort-tables.js";
import { compared, type Settled } from "../../../src/study/groups.js";
import { type Plan, readPlan, specificationOf } from "../../../src/study/index.js";
import { drawCohort, readScenario } from "../../../src/synthetic/index.js";

const folder = new URL("../../../synthetic-data/three-sites/", import.meta.url);
const text = (name: string) => readFileSync(new URL(name, folder), "utf8");

/** An invented site with the records that a study has of it, each return on one day. */
export interface DrawnSite {
  readonly site: string;
  readonly tables: CohortTables;
  readonly asked: Settled;
  readonly groups: ReturnType<typeof compared>["groups"];
}

/** The study of the three invented clinics, changed as asked. */
export function drawnPlan(change: (plan: Plan) => Plan = (plan) => plan): Plan {
  return change(readPlan("study.yaml", text("study.yaml")));
}

/** The three clinics, each a cohort of its own. @param draw seed and size */
export function drawnSites(
  draw: { readonly seed: number; readonly injuries?: number },
  plan: Plan = drawnPlan(),
): readonly DrawnSite[] {
  const scenario = readScenario("scenario.yaml", text("scenario.yaml"));
  const cohort = drawCohort(draw.injuries ? { ...scenario, injuries: draw.injuries } : scenario, {
    seed: draw.seed,
  });
  const typed = <Row>(rows: readonly Row[]) =>
    rows.map((values, at) => ({ file: "drawn", row: at + 2, values }));
  const closed = { ...plan, data: { ...plan.data, closed_on: cohort.closedOn } };
  const asked = { ...specificationOf(closed), path: "days" as const };
  return cohort.sites.map(({ site_id: site }): DrawnSite => {
    const injuries = cohort.injuries.filter(({ site_id }) => site_id === site);
    const ids = new Set(injuries.map(({ injury_id }) => injury_id));
    const own = <Row extends { readonly injury_id: string }>(rows: readonly Row[]) =>
      typed(rows.filter(({ injury_id }) => ids.has(injury_id)));
    const tables: CohortTables = {
      injuries: typed(injuries),
      treatments: own(cohort.treatments),
      imaging: own(cohort.imaging),
      visits: own(cohort.visits),
      sites: typed(cohort.sites.filter(({ site_id }) => site_id === site)),
      personIds: "per_site",
    };
    const { records } = deriveCohort(linkTables(tables), asked.question);
    return { site, tables, asked, groups: compared(records, asked).groups };
  });
}
