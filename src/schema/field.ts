import { z } from "zod";
import { boundPattern } from "./cells/bound-text.js";
import { laterPattern, laterThan } from "./cells/later-than.js";
import { periodOf, periodPattern } from "./cells/period.js";
import { longestName } from "./limits.js";
import type { SaidOfAny, SaidOfDate, SaidOfNumber, SaidOfTerms, Sharing } from "./said-of-field.js";

/** What a field holds, which decides how a cell is read and how the field is described in a table schema. */
export type FieldKind =
  | "identifier"
  | "text"
  | "date"
  | "period"
  | "number"
  | "bounded"
  | "integer"
  | "choice"
  | "list";

/** Everything that is said of a field, at the field: shown in the data dictionary, in queries and in `schemas/`. */
export interface FieldDescription
  extends SaidOfAny,
    Partial<Omit<SaidOfDate & SaidOfNumber & SaidOfTerms, keyof SaidOfAny>> {
  readonly kind: FieldKind;
  /** The words a choice or list may hold, in their natural order. */
  readonly terms?: readonly string[];
}

type Words = readonly [string, ...string[]];
type Renamed = Extract<Sharing, { rename: unknown }>;
type Moved = Extract<Sharing, { move: unknown }>;
type Banded = Extract<Sharing, { band: unknown }>;
type SharedAs<S extends Sharing> = { readonly sharing: S | "never" };

declare const said: unique symbol;

/** The schema of a field together with what is said of it, which lists of fields are derived from as types. */
export interface Said<T> {
  /** No value: for the compiler only. */
  readonly [said]: T;
}

const descriptions = new WeakMap<z.ZodType, FieldDescription>();

/** Nothing may be said that no field says: a slip in the name of an optional property. */
type Only<T, Known> = T & { readonly [Name in Exclude<keyof T, keyof Known>]: never };

function described<S extends z.ZodType, T>(schema: S, description: FieldDescription): S & Said<T> {
  descriptions.set(schema, description);
  return schema as S & Said<T>;
}

const name = () => z.string().min(1).max(longestName);
/** A calendar day that exists, ISO 8601 `YYYY-MM-DD`. */
const isoDate = () => z.iso.date();
/** A day, month, calendar week or span of days that exist, in ISO 8601. */
const period = () =>
  z
    .string()
    .regex(periodPattern)
    .refine((text) => periodOf(text) !== null);
const periodOrLater = () =>
  z
    .string()
    .regex(new RegExp(`${periodPattern.source}|${laterPattern.source}`))
    .refine((text) => periodOf(text) !== null || laterThan(text) !== null);
const between = ({ minimum, maximum }: SaidOfNumber) => z.number().min(minimum).max(maximum);

/** A field that every row must fill. */
export const required = {
  identifier: <const T extends SaidOfAny & SharedAs<Renamed>>(told: Only<T, SaidOfAny>) =>
    described<ReturnType<typeof name>, T>(name(), { kind: "identifier", ...told }),
  date: <const T extends SaidOfDate & SharedAs<Moved>>(told: Only<T, SaidOfDate>) =>
    described<z.ZodISODate, T>(isoDate(), { kind: "date", ...told }),
  period: <const T extends SaidOfDate & SharedAs<"never">>(told: Only<T, SaidOfDate>) =>
    described<z.ZodString, T>(period(), { kind: "period", ...told }),
  number: <const T extends SaidOfNumber & SharedAs<"keep" | Banded>>(told: Only<T, SaidOfNumber>) =>
    described<z.ZodNumber, T>(between(told), { kind: "number", ...told }),
  choice: <const W extends Words, const T extends SaidOfTerms<W[number]> & SharedAs<"keep">>(
    terms: W,
    told: Only<T, SaidOfTerms>,
  ) => {
    const schema = z.enum(terms);
    return described<typeof schema, T>(schema, { kind: "choice", terms, ...told });
  },
  list: <const W extends Words, const T extends SaidOfTerms<W[number]> & SharedAs<"keep">>(
    terms: W,
    told: Only<T, SaidOfTerms>,
  ) => {
    const schema = z.array(z.enum(terms)).min(1);
    return described<typeof schema, T>(schema, { kind: "list", terms, ...told });
  },
};

