import { describe, expect, it } from "vitest";
import { daysBetween, levelRank } from "../../../src/schema/index.js";

/** The order of each scale, as printed in the chart of Draper et al. 2015, Sports Technology 8:88. */
const ascending = {
  french:
    "1 2 2+ 3- 3 3+ 4 4+ 5 5+ 6a 6a+ 6b 6b+ 6c 6c+ 7a 7a+ 7b 7b+ 7c 7c+ 8a 8a+ 8b 8b+ 8c 8c+ 9a 9a+ 9b 9b+",
  yds: "5.1 5.2 5.3 5.4 5.5 5.6 5.7 5.8 5.9 5.10a 5.10b 5.10c 5.10d 5.11a 5.11b 5.11c 5.11d 5.12a 5.12b 5.12c 5.12d 5.13a 5.13b 5.13c 5.13d 5.14a 5.14b 5.14c 5.14d 5.15a 5.15b 5.15c",
  font: "3 4 4+ 5 5+ 6A 6A+ 6B 6B+ 6C 6C+ 7A 7A+ 7B 7B+ 7C 7C+ 8A 8A+ 8B 8B+ 8C 8C+",
  v: "VB V0- V0 V0+ V1 V2 V3 V4 V5 V6 V7 V8 V9 V10 V11 V12 V13 V14 V15 V16",
  uiaa: "I II III III+ IV IV+ V- V V+ VI- VI VI+ VII- VII VII+ VIII- VIII VIII+ IX- IX IX+ X- X X+ XI- XI XI+ XII- XII",
  ewbank: "4 6 8 10 12 14 16 18 19 20 21 22 23 24 25 26 27 28 29 30 31 32 33 34 35 36 37 38",
} as const;

describe("levels on their scale", () => {
  it.each(Object.entries(ascending))(
    "%s ascends as in Draper et al. 2015, Sports Technology 8:88",
    (scale, levels) => {
      const ranks = levels.split(" ").map((level) => levelRank(level, scale as keyof typeof ascending));
      expect(ranks).not.toContain(null);
      expect(ranks).toEqual([...ranks].sort((one, other) => Number(one) - Number(other)));
      expect(new Set(ranks).size).toBe(ranks.length);
    },
  );

  it.each([
    ["french", "6c-7a"],
    ["french", "5.12a"],
    ["yds", "7a"],
    ["v", "V18"],
    ["uiaa", "XIII"],
    ["uiaa", "xvi"],
    ["ewbank", "V5"],
    ["font", ""],
  ] as const)("%s has no level %j", (scale, level) => {
    expect(levelRank(level, scale)).toBeNull();
  });
});

describe("days between", () => {
  it.each([
    ["2024-03-04", "2024-06-03", 91, "13 weeks by the calendar, over a change to summer time"],
    ["1899-12-30", "2023-03-15", 45_000, "spreadsheet serial 45000 is 2023-03-15, day 0 is 1899-12-30"],
    ["1899-12-30", "1904-01-01", 1_462, "the two spreadsheet epochs lie 1462 days apart"],
    [
      "1970-01-01",
      "2000-03-01",
      11_017,
      "by hand: 30 years of 365 days, 7 leap days up to 1996, 31 + 29 days of 2000",
    ],
    ["2023-02-28", "2023-03-01", 1, "no leap day in 2023"],
    ["2024-02-28", "2024-03-01", 2, "a leap day in 2024"],
  ])("%s to %s: %d (%s)", (from, to, days) => {
    expect(daysBetween(from, to)).toBe(days);
  });
});
