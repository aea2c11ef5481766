import { listed } from "../format.js";
import { fieldWords } from "./terms.js";

/** What an effect holds equal, as the start of a sentence's clause. */
export function holdingEqual(fields: readonly string[]): string {
  if (fields.length === 0) return "without holding anything equal";
  if (fields.length === 1 && fields[0] === "grade") return "grade for grade";
  return `holding ${listed(fieldWords(fields))} equal`;
}
