import { type CsvCell, csvText } from "./csv-text.js";
import type { TableName } from "./table-names.js";
import { tables } from "./tables.js";

/**
 * The CSV text of one table: the columns of its schema in their order, lists joined with `|`, blank for null.
 *
 * @param table which table
 * @param rows typed rows of that table
 * @param columns the columns written; by default all of the schema
 */
export function tableText(
  table: TableName,
  rows: readonly object[],
  columns: readonly string[] = columnsOf(table),
): string {
  return csvText(
    columns,
    rows.map((row) => columns.map((column) => cellOf((row as Readonly<Record<string, unknown>>)[column]))),
  );
}

const columnsOf = (table: TableName): readonly string[] => tables[table].fields.map(({ name }) => name);

function cellOf(value: unknown): CsvCell {
  if (Array.isArray(value)) return value.join("|");
  return (value ?? null) as CsvCell;
}
