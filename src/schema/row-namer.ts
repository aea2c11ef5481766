import type { Table } from "./tables.js";

/**
 * Gives the values of a row the names of their fields. All rows get all names, in the order of the table, so that they
 * have the same shape. It costs more than typing the cells.
 */
export function rowNamer<Row>({ fields }: Table<Row>): (values: readonly unknown[]) => Row {
  const names = fields.map(({ name }) => name);
  const blankRow = Object.fromEntries(names.map((name) => [name, null]));
  return (values) => {
    const named: Record<string, unknown> = { ...blankRow };
    for (let i = 0; i < names.length; i++) named[names[i]!] = values[i];
    return named as Row;
  };
}
