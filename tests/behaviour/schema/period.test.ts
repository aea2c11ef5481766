import { describe, expect, it } from "vitest";
import { periodOf } from "../../../src/schema/cells/period.js";

describe("the canonical text of a period", () => {
  it.each([
    ["2024-03-04", { form: "day", first: "2024-03-04", last: "2024-03-04" }],
    ["2024-02", { form: "month", first: "2024-02-01", last: "2024-02-29" }],
    ["2024-W10", { form: "week", first: "2024-03-04", last: "2024-03-10" }],
    ["2024-03-01/2024-03-10", { form: "span", first: "2024-03-01", last: "2024-03-10" }],
    // both days are part of a span, so it may be a single one
    ["2024-03-01/2024-03-01", { form: "span", first: "2024-03-01", last: "2024-03-01" }],
  ])("%s", (text, period) => {
    expect(periodOf(text)).toEqual(period);
  });

  it.each(["2024-03-02/2024-03-01", "2024-02-30", "2024-13", "2024-02-30/2024-03-10", "March 2024", ""])(
    "%s is none",
    (text) => {
      expect(periodOf(text)).toBeNull();
    },
  );
});
