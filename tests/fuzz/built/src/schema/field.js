import { z } from "zod";
import { periodOf, periodPattern } from "./cells/period.js";
import { boundPattern } from "./cells/read-bounded.js";
/** A field that every row must fill. */
export const required = {
    identifier: (told) => z
        .string()
        .min(1)
        .max(120)
        .meta({ kind: "identifier", ...told }),
    date: (told) => isoDate.meta({ kind: "date", ...told }),
    period: (told) => period.meta({ kind: "period", ...told }),
    number: (told) => between(told).meta({ kind: "number", ...told }),
    choice: (terms, told) => z.enum(terms).meta({ kind: "choice", terms, ...told }),
    list: (terms, told) => z
        .array(z.enum(terms))
        .min(1)
        .meta({ kind: "list", terms, ...told }),
};
/** A field that may be blank: its typed value is then `null`, never a default. */
export const optional = {
    identifier: (told) => z
        .string()
        .min(1)
        .max(120)
        .nullable()
        .meta({ kind: "identifier", ...told }),
    text: (told) => z
        .string()
        .nullable()
        .meta({ kind: "text", ...told }),
    date: (told) => isoDate.nullable().meta({ kind: "date", ...told }),
    period: (told) => period.nullable().meta({ kind: "period", ...told }),
    number: (told) => between(told)
        .nullable()
        .meta({ kind: "number", ...told }),
    /** A number, or one with `>` or `<` before it, which is then typed as text. */
    bounded: (told) => z
        .union([between(told), z.string().regex(boundPattern)])
        .nullable()
        .meta({ kind: "bounded", ...told }),
    integer: (told) => between(told)
        .int()
        .nullable()
        .meta({ kind: "integer", ...told }),
    choice: (terms, told) => z
        .enum(terms)
        .nullable()
        .meta({ kind: "choice", terms, ...told }),
    list: (terms, told) => z
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
const between = ({ minimum, maximum }) => z.number().min(minimum).max(maximum);
/** The fields of a row schema, in the order in which they were written. */
export function fieldsOf(row) {
    return Object.entries(row.shape).map(([name, schema]) => ({
        name,
        required: !schema.safeParse(null).success,
        ...schema.meta(),
    }));
}
