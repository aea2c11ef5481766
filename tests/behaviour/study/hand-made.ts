import { readCohort } from "../../../src/ingest/index.js";
import { csvText, type ReadCohort } from "../../../src/schema/index.js";
import {
  answer,
  type ExactResults,
  type Plan,
  type PlanAsWritten,
  planSchema,
  resultsSchema,
} from "../../../src/study/index.js";

/** Small cohorts written by hand, sent through the whole of reading and answering. */
export type Row = Readonly<Record<string, string>>;

const bytesOf = (rows: readonly Row[]) => {
  const columns = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  const cells = rows.map((row) => columns.map((column) => row[column] ?? ""));
  return new TextEncoder().encode(csvText(columns, cells));
};

/** The results of a few injuries and treatments; sex is held equal unless the plan says otherwise. */
export const resultsOf = (
  injuries: readonly Row[],
  treatments: readonly Row[],
  written: Partial<PlanAsWritten> = {},
): ExactResults => resultsOfTables({ injuries, treatments }, written);

/** Rows of the linked tables; one without rows is not there. */
export type Tables = Readonly<
  Partial<Record<"injuries" | "treatments" | "imaging" | "visits" | "sites", readonly Row[]>>
>;

/** The same of any tables. */
export function resultsOfTables(tables: Tables, written: Partial<PlanAsWritten> = {}): ExactResults {
  const { read, plan } = readByHand(tables, written);
  const results = answer(read, plan);
  resultsSchema.parse(results);
  return results;
}

/** The tables as they are read, and the plan with its defaults. */
export function readByHand(
  tables: Tables,
  written: Partial<PlanAsWritten> = {},
): { readonly read: ReadCohort; readonly plan: Plan } {
  const plan = planSchema.parse({
    study: "by-hand",
    title: "By hand",
    data: { injuries: "injuries.csv", treatments: "treatments.csv", closed_on: "2025-06-30" },
    compare: { adjust_for: ["sex"], smallest_group: 2 },
    ...written,
  });
  const named = (Object.keys(tables) as (keyof Tables)[]).filter((table) => tables[table]!.length > 0);
  const sources = named.map((table) => ({
    table,
    file: `${table}.csv`,
    bytes: bytesOf(tables[table] ?? []),
  }));
  const read = readCohort(sources, {
    closedOn: plan.data.closed_on ?? null,
    thresholdMm: 2,
    personIds: plan.data.person_ids,
  });
  return { read, plan };
}

/** So many days after the injury on 4 March 2024, as a date. */
export const on = (day: number) => new Date(Date.UTC(2024, 2, 4 + day)).toISOString().slice(0, 10);

/** A woman with a grade 2 injury, back after 13 weeks, unless it is changed. */
export const injury = (id: string, change: Row = {}): Row => ({
  injury_id: id,
  person_id: `person ${id}`,
  site_id: "a",
  injury_date: "2024-03-04",
  hand: "left",
  finger: "ring",
  pulleys: "A3",
  grade: "2",
  sex: "female",
  age_at_injury: "30",
  onset: "pop",
  full_climbing_date: "2024-06-03",
  last_contact_date: "2024-11-18",
  ...change,
});
export const treated = (id: string, treatment: string): Row => ({
  injury_id: id,
  treatment,
  start_date: "2024-03-05",
});
