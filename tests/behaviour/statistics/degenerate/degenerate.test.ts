import { describe, expect, it } from "vitest";
import { cases } from "./cases.js";
import { casesOf, givenFor, outcome, statedFor, table } from "./table.js";

describe.each(table)("$name on degenerate data", (row) => {
  it.each(casesOf(row).map((name) => ({ name, stated: statedFor(row, name) })))(
    "$name: $stated",
    ({ name, stated }) => {
      const { word, faults } = outcome(row, givenFor(row, name), cases[name].cohort);
      expect({ word, faults }).toEqual({ word: stated, faults: [] });
    },
  );
});
