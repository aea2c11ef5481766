import { z } from "zod";
import { boundPattern } from "./cells/bound-text.js";
import { periodOf, periodPattern } from "./cells/period.js";

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

/**
 * What becomes of the cells of a field in a copy that may leave the site. Every field says it, so that a new one cannot
 * slip into a copy undecided.
 *
 * - keep: as it is; move: a date, moved onto the person's own calendar; leave-out: free text;
 * - only-on-scale: kept where it is a level of the injury's scale, so that no other words leave;
 * - rename: a keyed name of that kind; band: the middle of a band of that kind;
 * - never: the table itself is never copied.
 */
export type Sharing =
  | "keep"
  | "move"
  | "leave-out"
  | "only-on-scale"
  | "never"
  | { readonly rename: "injury" | "person" | "event" | "site" | "rater" }
  | { readonly band: "age" | "years" | "body"; readonly highest: number };

type SharedAs<S extends Sharing> = { readonly sharing: S | "never" };
type Renamed = Extract<Sharing, { rename: unknown }>;
type Banded = Extract<Sharing, { band: unknown }>;

/** What a newcomer needs to fill in one column: shown in the data dictionary, in queries and in `schemas/`. */
export interface FieldDescription {
  readonly kind: FieldKind;
  readonly description: string;
  /** A cell as it would stand in the CSV. */
  readonly example: string;
  /** UCUM code, where the field is a quantity. */
  readonly unit?: string;
  /** The words a choice or list may hold, in their natural order. */
  readonly terms?: readonly string[];
  readonly minimum?: number;
  readonly maximum?: number;
  /** What a blank says, where it says something: then a cell that cannot be read may not be taken for a blank. */
  readonly blankSays?: string;
  readonly sharing: Sharing;
}

type Words = readonly [string, ...string[]];
type Told = Pick<FieldDescription, "description" | "example" | "blankSays">;
type Range = { readonly minimum: number; readonly maximum: number; readonly unit?: string };

/** A field that every row must fill. */
export const required = {
  identifier: (told: Told & SharedAs<Renamed>) =>
    z
      .string()
      .min(1)
      .max(120)
      .meta({ kind: "identifier", ...told }),
  date: (told: Told & SharedAs<"move">) => isoDate.meta({ kind: "date", ...told }),
  period: (told: Told & SharedAs<"never">) => period.meta({ kind: "period", ...told }),
  number: (told: Told & Range & SharedAs<"keep" | Banded>) => between(told).meta({ kind: "number", ...told }),
  choice: <const W extends Words>(terms: W, told: Told & SharedAs<"keep">) =>
    z.enum(terms).meta({ kind: "choice", terms, ...told }),
  list: <const W extends Words>(terms: W, told: Told & SharedAs<"keep">) =>
    z
      .array(z.enum(terms))
      .min(1)
      .meta({ kind: "list", terms, ...told }),
};

/** A field that may be blank: its typed value is then `null`, never a default. */
export const optional = {
  identifier: (told: Told & SharedAs<Renamed>) =>
    z
      .string()
      .min(1)
      .max(120)
      .nullable()
      .meta({ kind: "identifier", ...told }),
  text: (told: Told & SharedAs<"leave-out" | "only-on-scale">) =>
    z
      .string()
      .nullable()
      .meta({ kind: "text", ...told }),
  date: (told: Told & SharedAs<"move">) => isoDate.nullable().meta({ kind: "date", ...told }),
  period: (told: Told & SharedAs<"never">) => period.nullable().meta({ kind: "period", ...told }),
  number: (told: Told & Range & SharedAs<"keep" | Banded>) =>
    between(told)
      .nullable()
      .meta({ kind: "number", ...told }),
  /** A number, or one with `>` or `<` before it, which is then typed as text. */
  bounded: (told: Told & Range & SharedAs<"never">) =>
    z
      .union([between(told), z.string().regex(boundPattern)])
      .nullable()
      .meta({ kind: "bounded", ...told }),
  integer: (told: Told & Range & SharedAs<"keep" | Banded>) =>
    between(told)
      .int()
      .nullable()
      .meta({ kind: "integer", ...told }),
  choice: <const W extends Words>(terms: W, told: Told & SharedAs<"keep">) =>
    z
      .enum(terms)
      .nullable()
      .meta({ kind: "choice", terms, ...told }),
  list: <const W extends Words>(terms: W, told: Told & SharedAs<"keep">) =>
    z
      .array(z.enum(terms))
      .nullable()
      .meta({ kind: "list", terms, ...told }),
};

/** A calendar day that exists, ISO 8601 `YYYY-MM-DD`. */
const isoDate = z.iso.date();

/** A day, month, calendar week or span of days that exist, in ISO 8601. */
const period = z
  .string()
  .regex(periodPattern)
  .refine((text) => periodOf(text) !== null);

const between = ({ minimum, maximum }: Range) => z.number().min(minimum).max(maximum);

/** One field of a table as plain data. */
export interface Field extends FieldDescription {
  readonly name: string;
  readonly required: boolean;
}

/** The fields of a row schema, in the order in which they were written. */
export function fieldsOf(row: z.ZodObject): readonly Field[] {
  return Object.entries(row.shape).map(([name, schema]) => ({
    name,
    required: !(schema as z.ZodType).safeParse(null).success,
    ...((schema as z.ZodType).meta() as unknown as FieldDescription),
  }));
}
