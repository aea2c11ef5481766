import { laterPattern } from "./cells/later-than.js";
import { periodPattern } from "./cells/period.js";
import type { Field, FieldKind } from "./field.js";
import type { JsonObject } from "./json-schema.js";
import type { Table } from "./tables.js";

const types: Readonly<Record<FieldKind, string>> = {
  identifier: "string",
  text: "string",
  date: "date",
  period: "string",
  number: "number",
  bounded: "string",
  integer: "integer",
  choice: "string",
  list: "string",
};

/** The CSV of a table as a Frictionless Table Schema: what a cell may hold, before it is read. */
export function tableSchemaOf(table: Table): JsonObject {
  const { name, title, fields, key, refersTo } = table;
  const foreignKeys =
    refersTo === undefined
      ? undefined
      : [{ fields: [refersTo.column], reference: { resource: refersTo.table, fields: [refersTo.column] } }];
  return withoutGaps({
    name,
    title,
    fields: fields.map((field) => fieldSchemaOf(field, table)),
    missingValues: [""],
    primaryKey: key.length === 0 ? undefined : key,
    foreignKeys,
  });
}

function fieldSchemaOf(field: Field, { key }: Table): JsonObject {
  const { name, kind, description, unit, example, terms = [], minimum, maximum } = field;
  const isKey = key.length === 1 && key[0] === name;
  return withoutGaps({
    name,
    type: types[kind],
    format: kind === "date" ? "default" : undefined,
    description,
    unit,
    example: example === "" ? undefined : example,
    constraints: withoutGaps({
      required: field.required,
      unique: isKey ? true : undefined,
      enum: kind === "choice" ? terms : undefined,
      pattern: patternOf(field),
      // a bound is text, for which a table schema knows no range
      minimum: kind === "bounded" ? undefined : minimum,
      maximum: kind === "bounded" ? undefined : maximum,
    }),
  });
}

function patternOf({ kind, terms = [], required }: Field): string | undefined {
  if (kind === "list") return listPattern(terms);
  if (kind === "period")
    return required ? periodPattern.source : `${periodPattern.source}|${laterPattern.source}`;
  return kind === "bounded" ? numberOrBound : undefined;
}

const numberOrBound = String.raw`^[<>]?\d+(?:\.\d+)?$`;

/** Terms separated by |, at least one. */
const listPattern = (terms: readonly string[]): string => {
  const one = `(${terms.join("|")})`;
  return `^${one}(\\|${one})*$`;
};

const withoutGaps = (all: JsonObject): JsonObject =>
  Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined));
