import { describe, expect, it } from "vitest";
import { level, plainNumber, pValue, ratio, rounded, share } from "../../../src/words/numbers.js";
import { listed } from "../../../src/words/phrases.js";
import { byDay, days, weeks } from "../../../src/words/times.js";
import { limits } from "../../../src/words/units.js";

const minus = "\u2212";
const space = "\u00a0";

describe("rounding half away from zero in the decimal system (by hand)", () => {
  it.each([
    [0.5, 0, "1"],
    [1.5, 0, "2"],
    [2.5, 0, "3"],
    [-2.5, 0, `${minus}3`],
    [1.005, 2, "1.01"], // in binary 1.005 lies below the half; as written it is the half
    [-1.005, 2, `${minus}1.01`],
    [8.345, 2, "8.35"],
    [0.1 + 0.2, 1, "0.3"],
    [1e-9, 3, "0.000"],
    [-1e-9, 3, "0.000"], // no minus before a nought
    [0, 2, "0.00"],
    [-0, 0, "0"],
    [123456789.5, 0, "123456790"],
    [1e21, 0, "1e+21"],
  ] as const)("%d to %d decimals: %s", (value, decimals, text) => {
    expect(rounded(value, { decimals })).toBe(text);
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY])("%d is refused, not shown", (value) => {
    expect(() => rounded(value, { decimals: 1 })).toThrow("finite number");
  });

  it("a product of shares that should be 5/8 rounds as 5/8 does", () => {
    expect(share(0.6249999999999999)).toBe(share(0.625));
    expect(share(0.625)).toBe(`63${space}%`);
  });
});

describe("shares and levels", () => {
  it.each([
    [0.62, "62"],
    [0, "0"],
    [1, "100"],
    [0.145, "15"], // 0.145 * 100 is 14.499999999999998 in binary
    [0.005, "1"],
    [0.0049, "0"],
  ] as const)("%d is %s %%", (value, digits) => {
    expect(share(value)).toBe(`${digits}${space}%`);
  });
  it.each([
    [0.95, "95"],
    [0.9, "90"],
    [0.975, "97.5"],
    [0.999, "99.9"],
  ] as const)("level %d is %s %%", (value, digits) => {
    expect(level(value)).toBe(`${digits}${space}%`);
  });
});

describe("times", () => {
  it.each([
    [94, "13.4 weeks (94 days)"],
    [91, "13 weeks (91 days)"],
    [94.31, "13.5 weeks (94 days)"],
    [13, "13 days"],
    [1, "1 day"],
    [0, "0 days"],
    [14, "2 weeks (14 days)"],
  ] as const)("%d days: %s", (value, text) => {
    expect(days(value)).toBe(text);
  });
  it("a remark joins the days in the brackets", () => {
    expect(days(80, "an interval")).toBe("11.4 weeks (80 days, an interval)");
    expect(days(9, "an interval")).toBe("9 days (an interval)");
  });
  it.each([
    [13, "13 weeks"],
    [1, "1 week"],
    [6.5, "6.5 weeks"],
  ] as const)("%d: %s", (value, text) => {
    expect(weeks(value)).toBe(text);
  });
  it("a day on a whole week is called by its week", () => {
    expect([byDay(91), byDay(94), byDay(0)]).toEqual(["13 weeks", "day 94", "day 0"]);
  });
});

describe("p-values, never 0 and never 1 by rounding", () => {
  it.each([
    [0, `<${space}0.001`],
    [1e-300, `<${space}0.001`],
    [0.000999, `<${space}0.001`],
    [0.001, "0.001"],
    [0.0499, "0.050"],
    [0.0994, "0.099"],
    [0.1, "0.10"],
    [0.606, "0.61"],
    [0.99, "0.99"],
    [0.9999, `>${space}0.99`],
    [1, "1"],
  ] as const)("%d: %s", (p, text) => {
    expect(pValue(p)).toBe(text);
  });
});

describe("intervals", () => {
  it.each([
    [{ lower: 0.48, upper: 0.76 }, "share", "48 to 76"],
    [{ lower: -0.04, upper: 0.22 }, "percentage points", `${minus}4 to 22`],
    [{ lower: 0.71, upper: 1.784 }, "ratio", "0.71 to 1.78"],
    [{ lower: -22.14, upper: 4 }, "days", `${minus}22.1 to 4.0`],
    // a limit that is not the value of no difference must not look like it
    [{ lower: 0.002, upper: 0.3 }, "percentage points", "0.2 to 30.0"],
    [{ lower: 1.004, upper: 2.1 }, "ratio", "1.004 to 2.100"],
    [{ lower: 0, upper: 0.3 }, "percentage points", "0 to 30"],
    [{ lower: 1e-9, upper: 0.3 }, "percentage points", "0.000 to 30.000"],
  ] as const)("%o %s: %s", (interval, unit, text) => {
    expect(limits(interval, unit)).toBe(text);
  });
});

it("lists, ratios and plain numbers", () => {
  expect([listed([]), listed(["a"]), listed(["a", "b"]), listed(["a", "b", "c"])]).toEqual([
    "",
    "a",
    "a and b",
    "a, b and c",
  ]);
  expect(ratio(1.415)).toBe("1.42");
  expect([plainNumber(13), plainNumber(6.5), plainNumber(0.1 + 0.2), plainNumber(100)]).toEqual([
    "13",
    "6.5",
    "0.3",
    "100",
  ]);
});
