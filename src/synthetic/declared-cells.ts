import type { z } from "zod";
import { type Field, type FieldsSaying, fieldsOf } from "../schema/field.js";
import type { Invented } from "../schema/said-of-field.js";
import { type Generator, seededGenerator } from "../statistics/shared/random.js";
import { choose } from "./chance.js";

/** Names of the fields of a table that code draws; the others say at the field how their cells come about. */
export type DrawnField<Row extends z.ZodObject> = FieldsSaying<Row, { readonly invented: "drawn" }>;

/** The cells of a row that code draws. A field that says "drawn" and is not among them does not compile. */
export type DrawnCells<Row extends z.ZodObject> = Pick<z.infer<Row>, DrawnField<Row> & keyof z.infer<Row>>;

/** The other cells of a row, which come about as their fields say. */
export type DeclaredCells<Row extends z.ZodObject> = Omit<z.infer<Row>, DrawnField<Row>>;

/**
 * Makes the declared cells of the rows of one cohort, with the drawn ones blank: rows that are filled copies of it have one
 * shape, which is many times faster than rows put together from parts.
 *
 * Each field that gives weights is drawn from a generator of its own, so that a field added to a table leaves all other
 * cells of a cohort as they were.
 *
 * @param options seed and stream of the cohort; common: fields drawn by the generator of the cohort, in this order
 */
export function declaredCells<Row extends z.ZodObject>(
  row: Row,
  {
    seed,
    stream,
    common = [],
  }: { readonly seed: number; readonly stream: number; readonly common?: readonly string[] },
): (generator: Generator) => DeclaredCells<Row> {
  const fields = fieldsOf(row);
  const constants = Object.fromEntries(fields.map(({ name, invented }) => [name, constantOf(invented)]));
  const weighted = fields.filter(isWeighted).map(({ name, invented: { weights } }) => ({
    name,
    weights,
    own: common.includes(name) ? null : seededGenerator((seed ^ numberOf(name)) >>> 0, stream),
  }));
  if (weighted.length === 0) return () => constants as DeclaredCells<Row>;
  return (generator) => {
    const cells: Record<string, string | number | null> = { ...constants };
    for (const { name, weights, own } of weighted) cells[name] = choose(weights, own ?? generator);
    return cells as DeclaredCells<Row>;
  };
}

const constantOf = (invented: Invented): string | number | null =>
  typeof invented === "object" && "always" in invented ? invented.always : null;

type Weighted = Field & { readonly invented: { readonly weights: Readonly<Record<string, number>> } };

const isWeighted = (field: Field): field is Weighted =>
  typeof field.invented === "object" && "weights" in field.invented;

/** A number of 32 bits for a name. */
function numberOf(name: string): number {
  let number = 0;
  for (const letter of name) number = Math.imul(number, 31) + letter.charCodeAt(0);
  return number >>> 0;
}
