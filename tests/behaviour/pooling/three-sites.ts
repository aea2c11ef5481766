import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { readCohort } from "../../../src/ingest/index.js";
import { type SiteSummary, summariseSite } from "../../../src/pooling/index.js";
import type { ReadCohort } from "../../../src/schema/index.js";
import { type Plan, readPlan } from "../../../src/study/index.js";

export const sha256 = (text: string | Uint8Array): string => createHash("sha256").update(text).digest("hex");

const folder = new URL("../../../synthetic-data/three-sites/", import.meta.url);
const tables = ["injuries", "treatments", "imaging", "visits", "sites"] as const;

/** SYNTHETIC: the committed cohort of three sites, as one would read it. */
export function threeSitesRead(): { readonly read: ReadCohort; readonly plan: Plan } {
  const plan = readPlan("study.yaml", readFileSync(new URL("study.yaml", folder), "utf8"));
  const sources = tables.map((table) => ({
    table,
    file: `synthetic-${table}.csv`,
    bytes: readFileSync(new URL(`synthetic-${table}.csv`, folder)),
  }));
  const read = readCohort(sources, {
    closedOn: plan.data.closed_on ?? null,
    thresholdMm: plan.distance.threshold_mm,
    personIds: plan.data.person_ids,
  });
  return { read, plan };
}

let made: readonly SiteSummary[] | null = null;

/** The summary of each of the three sites, small cells left out; made once. */
export function threeSummaries(): readonly SiteSummary[] {
  made ??= (() => {
    const input = threeSitesRead();
    const smallCells = { choice: "leave-out", smallest: 5 } as const;
    return ["site-a", "site-b", "site-c"].map((site) =>
      summariseSite(input, { site, smallCells, version: "0.1.0", sha256 }),
    );
  })();
  return made;
}
