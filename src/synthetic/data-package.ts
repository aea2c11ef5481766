import type { Field } from "../schema/field.js";
import { type TableName, tables } from "../schema/tables.js";
import type { Scenario } from "./scenario.js";

/** A table as it lies in a file. */
export interface TableFile {
  readonly table: TableName;
  readonly path: string;
}

/**
 * The descriptor of a folder of tables: what each file is, and each column's type, unit, terms and limits.
 * @source Frictionless Data Package and Table Schema, version 1: names of the properties
 */
export function dataPackageText(scenario: Scenario, files: readonly TableFile[]): string {
  const descriptor = {
    profile: "tabular-data-package",
    name: scenario.name,
    title: scenario.title,
    description: "SYNTHETIC: invented data, drawn from scenario.yaml; nothing in it is about a real person.",
    keywords: ["synthetic"],
    resources: files.map(resourceOf),
  };
  return `${JSON.stringify(descriptor, null, 2)}\n`;
}

function resourceOf({ table, path }: TableFile) {
  const { title, fields, key, refersTo } = tables[table] as (typeof tables)["injuries"];
  return {
    profile: "tabular-data-resource",
    name: table.replaceAll("_", "-"),
    path,
    title,
    encoding: "utf-8",
    schema: {
      fields: fields.map(fieldOf),
      missingValues: [""],
      ...(key.length > 0 ? { primaryKey: key } : {}),
      ...(refersTo ? { foreignKeys: [foreignKey(refersTo)] } : {}),
    },
  };
}

const foreignKey = ({ column, table }: { readonly column: string; readonly table: string }) => ({
  fields: column,
  reference: { resource: table, fields: column },
});

function fieldOf({ name, kind, description, unit, terms, required, minimum, maximum }: Field) {
  const constraints = {
    required,
    ...(terms && kind === "choice" ? { enum: terms } : {}),
    ...(minimum === undefined ? {} : { minimum }),
    ...(maximum === undefined ? {} : { maximum }),
  };
  const type = kind === "date" || kind === "number" || kind === "integer" ? kind : "string";
  return { name, type, description, ...(unit ? { unit } : {}), constraints };
}
