import { describe, expect, it } from "vitest";
import {
  estimateWords,
  intervalWords,
  valueWords,
  weeksEstimateWords,
} from "../../../src/words/estimates.js";

describe("numbers in figures", () => {
  it.each([{ unit: "percentage points" }, { unit: "days" }, { unit: "ratio" }, { unit: "mm" }] as const)(
    "an interval in $unit has the digits of the tables, also close to no difference",
    ({ unit }) => {
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
        expect(estimateWords(estimate, unit)).toBe(table);
      }
    },
  );

  it.each([
    { words: "\u22126 (\u221219 to 7)", estimate: { value: -0.06, lower: -0.19, upper: 0.07, reason: null } },
    { words: "27 (0.4 to 53.9)", estimate: { value: 0.27, lower: 0.004, upper: 0.539, reason: null } },
    { words: "10 (from 2)", estimate: { value: 0.1, lower: 0.02, upper: null, reason: "not-reached" } },
    { words: "10 (up to 20)", estimate: { value: 0.1, lower: null, upper: 0.2, reason: "not-reached" } },
    { words: "10 (no interval)", estimate: { value: 0.1, lower: null, upper: null, reason: "all-returned" } },
    { words: "no return observed", estimate: { value: null, lower: null, upper: null, reason: "no-events" } },
    { words: "not available", estimate: { value: null, lower: null, upper: null, reason: null } },
  ] as const)("an estimate reads $words", ({ words, estimate }) => {
    expect(estimateWords(estimate, "percentage points")).toBe(words);
  });

  it("days read as weeks", () => {
    expect(weeksEstimateWords({ value: 91, lower: 80, upper: null, reason: "not-reached" })).toBe(
      "13.0 (from 11.4)",
    );
  });
});
