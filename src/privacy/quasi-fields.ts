import { fieldsSaying } from "../schema/field.js";
import { type InjuryRow, injuryRow } from "../schema/injuries.js";
import { labelOf } from "../schema/labels.js";
import { type Table, tables } from "../schema/tables.js";
import { ruleOf } from "./column-rules.js";
import type { Values } from "./persons.js";
import type { ShareSettings } from "./settings.js";

/** The year of the injury, as it stands in the copy: no column, yet somebody may know it. */
export const injuryYear = "injury_year" as const;

const usual: readonly string[] = fieldsSaying(injuryRow, { knownOutside: true });

const lasting: ReadonlySet<string> = new Set(fieldsSaying(injuryRow, { ofPerson: true }));
/** Whether it is the same in every row of a person. */
export const isOfPerson = (field: string): boolean => lasting.has(field);

/**
 * Columns by what leaving them out costs, the least first; columns that are not named here cost less still. An order
 * among columns, so that no field can say its own place.
 */
const byLoss: readonly string[] = [
  "dominant_hand",
  "level_before",
  "years_climbing",
  "hand",
  "finger",
  "age_at_injury",
  "sex",
  "site_id",
  "grade",
  "pulleys",
  injuryYear,
] satisfies readonly (keyof InjuryRow | typeof injuryYear)[];

/** Columns whose combinations can be counted. */
export function countableFields(settings: ShareSettings): readonly string[] {
  const columns = (tables.injuries as Table).fields.filter((field) => {
    const { act } = ruleOf(field, settings);
    return (
      act === "band" ||
      act === "only-on-scale" ||
      field.fewNames === true ||
      (act === "keep" && field.kind !== "date")
    );
  });
  const names = columns.map(({ name }) => name).filter((name) => !name.endsWith("_precision"));
  return settings.dates === "offsets" ? names : [...names, injuryYear];
}

/**
 * The fields whose combinations are counted, those first that cost least to leave out. What the study compares by or
 * adjusts for comes last.
 *
 * @throws RangeError that names a field that cannot be counted
 */
export function quasiFields(settings: ShareSettings): readonly string[] {
  const countable = countableFields(settings);
  const asked = settings.fields ?? (settings.dates === "offsets" ? usual : [...usual, injuryYear]);
  const odd = asked.find((field) => !countable.includes(field));
  if (odd !== undefined) {
    const why = odd === injuryYear ? ": the copy contains no years. Write one of" : ". Write one or more of";
    throw new RangeError(`"${odd}" cannot be counted${why}: ${countable.join(", ")}.`);
  }
  const cost = (field: string) => (settings.neededByStudy.includes(field) ? 100 : 0) + byLoss.indexOf(field);
  return [...new Set(asked)].sort((one, other) => cost(one) - cost(other) || (one < other ? -1 : 1));
}

/** What a cell of a field says in the copy, as text; blank is a value like any other. */
export function cellOf(values: Values, field: string): string {
  if (field === injuryYear) return String(values.injury_date).slice(0, 4);
  const value = values[field] ?? "";
  return Array.isArray(value) ? value.join("|") : String(value);
}

/**
 * What stands in a cell that is left out: blank, or the word for it; null where it cannot be left out. A grade is not: the
 * pulleys, which every injury must name, and the treatment would tell it.
 */
export function leftOutValue(field: string): { readonly value: string | null } | null {
  const column = (tables.injuries as Table).fields.find(({ name }) => name === field);
  if (column?.required && column.terms?.includes("not_stated")) return { value: "not_stated" };
  return column === undefined || column.required ? null : { value: null };
}

/** A field in the words of a reader. */
export const fieldLabel = (field: string): string =>
  field === injuryYear ? "year of injury" : labelOf(field);
