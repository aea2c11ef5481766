import { readFileSync } from "node:fs";
import { readCohort, type SourceFile } from "../../../src/ingest/index.js";
import {
  defaultSettings,
  type SharedCohort,
  type ShareSettings,
  shareCohort,
} from "../../../src/privacy/index.js";
import type { LinkedTableName, ReadCohort } from "../../../src/schema/index.js";
import { type Plan, readPlan } from "../../../src/study/index.js";

const synthetic = new URL("../../../synthetic-data/", import.meta.url);

/** A committed SYNTHETIC cohort and its study. */
export function committed(
  folder: string,
  study = "study.yaml",
): { readonly plan: Plan; readonly read: ReadCohort } {
  const plan = readPlan(study, readFileSync(new URL(`${folder}/${study}`, synthetic), "utf8"));
  const tables = ["injuries", "treatments", "imaging", "visits", "sites", "single_sheet"] as const;
  const sources = tables.flatMap((table): SourceFile[] => {
    const file = plan.data[table];
    return file === undefined
      ? []
      : [{ table, file, bytes: readFileSync(new URL(`${folder}/${file}`, synthetic)) }];
  });
  return { plan, read: reading(sources, plan) };
}

export const reading = (sources: readonly SourceFile[], plan: Plan): ReadCohort =>
  readCohort(sources, {
    closedOn: plan.data.closed_on ?? null,
    thresholdMm: plan.distance.threshold_mm,
    calendar: plan.data.calendar ?? "common",
  });

/** The CSV files of a copy, read as any tables are. */
export const readCopy = (copy: SharedCohort, plan: Plan): ReadCohort =>
  reading(
    copy.tables.map(({ table, text }) => ({
      table,
      file: `${table}.csv`,
      bytes: new TextEncoder().encode(text),
    })),
    { ...plan, data: { ...plan.data, calendar: "per_person", closed_on: undefined } as Plan["data"] },
  );

/** A key that is no secret: every byte its place. */
export const openKey = Uint8Array.from({ length: 32 }, (_, place) => place);
export const otherKey = Uint8Array.from({ length: 32 }, (_, place) => 255 - place);

export const copyWith = (
  read: ReadCohort,
  settings: Partial<ShareSettings> = {},
  key = openKey,
): SharedCohort => shareCohort(read.tables, { key, settings: { ...defaultSettings, ...settings } });

/** The rows of one table of a copy. */
export const rowsOf = (copy: SharedCohort, name: LinkedTableName) =>
  copy.tables.find(({ table }) => table === name)?.rows ?? [];
