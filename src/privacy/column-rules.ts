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
  | { readonly act: "leave-out"; readonly why: "free-text" | "body" };

/** Width of the bands of body mass and height, kg and cm. */
const bodyWidth = 5;

/**
 * The rule for a column: what its field states about sharing, under the settings of this copy.
 *
 * @throws Error for a field of a table that is never copied
 */
export function ruleOf({ name, sharing, unit = "" }: Field, settings: ShareSettings): ColumnRule {
  if (typeof sharing === "object") {
    if ("rename" in sharing) return { act: "rename", kind: sharing.rename };
    if ("move" in sharing) return { act: settings.dates === "as-they-are" ? "keep" : "move" };
    const { band, highest } = sharing;
    if (band === "age") return { act: "band", width: settings.bandYears, highest: settings.oldest, unit };
    if (band === "years") return { act: "band", width: settings.bandYears, highest, unit };
    return settings.body === "left-out"
      ? { act: "leave-out", why: "body" }
      : { act: "band", width: bodyWidth, highest, unit };
  }
  switch (sharing) {
    case "keep":
    case "only-on-scale":
      return { act: sharing };
    case "leave-out":
      return { act: "leave-out", why: "free-text" };
    case "never":
      throw new Error(`the field ${name} belongs to a table that is never copied`);
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
