import fc from "fast-check";
import { expect, it } from "vitest";
import {
  type Combination,
  cellsToLeaveOut,
  classSizes,
  equivalenceClasses,
  rareRows,
} from "../../../src/privacy/index.js";

const fields = [
  { blank: "not_stated", cost: 1, ofPerson: false },
  { blank: "", cost: 2, ofPerson: true },
  { blank: "", cost: 3, ofPerson: false },
];
const rows = fc.array(
  fc.record({
    person: fc.integer({ min: 1, max: 25 }).map(String),
    cells: fc.tuple(
      fc.constantFrom("left", "right"),
      fc.constantFrom("f", "m", ""),
      fc.integer({ min: 1, max: 6 }).map(String),
    ),
  }),
  { maxLength: 60 },
);

const without = (all: readonly Combination[], leftOut: readonly (readonly boolean[])[]) =>
  all.map(({ person, cells }, row) => ({
    person,
    cells: cells.map((cell, field) => (leftOut[row]![field] ? fields[field]!.blank : cell)),
  }));

it("after cells are left out every class has k people, or there are not k people at all", () => {
  fc.assert(
    fc.property(rows, fc.integer({ min: 2, max: 6 }), (all, k) => {
      const result = without(all, cellsToLeaveOut(all, { fields, k }));
      const people = new Set(all.map(({ person }) => person)).size;
      const rare = rareRows(equivalenceClasses(result), k);
      expect(rare.length === 0 || people < k).toBe(true);
    }),
    { seed: 2024, numRuns: 150 },
  );
});

it("nothing is left out where nothing is rare, and what is of the person goes from all rows of the person", () => {
  fc.assert(
    fc.property(rows, fc.integer({ min: 2, max: 6 }), (all, k) => {
      const leftOut = cellsToLeaveOut(all, { fields, k });
      if (rareRows(equivalenceClasses(all), k).length === 0) expect(leftOut.flat()).not.toContain(true);
      const result = without(all, leftOut);
      for (const [row, { person }] of all.entries()) {
        if (!leftOut[row]![1]) continue;
        for (const [place, other] of all.entries()) {
          if (other.person === person) expect(result[place]!.cells[1]).toBe("");
        }
      }
    }),
    { seed: 7, numRuns: 100 },
  );
});

it("classes hold every row once, whatever its order, and sizes add up to them", () => {
  fc.assert(
    fc.property(rows, fc.integer({ min: 2, max: 6 }), (all, k) => {
      const classes = equivalenceClasses(all);
      expect(classes.flatMap((one) => one.rows).sort((a, b) => a - b)).toEqual(all.map((_, place) => place));
      expect(classSizes(classes, k).reduce((sum, sizes) => sum + sizes.rows, 0)).toBe(all.length);
      const turned = equivalenceClasses([...all].reverse());
      const people = (some: typeof classes) => some.map((one) => one.people).sort((a, b) => a - b);
      expect(people(turned)).toEqual(people(classes));
    }),
    { seed: 11, numRuns: 100 },
  );
});
