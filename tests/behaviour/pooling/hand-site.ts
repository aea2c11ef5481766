import { readCohort } from "../../../src/ingest/index.js";
import type { ReadCohort } from "../../../src/schema/index.js";
import { csvText } from "../../../src/schema/index.js";
import { type Plan, type PlanAsWritten, planSchema } from "../../../src/study/index.js";
import type { Row } from "../study/hand-made.js";

export { sha256 } from "./three-sites.js";

export const smallCells = { choice: "leave-out", smallest: 5 } as const;

/** A site written by hand, as its tables would be read. */
export function readOf(
  tables: Readonly<Partial<Record<"injuries" | "treatments" | "sites", readonly Row[]>>>,
  written: Partial<PlanAsWritten> = {},
): { readonly read: ReadCohort; readonly plan: Plan } {
  const plan = planSchema.parse({
    study: "by-hand",
    title: "By hand",
    data: { injuries: "injuries.csv", treatments: "treatments.csv", closed_on: "2025-06-30" },
    ...written,
  });
  const names = Object.keys(tables) as (keyof typeof tables)[];
  const sources = names.map((table) => {
    const rows = tables[table] ?? [];
    const columns = [...new Set(rows.flatMap((row) => Object.keys(row)))];
    const cells = rows.map((row) => columns.map((column) => row[column] ?? ""));
    return { table, file: `${table}.csv`, bytes: new TextEncoder().encode(csvText(columns, cells)) };
  });
  const read = readCohort(sources, {
    closedOn: plan.data.closed_on ?? null,
    thresholdMm: plan.distance.threshold_mm,
    personIds: plan.data.person_ids,
  });
  return { read, plan };
}
