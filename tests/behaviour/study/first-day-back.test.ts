import { describe, expect, it } from "vitest";
import { firstDayBack } from "../../../src/study/quantiles-of-points.js";

const point = (
  day: number,
  [returned_lower, returned, returned_upper]: readonly [number, number, number],
) => ({
  day,
  returned,
  returned_lower,
  returned_upper,
});

describe("the day by which half are back", () => {
  it("has the days at which the limits of the curve come to half as its limits (Brookmeyer & Crowley 1982)", () => {
    const points = [
      point(10, [0.1, 0.2, 0.35]),
      point(20, [0.25, 0.4, 0.52]),
      point(30, [0.4, 0.55, 0.7]),
      point(40, [0.5, 0.7, 0.8]),
    ];
    expect(firstDayBack(points, 0.5)).toEqual({ value: 30, lower: 20, upper: 40, reason: null });
  });

  it("is not limited by an early day at which hardly anybody was at risk", () => {
    const points = [
      point(2, [0, 0.05, 0.6]),
      point(10, [0.1, 0.2, 0.35]),
      point(20, [0.25, 0.4, 0.52]),
      point(30, [0.4, 0.55, 0.7]),
      point(40, [0.5, 0.7, 0.8]),
    ];
    // at most 35 % are back by day 10, so that half are not back by day 2
    expect(firstDayBack(points, 0.5)).toMatchObject({ value: 30, lower: 20 });
  });

  it("has no upper limit where the lower limit of the curve never comes to half", () => {
    const points = [point(10, [0.1, 0.2, 0.35]), point(30, [0.4, 0.55, 0.7])];
    expect(firstDayBack(points, 0.5)).toEqual({ value: 30, lower: 30, upper: null, reason: "not-reached" });
  });
});
