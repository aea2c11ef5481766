import { describe, expect, it } from "vitest";
import { meanInterval } from "../../../../src/statistics/continuous/index.js";
import { normalCritical, productLimit, shareAt } from "../../../../src/statistics/index.js";
import { riskDifference } from "../../../../src/statistics/proportions/index.js";
import { shareDifference, studentInterval } from "../../../../src/statistics/survival/small-sample.js";

/** Hours of sleep gained under the first drug, Student 1908, Biometrika 6:1. */
const sleep = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2];

describe("interval by Student's t with a small-sample factor", () => {
  it("is the interval of a mean, where the estimate is a mean: sleep data, Student 1908", () => {
    const mean = sleep.reduce((sum, value) => sum + value, 0) / sleep.length;
    const squares = sleep.reduce((sum, value) => sum + (value - mean) ** 2, 0);
    const found = studentInterval(
      { estimate: mean, standardError: Math.sqrt(squares) / sleep.length },
      { units: sleep.length, curves: 1 },
    );
    const wanted = meanInterval(sleep);
    expect(found.lower).toBeCloseTo(wanted.lower!, 12);
    expect(found.upper).toBeCloseTo(wanted.upper!, 12);
  });

  it.each([
    { name: "no variance", standardError: 0, units: 10, curves: 1, reason: "no-variance" },
    { name: "a curve for each unit", standardError: 1, units: 2, curves: 2, reason: "too-few-rows" },
    { name: "fewer units than curves", standardError: 1, units: 1, curves: 4, reason: "too-few-rows" },
  ])("$name: no limits and why", ({ standardError, units, curves, reason }) => {
    expect(studentInterval({ estimate: 3, standardError }, { units, curves })).toEqual({
      estimate: 3,
      lower: null,
      upper: null,
      p: null,
      reason,
    });
  });

  it("names a figure that is none", () => {
    expect(() =>
      studentInterval({ estimate: Number.NaN, standardError: 1 }, { units: 9, curves: 1 }),
    ).toThrow("estimate");
    expect(() => studentInterval({ estimate: 0, standardError: -1 }, { units: 9, curves: 1 })).toThrow(
      "standardError",
    );
  });
});

/** A curve without censoring: so many of n back at day 1, the others at day 9. */
const pointOf = (back: number, n: number) => {
  const times = Array.from({ length: n }, (_, at) => (at < back ? 1 : 9));
  const curve = productLimit({ times, events: times.map(() => 1) });
  const { returned, standardError, atRisk } = shareAt(curve, 5);
  return { returned: returned!, standardError, atRisk, n };
};

describe("difference of two shares by recovered score limits", () => {
  it.each([
    [56, 70, 48, 80],
    [9, 10, 3, 10],
    [6, 7, 2, 7],
    [5, 56, 0, 29],
    [0, 10, 0, 20],
    [10, 10, 0, 20],
    [10, 10, 0, 10],
  ])(
    "without censoring %d of %d against %d of %d is Newcombe 1998, Stat Med 17:873, method 10",
    (a, n, b, m) => {
      const found = shareDifference(pointOf(a, n), pointOf(b, m));
      const wanted = riskDifference({ a, b: n - a, c: b, d: m - b });
      expect(found.lower).toBeCloseTo(wanted.lower!, 9);
      expect(found.upper).toBeCloseTo(wanted.upper!, 9);
    },
  );

  it("56 of 70 against 48 of 80: 0.0524 to 0.3339, printed in the same paper (from memory)", () => {
    const { lower, upper } = shareDifference(pointOf(56, 70), pointOf(48, 80));
    expect(lower).toBeCloseTo(0.0524, 4);
    expect(upper).toBeCloseTo(0.3339, 4);
  });

  it("counts persons, not rows, where nobody or everybody is back", () => {
    const ofPersons = (isBack: boolean, persons: number) => {
      const rows = Array.from({ length: 2 * persons }, (_, row) => row);
      const curve = productLimit({
        times: rows.map(() => (isBack ? 5 : 9)),
        events: rows.map(() => (isBack ? 1 : 0)),
        clusters: rows.map((row) => Math.floor(row / 2)),
      });
      return { ...shareAt(curve, 6), returned: isBack ? 1 : 0, n: curve.n, units: curve.units };
    };
    const found = shareDifference(ofPersons(true, 10), ofPersons(false, 12));
    const wanted = riskDifference({ a: 10, b: 0, c: 0, d: 12 });
    expect(found.lower).toBeCloseTo(wanted.lower!, 9);
    expect(found.upper).toBeCloseTo(wanted.upper!, 9);
  });

  it("p is the level at which the interval touches no difference", () => {
    const [a, b] = [pointOf(56, 70), pointOf(48, 80)];
    const { p } = shareDifference(a, b);
    const { lower } = shareDifference(a, b, { level: 1 - p! });
    expect(lower).toBeCloseTo(0, 9);
    expect(normalCritical(1 - p!)).toBeGreaterThan(normalCritical(0.95));
    expect(shareDifference(b, a).p).toBeCloseTo(p!, 12);
    expect(shareDifference(a, a).p).toBe(1);
  });
});
