import { jsonText } from "../schema/json-text.js";
import type { AboutDeposit } from "./data-package.js";
import type { Resource, SchemaField } from "./resources.js";

const datatypes: Readonly<Record<string, unknown>> = {
  string: "string",
  integer: "integer",
  number: "number",
  date: { base: "date", format: "yyyy-MM-dd" },
};

/**
 * The same description for readers of CSV on the Web, `csv-metadata.json`.
 *
 * @source W3C Recommendation 17 December 2015, Metadata Vocabulary for Tabular Data
 */
export function csvOnTheWebOf(about: AboutDeposit, resources: readonly Resource[]): string {
  const metadata = {
    "@context": ["http://www.w3.org/ns/csvw", { "@language": "en" }],
    "dc:title": about.title,
    "dc:description": about.description,
    tables: resources.map(({ path, title, schema }) => ({
      url: path,
      "dc:title": title,
      dialect: { delimiter: ",", encoding: "utf-8", header: true, quoteChar: '"', doubleQuote: true },
      tableSchema: {
        columns: (schema.fields as readonly SchemaField[]).map(columnOf),
        ...(schema.primaryKey === undefined ? {} : { primaryKey: schema.primaryKey }),
      },
    })),
  };
  return jsonText(metadata);
}

const columnOf = ({ name, type, title, description, constraints }: SchemaField) => ({
  name,
  titles: name,
  ...(title === undefined ? {} : { "dc:title": title }),
  ...(description === undefined ? {} : { "dc:description": description }),
  datatype: datatypes[type] ?? "string",
  required: constraints?.required === true,
});
