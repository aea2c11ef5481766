import type { Field } from "../field.js";
import { nearest } from "../near.js";
import { gradeReader } from "./read-grade.js";
import { type CellReader, problem, saysNothing } from "./reading.js";
import { yesAndNo } from "./spellings.js";

/** A word as it is compared: small letters, _ for spaces and hyphens. */
export const comparedForm = (text: string): string => text.toLowerCase().replaceAll(/[\s\u00a0_-]+/g, "_");

/** Reads one of the words of a field, in any letter case, with spaces or hyphens for underscores. */
export function choiceReader({
  cells,
  spellings,
  terms = [],
}: Pick<Field, "cells" | "spellings" | "terms">): CellReader {
  const known = new Map(terms.map((term) => [comparedForm(term), term]));
  const also = { ...(terms.includes("yes") ? yesAndNo : {}), ...spellings };
  for (const [spelling, term] of Object.entries(also)) {
    if (terms.includes(term) && !known.has(spelling)) known.set(spelling, term);
  }
  const unknown = unknownWord(terms);
  const reader: CellReader = (text) => {
    const term = known.get(comparedForm(text));
    if (term !== undefined) return { value: term };
    return cells === "finger" && fingerByNumber.test(text) ? problem("finger-by-number") : unknown(text);
  };
  return cells === "grade" ? gradeReader(reader) : reader;
}

const fingerByNumber =
  /^(?:d|digit|finger|f)?\s*\.?\s*(?:[1-5]|i{1,3}|iv|v)(?:st|nd|rd|th)?\s*(?:finger|digit)?$/i;

/** What to answer to a word that is none of the terms. */
export const unknownWord =
  (terms: readonly string[]): CellReader =>
  (text) => {
    if (saysNothing(text)) return problem("missing-in-words");
    const near = nearest(comparedForm(text), terms);
    return problem("term-unknown", { terms: terms.join(", "), ...(near === null ? {} : { near }) });
  };
