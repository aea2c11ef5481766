import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cellReaderOf, dateOfDay, dayNumber, daysBetween, tables } from "../../../src/schema/index.js";
import { nearest } from "../../../src/schema/near.js";

const seed = 20_240_304;
const day = fc.integer({ min: dayNumber("1950-01-01"), max: dayNumber("2099-12-31") });

describe("days", () => {
  it("from a day to the day n later are n days, and back -n", () => {
    fc.assert(
      fc.property(day, fc.integer({ min: -20_000, max: 20_000 }), (from, gap) => {
        expect(daysBetween(dateOfDay(from), dateOfDay(from + gap))).toBe(gap);
        expect(daysBetween(dateOfDay(from + gap), dateOfDay(from))).toBe(-gap + 0);
      }),
      { seed },
    );
  });

  it("days add up over a day in between", () => {
    fc.assert(
      fc.property(day, day, day, (one, two, three) => {
        const [a, b, c] = [dateOfDay(one), dateOfDay(two), dateOfDay(three)] as const;
        expect(daysBetween(a, b) + daysBetween(b, c)).toBe(daysBetween(a, c));
      }),
      { seed },
    );
  });

  it("every day of the calendar from 1950 to 2099 is read as itself", () => {
    const read = cellReaderOf(tables.visits.fields.find(({ name }) => name === "date")!);
    const days = Array.from({ length: daysBetween("1950-01-01", "2099-12-31") + 1 }, (_, place) =>
      dateOfDay(dayNumber("1950-01-01") + place),
    );
    expect(days.map(read)).toEqual(days.map((date) => ({ value: date })));
  });
});

describe("cells", () => {
  it("a number written plainly is read as itself", () => {
    const read = cellReaderOf(tables.imaging.fields.find(({ name }) => name === "distance_mm")!);
    fc.assert(
      fc.property(
        fc.integer({ min: -99_999, max: 99_999 }),
        fc.integer({ min: 0, max: 3 }),
        (whole, digits) => {
          const text = (whole / 10 ** digits).toFixed(digits);
          expect(read(text)).toEqual({ value: Number(text) });
        },
      ),
      { seed },
    );
  });

  it("every word of every choice is read as itself in any letter case, with spaces around it", () => {
    for (const field of Object.values(tables).flatMap(({ fields }) => fields)) {
      const read = cellReaderOf(field);
      for (const term of field.kind === "choice" ? (field.terms ?? []) : []) {
        expect(read(`\u00a0${term.toUpperCase()} `), `${field.name}: ${term}`).toEqual({ value: term });
      }
    }
  });

  it("a word with two neighbouring letters swapped is nearest to itself", () => {
    const words = ["complete", "ultrasound", "rehabilitation", "half_crimp"];
    fc.assert(
      fc.property(fc.constantFrom(...words), fc.nat({ max: 6 }), (word, place) => {
        const swapped = word.slice(0, place) + word[place + 1] + word[place] + word.slice(place + 2);
        expect(nearest(swapped, words)).toBe(word);
      }),
      { seed },
    );
  });
});
