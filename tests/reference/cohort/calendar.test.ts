import { describe, expect, it } from "vitest";
import { calendarSpan } from "../../../src/cohort/calendar-span.js";
import { singleDay } from "../../../src/cohort/index.js";
import { dateOfDay } from "../../../src/schema/dates.js";

describe("days that a date may stand for, from the Gregorian calendar", () => {
  it.each([
    { date: "2024-06-03", precision: null, first: "2024-06-03", last: "2024-06-03" },
    { date: "2024-06-03", precision: "day", first: "2024-06-03", last: "2024-06-03" },
    { date: "2024-06-03", precision: "week", first: "2024-05-31", last: "2024-06-06" },
    { date: "2024-02-27", precision: "week", first: "2024-02-24", last: "2024-03-01" },
    { date: "2023-02-27", precision: "week", first: "2023-02-24", last: "2023-03-02" },
    { date: "2023-12-31", precision: "week", first: "2023-12-28", last: "2024-01-03" },
    { date: "2024-02-10", precision: "month", first: "2024-02-01", last: "2024-02-29" },
    { date: "2023-02-28", precision: "month", first: "2023-02-01", last: "2023-02-28" },
    { date: "2100-02-01", precision: "month", first: "2100-02-01", last: "2100-02-28" },
    { date: "2000-02-01", precision: "month", first: "2000-02-01", last: "2000-02-29" },
    { date: "2024-04-30", precision: "month", first: "2024-04-01", last: "2024-04-30" },
    { date: "2024-12-31", precision: "month", first: "2024-12-01", last: "2024-12-31" },
    { date: "2024-01-01", precision: "month", first: "2024-01-01", last: "2024-01-31" },
  ] as const)("$date to the $precision: $first to $last", ({ date, precision, first, last }) => {
    const span = calendarSpan(date, precision);
    expect([dateOfDay(span.first), dateOfDay(span.last)]).toEqual([first, last]);
  });
});

describe("the single day of an interval, by hand", () => {
  it.each([
    { left: 42, right: 84, rule: "earliest", day: 43 },
    { left: 42, right: 84, rule: "latest", day: 84 },
    { left: 42, right: 84, rule: "midpoint", day: 63 },
    { left: 41, right: 84, rule: "midpoint", day: 63 },
    { left: 90, right: 91, rule: "earliest", day: 91 },
    { left: 90, right: 91, rule: "midpoint", day: 91 },
    { left: 90, right: 91, rule: "latest", day: 91 },
    { left: -1, right: 0, rule: "midpoint", day: 0 },
    { left: -1, right: 1, rule: "midpoint", day: 0 },
  ] as const)("($left, $right], $rule: $day", ({ left, right, rule, day }) => {
    expect(singleDay({ left, right }, rule)).toBe(day);
  });
});
