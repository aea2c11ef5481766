import { type CsvCell, csvText } from "../schema/csv-text.js";
import { type TableName, tables } from "../schema/tables.js";

/**
 * The CSV text of one table: every column of its schema, in that order; lists joined with `|`; blank for null.
 *
 * @param rows typed rows of that table
 */
export function tableText(table: TableName, rows: readonly object[]): string {
  const columns = tables[table].fields.map(({ name }) => name);
  return csvText(
    columns,
    rows.map((row) => columns.map((column) => cellOf((row as Readonly<Record<string, unknown>>)[column]))),
  );
}

function cellOf(value: unknown): CsvCell {
  if (Array.isArray(value)) return value.join("|");
  return value as CsvCell;
}
