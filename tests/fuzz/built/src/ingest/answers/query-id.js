import { sha256 } from "@noble/hashes/sha2.js";
/** Digits of an id: no letters that are taken for others. */
const digits = "0123456789abcdefghjkmnpqrstvwxyz";
const bitsOfDigit = 5;
const groupLength = 4;
/** Facts that say which of several like doubts about one cell is meant; no values, no row numbers. */
const tellingFacts = ["other_column", "earlier", "later", "what", "missing", "place", "why"];
/**
 * The text that an id is made from: kind of doubt, table, column, what was found, and the row by its identifying
 * cells. Row numbers, file names and other rows are no part of it.
 *
 * @param ordinal 1 for the first of several equal doubts, in the order in which they are raised
 */
export function idText({ code, column, found, facts }, subject, ordinal) {
    const telling = tellingFacts.map((name) => facts[name] ?? null);
    return JSON.stringify([code, subject.table, column, found, subject.rowName, telling, ordinal]);
}
/**
 * Digits 1 to `length` of the SHA-256 of a text, five bits each, in groups of four behind `q`.
 *
 * @example shortHash("a", 12) // => "q-sam7-t4my-e6f5"
 */
export function shortHash(text, length) {
    const bytes = sha256(new TextEncoder().encode(text));
    let written = "";
    for (let place = 0; place < length; place++) {
        if (place % groupLength === 0)
            written += "-";
        written += digits[bitsAt(bytes, place * bitsOfDigit)];
    }
    return `q${written}`;
}
/** Five bits from a place on. */
function bitsAt(bytes, bit) {
    const byte = bit >> 3;
    const pair = ((bytes[byte] ?? 0) << 8) | (bytes[byte + 1] ?? 0);
    return (pair >> (16 - bitsOfDigit - (bit & 7))) & 31;
}
