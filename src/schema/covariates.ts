import type { z } from "zod";
import type { derivedVariables } from "./derived-variables.js";
import { type FieldsSaying, fieldsOf, fieldsSaying } from "./field.js";
import { injuryRow } from "./injuries.js";
import * as terms from "./terms.js";

/** Fields of the injuries whose terms make groups. */
export type GroupField = FieldsSaying<typeof injuryRow, { readonly covariate: "groups" }>;
/** Fields of the injuries that hold a number to adjust for. */
export type NumberField = FieldsSaying<typeof injuryRow, { readonly covariate: "number" }>;
/** Numbers to adjust for that are derived, not read. */
export type DerivedNumber = Exclude<keyof typeof derivedVariables, "first_treatment">;

const asWritten = fieldsSaying(injuryRow, { covariate: "groups" });
const usedMost: readonly GroupField[] = ["grade", "sex", "finger", "hand"];

/** Those used most first, then the others in the order of the table. */
export const groupFields: readonly GroupField[] = [
  ...usedMost,
  ...asWritten.filter((field) => !usedMost.includes(field)),
];
export const numberFields: readonly NumberField[] = fieldsSaying(injuryRow, { covariate: "number" });

/** What injuries can be compared by. */
export const comparable = ["first_treatment", ...groupFields] as const;
export type Comparable = (typeof comparable)[number];

/** The terms that groups can be of; null where the data name them, as sites. */
export function termsOfGroups(by: Comparable): readonly string[] | null {
  if (by === "first_treatment") return terms.treatments;
  return fieldsOf(injuryRow as unknown as z.ZodObject).find(({ name }) => name === by)?.terms ?? null;
}

/** What holds a number that a comparison can be adjusted for. */
export const adjustableNumbers = [...numberFields, "delay_days", "distance_loaded_first"] as const;
export type AdjustableNumber = NumberField | DerivedNumber;

/** What a comparison can be adjusted for. */
export const adjustable = [...groupFields, ...adjustableNumbers] as const;
export type Adjustable = GroupField | AdjustableNumber;
