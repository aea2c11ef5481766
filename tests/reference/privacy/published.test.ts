import { hmac } from "@noble/hashes/hmac.js";
import { sha256 } from "@noble/hashes/sha2.js";
import { describe, expect, it } from "vitest";
import { banded, bandInWords, equivalenceClasses, rareRows } from "../../../src/privacy/index.js";

const hex = (bytes: Uint8Array) => Buffer.from(bytes).toString("hex");
const ascii = (text: string) => new TextEncoder().encode(text);

describe("keyed names rest on HMAC-SHA-256: test cases of RFC 4231, section 4", () => {
  it.each([
    [
      new Uint8Array(20).fill(0x0b),
      "Hi There",
      "b0344c61d8db38535ca8afceaf0bf12b881dc200c9833da726e9376c2e32cff7",
    ],
    [
      ascii("Jefe"),
      "what do ya want for nothing?",
      "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843",
    ],
  ])("case %#", (key, text, expected) => {
    expect(hex(hmac(sha256, key, ascii(text)))).toBe(expected);
  });
});

describe("ages: 45 CFR 164.514(b)(2)(i)(C), all ages over 89 together as 90 or older", () => {
  it.each([
    [89, 87],
    [90, 90],
    [10, 12],
    [14, 12],
    [15, 17],
  ])("%i in bands of 5 years is %i", (age, expected) => {
    expect(banded(age, { width: 5, highest: 90 })).toBe(expected);
  });
  it("bands in words", () => {
    expect(bandInWords(88, { width: 5, highest: 90 })).toBe("85 to 89");
    expect(bandInWords(93, { width: 5, highest: 90 })).toBe("90 and over");
    expect(banded(85, { width: 20, highest: 90 })).toBe(84);
  });
});

describe("k-anonymity: the eleven rows of figure 2 of Sweeney 2002, Int J Uncertain Fuzziness Knowl-Based Syst 10:557 (from memory)", () => {
  // race, birth, gender, postcode; the table is 2-anonymous in these four
  const rows = [
    "Black 1965 m 0214*",
    "Black 1965 m 0214*",
    "Black 1965 f 0213*",
    "Black 1965 f 0213*",
    "Black 1964 f 0213*",
    "Black 1964 f 0213*",
    "White 1964 m 0213*",
    "White 1964 m 0213*",
    "White 1964 m 0213*",
    "White 1967 m 0213*",
    "White 1967 m 0213*",
  ].map((row, place) => ({ person: String(place), cells: row.split(" ") }));

  it("five classes of 2, 2, 2, 3 and 2 people; none rare for k = 2, eight rows rare for k = 3", () => {
    const classes = equivalenceClasses(rows);
    expect(classes.map(({ people }) => people)).toEqual([2, 2, 2, 3, 2]);
    expect(rareRows(classes, 2)).toEqual([]);
    expect(rareRows(classes, 3)).toHaveLength(8);
  });

  it("five rows of one person are one person", () => {
    const one = rows.slice(6, 9).map(({ cells }) => ({ person: "same", cells }));
    expect(equivalenceClasses(one).map(({ people }) => people)).toEqual([1]);
  });
});
