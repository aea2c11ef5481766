import fc from "fast-check";
import { median as peerMedian } from "simple-statistics";
import { describe, expect, test } from "vitest";
import { ascending, median, middleWithout } from "../../../src/ingest/rules/medians.js";

const values = fc.array(fc.integer({ min: 0, max: 12 }), { minLength: 1, maxLength: 40 });

describe("medians", () => {
  test("agree with simple-statistics 7.12.1, and leave the values in their order", () => {
    fc.assert(
      fc.property(values, (list) => {
        const given = Object.freeze([...list]);
        expect(median(given)).toBe(peerMedian(list));
        expect(given).toEqual(list);
      }),
      { seed: 4 },
    );
  });

  test("law: the median without some values is that of the others", () => {
    fc.assert(
      fc.property(values, fc.array(fc.boolean(), { minLength: 40, maxLength: 40 }), (list, taken) => {
        const some = list.filter((_, place) => taken[place]);
        const others = list.filter((_, place) => !taken[place]);
        fc.pre(others.length > 0);
        expect(middleWithout(ascending(list), ascending(some))).toBe(peerMedian(others));
      }),
      { seed: 4 },
    );
  });
});