/** A field that may be blank: its typed value is then `null`, never a default. */
export const optional = {
  identifier: <const T extends SaidOfAny & SharedAs<Renamed>>(told: Only<T, SaidOfAny>) =>
    described<z.ZodNullable<z.ZodString>, T>(name().nullable(), { kind: "identifier", ...told }),
  text: <const T extends SaidOfAny & SharedAs<"leave-out" | "only-on-scale" | Renamed>>(
    told: Only<T, SaidOfAny>,
  ) => described<z.ZodNullable<z.ZodString>, T>(z.string().nullable(), { kind: "text", ...told }),
  date: <const T extends SaidOfDate & SharedAs<Moved>>(told: Only<T, SaidOfDate>) =>
    described<z.ZodNullable<z.ZodISODate>, T>(isoDate().nullable(), { kind: "date", ...told }),
  /** Also a day that it came later than. */
  period: <const T extends SaidOfDate & SharedAs<"never">>(told: Only<T, SaidOfDate>) =>
    described<z.ZodNullable<z.ZodString>, T>(periodOrLater().nullable(), { kind: "period", ...told }),
  number: <const T extends SaidOfNumber & SharedAs<"keep" | Banded>>(told: Only<T, SaidOfNumber>) =>
    described<z.ZodNullable<z.ZodNumber>, T>(between(told).nullable(), { kind: "number", ...told }),
  /** A number, or one with `>` or `<` before it, which is then typed as text. */
  bounded: <const T extends SaidOfNumber & SharedAs<"never">>(told: Only<T, SaidOfNumber>) => {
    const schema = z.union([between(told), z.string().regex(boundPattern)]).nullable();
    return described<typeof schema, T>(schema, { kind: "bounded", ...told });
  },
  integer: <const T extends SaidOfNumber & SharedAs<"keep" | Banded>>(told: Only<T, SaidOfNumber>) =>
    described<z.ZodNullable<z.ZodNumber>, T>(between(told).int().nullable(), { kind: "integer", ...told }),
  choice: <const W extends Words, const T extends SaidOfTerms<W[number]> & SharedAs<"keep">>(
    terms: W,
    told: Only<T, SaidOfTerms>,
  ) => {
    const schema = z.enum(terms).nullable();
    return described<typeof schema, T>(schema, { kind: "choice", terms, ...told });
  },
  list: <const W extends Words, const T extends SaidOfTerms<W[number]> & SharedAs<"keep">>(
    terms: W,
    told: Only<T, SaidOfTerms>,
  ) => {
    const schema = z.array(z.enum(terms)).nullable();
    return described<typeof schema, T>(schema, { kind: "list", terms, ...told });
  },
};

/** One field of a table as plain data. */
export interface Field extends FieldDescription {
  readonly name: string;
  readonly required: boolean;
}

/** The fields of a row schema, in the order in which they were written. */
export function fieldsOf(row: z.ZodObject): readonly Field[] {
  return Object.entries(row.shape).map(([field, schema]) => ({
    name: field,
    required: !(schema as z.ZodType).safeParse(null).success,
    ...descriptions.get(schema as z.ZodType)!,
  }));
}

/** Names of the fields of which that is said: `FieldsSaying<typeof injuryRow, { invented: "drawn" }>`. */
export type FieldsSaying<Row extends z.ZodObject, What> = {
  [Name in keyof Row["shape"]]: Row["shape"][Name] extends Said<What> ? Name : never;
}[keyof Row["shape"]] &
  string;

/**
 * Names of the fields of which all that is said, in the order of the table.
 *
 * @example
 * fieldsSaying(tables.injuries.row, { covariate: "number" }) // => ["age_at_injury", "years_climbing"]
 */
export function fieldsSaying<Row extends z.ZodObject, const What extends Partial<FieldDescription>>(
  row: Row,
  what: What,
): readonly FieldsSaying<Row, What>[] {
  const wanted = Object.entries(what) as [keyof FieldDescription, unknown][];
  const saying = fieldsOf(row).filter((field) =>
    wanted.every(([property, value]) => field[property] === value),
  );
  return saying.map((field) => field.name as FieldsSaying<Row, What>);
}

/** The fields of a row that may be blank, blank: in the order of the table, so that all rows made from it have one shape. */
export function blankRow<Row extends z.ZodObject>(row: Row): BlankCells<z.infer<Row>> {
  const cells = Object.keys(row.shape).map((field) => [field, null]);
  return Object.fromEntries(cells) as BlankCells<z.infer<Row>>;
}

type BlankCells<Row> = { readonly [Name in keyof Row as null extends Row[Name] ? Name : never]: null };
