import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { identifyingPatterns } from "../../../src/schema/identifying/patterns.js";

const pieces = [
  ..."@ (at) (AT) [at] // https:// HTTP:// www. WWW. . , - / + 0 00 7 12 1988 2024 A B b z ä É \u017f \u212a".split(
    " ",
  ),
  ..."dob geb * Dr Herr Dear Liebe name: Patient Berg Str. Straße via rue St CH- 8001 SW1A 1AA MRN nr".split(
    " ",
  ),
  " ",
  "\u00a0",
  " 12.03.1988 ",
  " Bergweg 12",
  "1988-03-12",
];
const texts = fc.array(fc.constantFrom(...pieces), { maxLength: 14 }).map((parts) => parts.join(""));

describe("the cheap look before a pattern", () => {
  test.each(identifyingPatterns)("law: no match of $kind without what it needs", ({ pattern, needs }) => {
    fc.assert(
      fc.property(texts, (text) => {
        for (const [match] of text.matchAll(pattern)) expect(needs.test(match)).toBe(true);
      }),
      { seed: 4, numRuns: 400 },
    );
  });

  test("law: every kind is found in some of these texts, so that the one above can fail", () => {
    const found = new Set<string>();
    fc.assert(
      fc.property(texts, (text) => {
        for (const { kind, pattern } of identifyingPatterns) if (text.search(pattern) >= 0) found.add(kind);
      }),
      { seed: 4, numRuns: 4_000 },
    );
    expect(found).toEqual(new Set(identifyingPatterns.map(({ kind }) => kind)));
  });
});
