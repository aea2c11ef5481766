import type { Field } from "../schema/field.js";
import type { LinkedTableName } from "../schema/table-names.js";
import { type Table, tables } from "../schema/tables.js";
import type { ShareSettings } from "./settings.js";

/** What happens to the cells of one column. */
export type ColumnRule =
  | { readonly act: "keep" }
  | { readonly act: "rename"; readonly kind: string }
  | { readonly act: "move" }
  | { readonly act: "band"; readonly width: number; readonly highest: number; readonly unit: string }
  | { readonly act: "only-on-scale" }
  | { readonly act: "leave-out"; readonly why: "free-text" | "birth" | "body" | "unknown-kind" };

/** Years of climbing from here on are one band: few have climbed as long (our choice). */
const longestClimbing = 40;
const highestBody = { body_mass_kg: 110, height_cm: 200 } as const;
const bodyWidth = 5;

const levels = new Set(["level_before", "level_after", "level_now"]);
const kindOfId: Readonly<Record<string, string>> = {
  injury_id: "injury",
  person_id: "person",
  event_id: "event",
  site_id: "site",
  rater: "rater",
};

/**
 * The rule for a column: by its name where that says more, else by its kind. What is of no known kind is left out, so
 * that a column added later cannot slip into a copy.
 */
export function ruleOf(field: Field, settings: ShareSettings): ColumnRule {
  const { name, kind, unit = "" } = field;
  if (/birth/.test(name)) return { act: "leave-out", why: "birth" };
  if (levels.has(name)) return { act: "only-on-scale" };
  if (name === "age_at_injury")
    return { act: "band", width: settings.bandYears, highest: settings.oldest, unit };
  if (name === "years_climbing") {
    return { act: "band", width: settings.bandYears, highest: longestClimbing, unit };
  }
  if (name === "body_mass_kg" || name === "height_cm") {
    return settings.body === "left-out"
      ? { act: "leave-out", why: "body" }
      : { act: "band", width: bodyWidth, highest: highestBody[name], unit };
  }
  switch (kind) {
    case "identifier":
      return { act: "rename", kind: kindOfId[name] ?? name };
    case "date":
      return settings.dates === "as-they-are" ? { act: "keep" } : { act: "move" };
    case "text":
      return { act: "leave-out", why: "free-text" };
    case "choice":
    case "list":
    case "number":
    case "integer":
      return { act: "keep" };
    default:
      return { act: "leave-out", why: "unknown-kind" };
  }
}

/** A column with its rule. */
export interface RuledColumn {
  readonly field: Field;
  readonly rule: ColumnRule;
}

/** Every column of a linked table with its rule, in the order of the schema. */
export const ruledColumns = (table: LinkedTableName, settings: ShareSettings): readonly RuledColumn[] =>
  (tables[table] as Table).fields.map((field) => ({ field, rule: ruleOf(field, settings) }));
