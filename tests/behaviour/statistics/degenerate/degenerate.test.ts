import { describe, expect, it } from "vitest";
import { cases } from "./cases.js";
import { casesOf, givenFor, outcome, statedFor } from "./table.js";
import { tableWithVariants } from "./variants.js";

describe("on degenerate data each function gives what the table states, and nothing that no reader could use", () => {
  it.each(tableWithVariants)("$name", (row) => {
    const given = casesOf(row).map((name) => [name, outcome(row, givenFor(row, name), cases[name].cohort)]);
    const stated = casesOf(row).map((name) => [name, { word: statedFor(row, name), faults: [] }]);
    expect(Object.fromEntries(given)).toEqual(Object.fromEntries(stated));
  });
});
