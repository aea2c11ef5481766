import { describe, expect, it } from "vitest";
import { productLimit, quantileTime, restrictedMean } from "../../../src/statistics/index.js";

describe("the examples in the comments are what comes out", () => {
  it("productLimit: six fingers by hand, 1 - 1/6, x (1 - 1/5), x (1 - 1/3), unchanged, 0", () => {
    const { notYet } = productLimit({ times: [42, 56, 56, 70, 91, 120], events: [1, 1, 0, 1, 0, 1] });
    [5 / 6, 2 / 3, 4 / 9, 4 / 9, 0].forEach((share, at) => {
      expect(notYet[at]).toBeCloseTo(share, 14);
    });
    expect(notYet).toHaveLength(5);
  });

  it("quantileTime", () => {
    const curve = productLimit({ times: [3, 5, 8, 9], events: [1, 1, 1, 1] });
    expect(quantileTime(curve, 0.5).estimate).toEqual({ value: 5 });
  });

  it("restrictedMean", () => {
    expect(restrictedMean({ times: [2, 4, 6, 8], events: [1, 1, 1, 1] }, { horizon: 8 }).estimate).toBe(5);
  });
});
