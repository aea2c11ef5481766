import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  estimateWords,
  looks,
  numberWords,
  weeksEstimateWords,
  weekWords,
} from "../../../src/charts/numbers.js";
import { rounded } from "../../../src/report/format.js";
import { intervalWords, valueWords } from "../../../src/report/words/estimates.js";

describe("numbers in figures", () => {
  it("round as those of the report's tables do: the same value never reads differently in the two", () => {
    const value = fc.oneof(
      fc.double({ min: -1000, max: 1000, noNaN: true }),
      fc.integer({ min: -20_000, max: 20_000 }).map((n) => n / 200),
    );
    fc.assert(
      fc.property(value, fc.integer({ min: 0, max: 3 }), fc.constantFrom(0, 2), (number, decimals, shift) => {
        expect(numberWords(number, { decimals, shift })).toBe(rounded(number, { decimals, shift }));
      }),
      { seed: 20_240_611, numRuns: 2000 },
    );
  });

  it.each([
    { unit: "percentage points", look: looks.percentagePoints },
    { unit: "days", look: looks.days },
    { unit: "ratio", look: looks.ratio },
    { unit: "mm", look: looks.millimetres },
  ] as const)(
    "an interval in $unit has the digits of the tables, also close to no difference",
    ({ unit, look }) => {
      for (const [value, lower, upper] of [
        [0.27, 0.004, 0.54],
        [1.2, 1.004, 2.9],
        [-0.031, -0.4, -0.0004],
      ] as const) {
        const estimate = { value, lower, upper, reason: null };
        const table = `${valueWords(estimate, unit)} (${intervalWords(estimate, unit)})`.replaceAll(
          / points| days| mm/g,
          "",
        );
        expect(estimateWords(estimate, look)).toBe(table);
      }
    },
  );

  it.each([
    { words: "\u22126 (\u221219 to 7)", estimate: { value: -0.06, lower: -0.19, upper: 0.07, reason: null } },
    { words: "27 (0.4 to 53.9)", estimate: { value: 0.27, lower: 0.004, upper: 0.539, reason: null } },
    { words: "10 (from 2)", estimate: { value: 0.1, lower: 0.02, upper: null, reason: "not-reached" } },
    { words: "10 (up to 20)", estimate: { value: 0.1, lower: null, upper: 0.2, reason: "not-reached" } },
    { words: "10 (no interval)", estimate: { value: 0.1, lower: null, upper: null, reason: "all-returned" } },
    { words: "nobody back", estimate: { value: null, lower: null, upper: null, reason: "no-events" } },
    { words: "not estimated", estimate: { value: null, lower: null, upper: null, reason: null } },
  ] as const)("an estimate reads $words", ({ words, estimate }) => {
    expect(estimateWords(estimate, looks.percentagePoints)).toBe(words);
  });

  it("days read as weeks", () => {
    expect(weeksEstimateWords({ value: 91, lower: 80, upper: null, reason: "not-reached" })).toBe(
      "13.0 (from 11.4)",
    );
    expect([weekWords(13), weekWords(6.5)]).toEqual(["13", "6.5"]);
  });
});
