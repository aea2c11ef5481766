import { describe, expect, it } from "vitest";
import { daysOfWeek, weeksOfYear, weekText } from "../../../src/schema/cells/iso-week.js";
import { periodOf } from "../../../src/schema/cells/period.js";
import { serialDay } from "../../../src/schema/cells/serial-day.js";

describe("calendar weeks (ISO 8601)", () => {
  it("years of 53 weeks from 1950 to 2099: Python 3.11.7, datetime.date.isocalendar", () => {
    const long = [
      ...[1953, 1959, 1964, 1970, 1976, 1981, 1987, 1992, 1998, 2004, 2009, 2015, 2020, 2026, 2032, 2037],
      ...[2043, 2048, 2054, 2060, 2065, 2071, 2076, 2082, 2088, 2093, 2099],
    ];
    const years = Array.from({ length: 150 }, (_, place) => 1950 + place);
    expect(years.filter((year) => weeksOfYear(year) === 53)).toEqual(long);
  });

  it.each([
    // 1 January 1995 lies in 1994-W52, 31 December 1996 in 1997-W01: ISO 8601:2004, 4.1.4.2, from memory
    [1994, 52, "1994-12-26", "1995-01-01"],
    [1997, 1, "1996-12-30", "1997-01-05"],
    [2004, 53, "2004-12-27", "2005-01-02"],
    [2008, 1, "2007-12-31", "2008-01-06"],
    [2009, 53, "2009-12-28", "2010-01-03"],
    [2010, 1, "2010-01-04", "2010-01-10"],
    [2020, 53, "2020-12-28", "2021-01-03"],
    [2024, 10, "2024-03-04", "2024-03-10"],
    [2024, 12, "2024-03-18", "2024-03-24"],
  ])("week %d-W%d is %s to %s: Python 3.11.7, datetime.date.fromisocalendar", (year, week, first, last) => {
    expect(daysOfWeek(year, week)).toEqual({ first, last });
    expect(periodOf(weekText(year, week))).toEqual({ form: "week", first, last });
  });

  it("weeks that a year has not", () => {
    expect(daysOfWeek(2024, 53)).toBeNull();
    expect(daysOfWeek(2024, 0)).toBeNull();
    expect(periodOf("2021-W53")).toBeNull();
  });
});

describe("day numbers of spreadsheets (ECMA-376-1:2016, 18.17.4.1)", () => {
  it.each([
    [1, 1900, "1900-01-01"],
    [59, 1900, "1900-02-28"],
    // the day that never was, and the reason why all later numbers are one too high
    [60, 1900, "1900-02-29"],
    [61, 1900, "1900-03-01"],
    [25_569, 1900, "1970-01-01"],
    // 2,958,465 is 31 December 9999 and 0 in the second system is 1 January 1904, as the standard states
    [2_958_465, 1900, "9999-12-31"],
    [0, 1904, "1904-01-01"],
    [1, 1904, "1904-01-02"],
    [45_385, 1900, "2024-04-03"],
    [45_385.99, 1900, "2024-04-03"],
    [43_923, 1904, "2024-04-03"],
    [0, 1900, "1900-01-00"],
  ] as const)("%d counted from %d is %s", (serial, epoch, day) => {
    expect(serialDay(serial, epoch)).toBe(day);
  });

  it("no day below the first and beyond the last", () => {
    expect(serialDay(-1, 1900)).toBeNull();
    expect(serialDay(2_958_466, 1900)).toBeNull();
    expect(serialDay(Number.NaN, 1904)).toBeNull();
  });
});
