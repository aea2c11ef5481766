import { z } from "zod";
import { cellReaderOf } from "./cells/read-cell.js";
import type { Field } from "./field.js";
import type { Table } from "./tables.js";

export type JsonObject = { readonly [name: string]: unknown };

/**
 * The typed rows of a table as JSON Schema 2020-12: a blank cell is null, a list is an array.
 * `unit` (UCUM) stands beside the keywords as an annotation.
 */
export function jsonSchemaOf({ row, fields, name, title }: Table): JsonObject {
  const { $schema, type, properties, required, additionalProperties } = z.toJSONSchema(row);
  const described = fields.map((field) => [
    field.name,
    describedProperty(properties?.[field.name] as JsonObject, field),
  ]);
  return {
    $schema,
    title: name,
    description: title,
    type,
    properties: Object.fromEntries(described),
    required,
    additionalProperties,
  };
}

/** What the field says beside what its schema asks for; the example as the typed value. */
function describedProperty(property: JsonObject, field: Field): JsonObject {
  const { description, unit } = field;
  const reading = cellReaderOf(field)(field.example);
  const example = "value" in reading ? reading.value : null;
  const ownKeywords = {
    description,
    ...property,
    unit,
    examples: example === null ? undefined : [example],
  };
  return Object.fromEntries(Object.entries(ownKeywords).filter(([, value]) => value !== undefined));
}
