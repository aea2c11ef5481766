import { jsonText } from "../schema/json-text.js";
import type { TableName } from "../schema/table-names.js";
import { tableSchemaOf } from "../schema/table-schema.js";
import { type Table, tables } from "../schema/tables.js";
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
  return jsonText(descriptor);
}

function resourceOf({ table, path }: TableFile) {
  const { name, title } = tables[table];
  return {
    profile: "tabular-data-resource",
    name,
    path,
    title,
    encoding: "utf-8",
    schema: tableSchemaOf(tables[table] as Table),
  };
}
