import { listed } from "./phrases.js";
import { fieldWords } from "./terms.js";

/** What an effect is adjusted for, as the start of a sentence's clause. */
export function adjustmentClause(fields: readonly string[]): string {
  if (fields.length === 0) return "without adjustment";
  if (fields.length === 1 && fields[0] === "grade") return "grade for grade";
  return `adjusted for ${listed(fieldWords(fields))}`;
}

/** What an effect is adjusted for, in a cell under "Adjusted for". */
export const adjustedFor = (fields: readonly string[]): string =>
  fields.length === 0 ? "none" : fieldWords(fields).join(", ");
