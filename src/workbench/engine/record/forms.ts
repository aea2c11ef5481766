import type { Field } from "../../../schema/field.js";
import {
  type LinkedTableName,
  labelOf,
  linkedTableNames,
  tables,
  unitInWords,
} from "../../../schema/index.js";
import { circumstanceFields } from "../../../schema/injury-fields/circumstances.js";
import { courseFields } from "../../../schema/injury-fields/course.js";
import { fingerFields } from "../../../schema/injury-fields/finger.js";
import { personFields } from "../../../schema/injury-fields/person.js";
import type { Table } from "../../../schema/tables.js";
import { expectation } from "../../../workbook/column-words.js";
import { courseSection } from "./draft.js";
import type { FormField, FormSection, RecordForms } from "./record-tasks.js";

/** The sections of the injuries, as the schema divides their fields. */
const sectionsOfInjury = [
  { id: "person", title: "Who, and when", fields: personFields },
  { id: "finger", title: "Which finger, and how badly", fields: fingerFields },
  { id: "circumstances", title: "How it happened, and to what climber", fields: circumstanceFields },
  { id: courseSection, title: "Back on the wall, and what became of it", fields: courseFields },
] as const;

const titles: Readonly<Record<Exclude<LinkedTableName, "injuries">, string>> = {
  treatments: "Treatment",
  imaging: "Distance read",
  visits: "Visit",
  sites: "Site",
};

/** The forms of all tables: every field of the schema stands in one of them. */
export const recordForms = (): RecordForms =>
  Object.fromEntries(linkedTableNames.map((table) => [table, sectionsOf(table)])) as unknown as RecordForms;

function sectionsOf(name: LinkedTableName): readonly FormSection[] {
  const { fields } = tables[name] as Table;
  if (name !== "injuries") return [{ id: name, title: titles[name], fields: fields.map(formField) }];
  return sectionsOfInjury.map(({ id, title, fields: own }) => ({
    id,
    title,
    fields: fields.filter((field) => field.name in own).map(formField),
  }));
}

const formField = (field: Field): FormField => ({
  name: field.name,
  label: formLabel(field),
  description: field.kind === "list" ? field.description.replace(", separated by |", "") : field.description,
  kind: field.kind,
  isRequired: field.required,
  isUsual: field.required || isInShortForm(field),
  terms: (field.terms ?? []).map((term) => ({ term, label: labelOf(term) })),
  expected: expectation(field),
  unit: field.unit === undefined ? null : unitInWords(field.unit),
  example: field.example,
});

/** Of the injuries, what the sheet with one row per injury asks as well; of the other tables, what most clinics write. */
const isInShortForm = ({ name, sheet, invented }: Field): boolean =>
  sheet === undefined
    ? invented === "drawn"
    : sheet !== "not" && !/_(precision|not_before|not_after)$/.test(name);

/** The name of a field as a form says it: the unit stands beside it, and short forms are written as usual. */
function formLabel({ name, label, unit }: Field): string {
  const text = labelOf(label === undefined && unit !== undefined ? name.replace(unitEnding, "") : name);
  const written = text.replace(shortForms, (short) => short.toUpperCase());
  return `${written.slice(0, 1).toUpperCase()}${written.slice(1)}`;
}

const unitEnding = /_(mm|deg|kg|cm|n)$/;
const shortForms = /\b(pip|dip|dash|prwe|id)\b/g;
