import { type CsvCell, csvText } from "./csv-text.js";
import { type Table, tables } from "./tables.js";

const columns = [
  "table",
  "field",
  "kind",
  "required",
  "unit",
  "terms",
  "minimum",
  "maximum",
  "example",
  "description",
] as const;

/** Every field of every table as CSV, in reading order. */
export function dataDictionary(): string {
  const rows = Object.values(tables as unknown as Readonly<Record<string, Table>>).flatMap(rowsOf);
  return csvText(columns, rows);
}

const rowsOf = ({ name, fields }: Table): CsvCell[][] =>
  fields.map((field) => [
    name,
    field.name,
    field.kind,
    field.required ? "yes" : "no",
    field.unit ?? null,
    field.terms?.join("|") ?? null,
    field.minimum ?? null,
    field.maximum ?? null,
    field.example,
    field.description,
  ]);
