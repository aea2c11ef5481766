import { sha256 } from "@noble/hashes/sha2.js";
import type { DataQuery } from "../../schema/data-query.js";

/** Digits of an id: no letters that are taken for others. */
const digits = "0123456789abcdefghjkmnpqrstvwxyz";
const bitsOfDigit = 5;
const groupLength = 4;

/** Facts that say which of several like queries about one cell is meant; no values, no row numbers. */
const tellingFacts = ["other_column", "earlier", "later", "what", "missing", "place", "why"] as const;

/** What a query is about, besides its own words: the table and the row, each by name. */
export interface Subject {
  readonly table: string;
  /** The row by its identifying cells; null for a query about a whole file. */
  readonly rowName: string | null;
}

/**
 * The text that an id is made from: kind of query, table, column, what was found, and the row by its identifying
 * cells. Row numbers, file names and other rows are no part of it.
 *
 * @param ordinal 1 for the first of several equal queries, in the order in which they are raised
 */
export function idText({ code, column, found, facts }: DataQuery, subject: Subject, ordinal: number): string {
  const telling = tellingFacts.map((name) => facts[name] ?? null);
  return JSON.stringify([code, subject.table, column, found, subject.rowName, telling, ordinal]);
}

/**
 * Digits 1 to `length` of the SHA-256 of a text, five bits each, in groups of four behind `q`.
 *
 * @example shortHash("a", 12) // => "q-sabr-24pa-3eyw"
 */
export function shortHash(text: string, length: number): string {
  const bytes = sha256(new TextEncoder().encode(text));
  let written = "";
  for (let i = 0; i < length; i++) {
    if (i % groupLength === 0) written += "-";
    written += digits[bitsAt(bytes, i * bitsOfDigit)];
  }
  return `q${written}`;
}

/** Five bits from a place on. */
function bitsAt(bytes: Uint8Array, bit: number): number {
  const byte = bit >> 3;
  const pair = ((bytes[byte] ?? 0) << 8) | (bytes[byte + 1] ?? 0);
  return (pair >> (16 - bitsOfDigit - (bit & 7))) & 31;
}
