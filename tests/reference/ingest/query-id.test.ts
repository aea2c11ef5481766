import { createHash } from "node:crypto";
import { describe, expect, it } from "vitest";
import { shortHash } from "../../../src/ingest/answers/query-id.js";
import { register } from "../../../src/ingest/answers/register.js";
import { rowNames } from "../../../src/ingest/answers/row-names.js";
import type { DataQuery } from "../../../src/schema/index.js";

const digits = "0123456789abcdefghjkmnpqrstvwxyz";

/** The same digits from another implementation of SHA-256 (Node's), through one large number. */
function expected(text: string, length: number): string {
  const number = BigInt(`0x${createHash("sha256").update(text, "utf8").digest("hex")}`);
  const written = Array.from({ length }, (_, place) => {
    const shift = BigInt(256 - 5 * (place + 1));
    return digits[Number((number >> shift) & 31n)];
  });
  return `q-${written
    .join("")
    .match(/.{1,4}/g)!
    .join("-")}`;
}

describe("the id of a doubt", () => {
  it.each(["", "a", "abc", "Grad IVb – ä", "x".repeat(1_000)])(
    "is the first 60 bits of SHA-256 (FIPS 180-4, against Node's implementation): %j",
    (text) => {
      expect(shortHash(text, 12)).toBe(expected(text, 12));
      expect(shortHash(text, 48)).toBe(expected(text, 48));
    },
  );

  it("can be told over the telephone: small letters and digits, no i, l, o, u, in groups of four", () => {
    expect(shortHash("a", 12)).toMatch(/^q(-[0-9a-hjkmnp-tv-z]{4}){3}$/);
  });

  it("is longer where two doubts would share it, and the same for both in a second reading", () => {
    const about = (found: string): DataQuery => ({
      code: "term-unknown",
      severity: "look-at",
      file: "injuries.csv",
      row: 2,
      column: "hand",
      found,
      facts: {},
      injury: null,
    });
    const queries = Array.from({ length: 500 }, (_, place) => about(`word ${place}`));
    const ids = register(rowNames(new Map()), { length: 1 });
    const first = ids.nameAll(queries).map(({ id }) => id);
    expect(new Set(first).size).toBe(500);
    expect(ids.nameAll(queries).map(({ id }) => id)).toEqual(first);
  });
});
