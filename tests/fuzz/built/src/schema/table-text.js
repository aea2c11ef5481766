import { csvText } from "./csv-text.js";
import { tables } from "./tables.js";
/**
 * The CSV text of one table: the columns of its schema in their order, lists joined with `|`, blank for null.
 *
 * @param table which table
 * @param rows typed rows of that table
 * @param columns the columns written; by default all of the schema
 */
export function tableText(table, rows, columns = columnsOf(table)) {
    return csvText(columns, rows.map((row) => columns.map((column) => cellOf(row[column]))));
}
const columnsOf = (table) => tables[table].fields.map(({ name }) => name);
function cellOf(value) {
    if (Array.isArray(value))
        return value.join("|");
    return (value ?? null);
}
