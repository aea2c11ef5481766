import { z } from "zod";
import type { Field } from "../../schema/field.js";
import type { JsonObject } from "../../schema/json-schema.js";
import { unitsFor } from "./apply/units.js";
import { askAnswer, blankAnswer, type Mapping, mappingSchema, type Undecided } from "./mapping.js";
import { meaningKey, notUsedAnswer } from "./meaning.js";
import { tableOf } from "./table-of.js";

/** The mark of a schema that was written beside a mapping. */
const comment = "pulley-outcomes: the mapping beside this file, for completion in an editor; made by fit";

/** Whether a text is such a schema: it is made anew with every mapping. */
export const isSchemaForFile = (text: string): boolean => text.includes(JSON.stringify(comment));

/**
 * The JSON Schema of the mapping of one file: the columns of the file as they can be named, the columns of the toolkit,
 * the legal words of each, and the answers to each open question. It holds the names of columns and no more of the cells
 * than the mapping does.
 *
 * @param mapping as it is written, with what the file looked like (`seen`)
 */
export function mappingSchemaFor(mapping: Mapping): JsonObject {
  const schema = z.toJSONSchema(mappingSchema, { io: "input" }) as Loose;
  const { properties } = schema;
  const rule = properties.columns.additionalProperties;
  properties.columns = {
    ...without(properties.columns, "additionalProperties", "propertyNames"),
    properties: Object.fromEntries(
      tableOf(mapping).fields.map((field) => [field.name, ruleFor(field, { rule, mapping })]),
    ),
    additionalProperties: false,
  };
  properties.not_used = { ...properties.not_used, items: column };
  const question = properties.undecided.items;
  properties.undecided = {
    ...properties.undecided,
    ...(mapping.undecided.length > 0 && {
      prefixItems: mapping.undecided.map((each) => ({
        ...question,
        properties: { ...question.properties, answer: answerTo(each, mapping) },
      })),
    }),
  };
  const $defs = { column: { enum: mapping.seen?.columns ?? [] } };
  return { ...schema, $comment: comment, $defs } as JsonObject;
}

// biome-ignore lint/suspicious/noExplicitAny: what zod makes is walked into by known keys
type Loose = any;

const without = (one: Loose, ...keys: readonly string[]): Loose =>
  Object.fromEntries(Object.entries(one).filter(([key]) => !keys.includes(key)));

/** A column of the file. */
const column = { $ref: "#/$defs/column" };

/** How a column of ours may be read: from columns of this file, its cells as words that it knows. */
function ruleFor(
  field: Field,
  { rule, mapping }: { readonly rule: Loose; readonly mapping: Mapping },
): Loose {
  const { from, ticked, latest_of, born_on, born_in, values, unit } = rule.properties;
  const several = { type: "array", minItems: 1, items: column };
  const meanings = meaningsOf(field);
  const told = Object.keys(mapping.columns[field.name]?.values ?? {});
  return {
    ...rule,
    description: field.description,
    properties: {
      ...rule.properties,
      from: { ...without(from, "anyOf"), anyOf: [column, several] },
      ticked: { ...ticked, additionalProperties: column },
      latest_of: { ...latest_of, ...several },
      born_on: { ...born_on, ...column },
      born_in: { ...born_in, ...column },
      values: {
        ...values,
        properties: Object.fromEntries(told.map((cell) => [cell, meanings])),
        additionalProperties: meanings,
      },
      unit: field.unit === undefined ? unit : { ...unit, enum: unitsFor(field.unit) },
    },
  };
}

/** What a cell may mean: one of the terms where there are any, and either way nothing or a query. */
function meaningsOf({ terms, kind }: Field): Loose {
  const known = [...(terms ?? []), blankAnswer, askAnswer];
  return terms === undefined || kind === "list"
    ? { anyOf: [{ enum: known }, { type: "string" }] }
    : { enum: known };
}

/** The answers that a question takes: its choices, and whatever is legal where its answer goes. */
function answerTo({ choices, decides: [path = []], question }: Undecided, mapping: Mapping): Loose {
  const [key, name, part] = path;
  const { fields } = tableOf(mapping);
  const field = fields.find((each) => each.name === name);
  const legal =
    key === meaningKey
      ? [...fields.map((each) => each.name), notUsedAnswer]
      : key === "columns" && part === "from"
        ? (mapping.seen?.columns ?? [])
        : key === "columns" && part === "values"
          ? [...(field?.terms ?? []), blankAnswer, askAnswer]
          : [];
  return { description: question, enum: [...new Set([...Object.keys(choices), ...legal]), null] };
}
