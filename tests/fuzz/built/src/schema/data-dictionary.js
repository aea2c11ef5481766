import { csvText } from "./csv-text.js";
import { tables } from "./tables.js";
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
];
/** Every field of every table as CSV, in reading order. */
export function dataDictionary() {
    const rows = Object.values(tables).flatMap(rowsOf);
    return csvText(columns, rows);
}
const rowsOf = ({ name, fields }) => fields.map((field) => [
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
