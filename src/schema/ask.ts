import type { TypedRow } from "./cells.js";
import type { DataQuery, QueryCode, Severity } from "./data-query.js";

/** What a rule found in one row. */
export interface Finding {
  /** The field concerned, by its name in the schema. */
  readonly column: string;
  /** The value that stands there, as text. */
  readonly found: string | number | null;
  readonly facts?: Readonly<Record<string, string | number>>;
}

/** Longer cells are cut: a query is not the place for a whole file. */
const longestFound = 200;

/** The first half of a character that the cut went through. */
const halfCharacter = /[\ud800-\udbff]$/;

/** A cell as a query repeats it. */
export const foundText = (text: string): string =>
  text.length > longestFound ? `${text.slice(0, longestFound).replace(halfCharacter, "")}…` : text;

/** The query about a typed row that a query amounts to; columns go by what the file calls them. */
export function askAbout(
  { file, row, values, columnNames }: TypedRow<unknown>,
  {
    code,
    severity,
    column,
    found,
    facts = {},
  }: Finding & { readonly code: QueryCode; readonly severity: Severity },
): DataQuery {
  return {
    code,
    severity,
    file,
    row,
    column: columnNames?.[column] ?? column,
    found: found === null ? null : foundText(String(found)),
    facts,
    injury: injuryOf(values),
  };
}

function injuryOf(values: unknown): string | null {
  const injury = (values as { readonly injury_id?: unknown }).injury_id;
  return typeof injury === "string" ? injury : null;
}
