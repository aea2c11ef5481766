import type { z } from "zod";
import { type Field, fieldsOf } from "./field.js";
import { imagingRow } from "./imaging.js";
import { injuryRow } from "./injuries.js";
import { singleSheetRow } from "./single-sheet.js";
import { siteRow } from "./sites.js";
import type { TableName } from "./table-names.js";
import { treatmentRow } from "./treatments.js";
import { visitRow } from "./visits.js";

/** A table: its row schema, its key, and what it refers to. */
export interface Table<Row = unknown> {
  readonly name: string;
  readonly title: string;
  readonly row: z.ZodObject & z.ZodType<Row>;
  readonly fields: readonly Field[];
  /** Columns that together name a row once. */
  readonly key: readonly string[];
  /** Columns that tell most of its rows apart where the key does not: the ids of queries are made from them in this order. */
  readonly tellsApart: readonly string[];
  /** The table whose key a column repeats, if any. */
  readonly refersTo?: { readonly column: string; readonly table: string };
}

const table = <Shape extends z.ZodRawShape>(
  row: z.ZodObject<Shape>,
  about: Omit<Table, "row" | "fields" | "key" | "tellsApart"> &
    Readonly<Record<"key" | "tellsApart", readonly (keyof Shape & string)[]>>,
): Table<z.infer<z.ZodObject<Shape>>> => ({
  ...about,
  row: row as unknown as Table<z.infer<z.ZodObject<Shape>>>["row"],
  fields: fieldsOf(row as unknown as z.ZodObject),
});

const ofInjury = { refersTo: { column: "injury_id", table: "injuries" } } as const;

/** Every table of the cohort, and the single-sheet form. */
export const tables = {
  injuries: table(injuryRow, {
    name: "injuries",
    title: "One row per injury of a finger",
    key: ["injury_id"],
    tellsApart: ["injury_id", "person_id", "site_id", "injury_date", "hand", "finger"],
  }),
  treatments: table(treatmentRow, {
    name: "treatments",
    title: "One row per episode of treatment",
    key: [],
    tellsApart: ["injury_id", "treatment", "kind", "start_date"],
    ...ofInjury,
  }),
  imaging: table(imagingRow, {
    name: "imaging",
    title: "One row per reading of a distance",
    key: [],
    tellsApart: ["injury_id", "date", "pulley", "position", "side", "rater", "reading", "taped"],
    ...ofInjury,
  }),
  visits: table(visitRow, {
    name: "visits",
    title: "One row per contact",
    key: ["injury_id", "date"],
    tellsApart: ["injury_id", "date", "kind"],
    ...ofInjury,
  }),
  sites: table(siteRow, {
    name: "sites",
    title: "One row per site, with its definitions",
    key: ["site_id"],
    tellsApart: ["site_id"],
  }),
  single_sheet: table(singleSheetRow, {
    name: "single_sheet",
    title: "One row per injury, everything in one sheet",
    key: [],
    tellsApart: ["person", "site", "injury_date", "hand", "finger"],
  }),
} as const satisfies Readonly<Record<TableName, unknown>>;
