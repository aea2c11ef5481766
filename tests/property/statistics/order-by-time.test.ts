import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { distinctTimes } from "../../../src/statistics/shared/distinct-times.js";
import { orderByTime } from "../../../src/statistics/shared/order-by-time.js";

/** Values of many shapes: any at all, days, tenths, so close together that their first bits are the same, far apart. */
const value = fc.double({ noNaN: true, noDefaultInfinity: true });
const shapes: Readonly<Record<string, fc.Arbitrary<number>>> = {
  "any finite numbers": value,
  "0, -0 and their neighbours": fc.constantFrom(0, -0, Number.MIN_VALUE, -Number.MIN_VALUE),
  "whole numbers": fc.integer({ min: -3, max: 40 }),
  tenths: fc.integer({ min: 0, max: 5000 }).map((tenths) => tenths / 10),
  "numbers close together": fc.integer({ min: -(2 ** 20), max: 2 ** 20 }).map((step) => 1 + step * 2 ** -52),
  "numbers far apart": fc.tuple(fc.integer({ min: -300, max: 300 }), value).map(([power]) => 10 ** power),
};

/** Few rows and many: they are sorted in different ways. */
const columnOf = (one: fc.Arbitrary<number>) =>
  fc.oneof(fc.array(one, { maxLength: 20 }), fc.array(one, { minLength: 256, maxLength: 2000, size: "max" }));

describe("orderByTime", () => {
  it.each(Object.entries(shapes))("%s: the rows of a stable sort, as the language has it", (_, one) => {
    fc.assert(
      fc.property(columnOf(one), (values) => {
        const expected = [...values.keys()].sort((a, b) => values[a]! - values[b]! || a - b);
        const ordered = orderByTime(Object.freeze(values));
        expect([...ordered.rows]).toEqual(expected);
        expect([...ordered.values]).toEqual(expected.map((row) => values[row]! + 0));
      }),
      { seed: 20_260_101, numRuns: 30 },
    );
  });
});

describe("distinctTimes", () => {
  it.each(Object.entries(shapes))("%s: each once, ascending, and each row finds its own", (_, one) => {
    fc.assert(
      fc.property(columnOf(one), (values) => {
        const { times, position } = distinctTimes(values);
        expect([...times]).toEqual([...new Set(values.map((value) => value + 0))].sort((a, b) => a - b));
        expect(Array.from(position, (at) => times[at])).toEqual(values.map((value) => value + 0));
      }),
      { seed: 20_260_102, numRuns: 30 },
    );
  });
});
