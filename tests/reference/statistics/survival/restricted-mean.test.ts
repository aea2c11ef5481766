import { describe, expect, it } from "vitest";
import { differenceOf, ratioOf, restrictedMean, type TimeToEvent } from "../../../../src/statistics/index.js";
import {
  type Expected,
  expectAllClose,
  expectClose,
  numbers,
  referenceCase,
  referenceRows,
} from "../reference-data.js";

const freireich = referenceRows("rmst", "freireich.csv");
const lung = referenceRows("rmst", "lung.csv");
const rel = 1e-9;

const weeks = (group: string): TimeToEvent => {
  const rows = freireich.filter((row) => row.group === group);
  return { times: numbers(rows, "weeks"), events: numbers(rows, "relapse") };
};
const days = (sex: string | null): TimeToEvent => {
  const rows = lung.filter((row) => sex === null || row.sex === sex);
  return { times: numbers(rows, "time"), events: numbers(rows, "status") };
};

function expectMean(columns: TimeToEvent, expected: Expected) {
  const found = restrictedMean(columns, { horizon: expected.tau });
  expectClose(found.estimate, expected.estimate, { rel, what: "estimate" });
  expectClose(found.standardError, expected.se, { rel, what: "standard error" });
  expectClose(found.lastTime, expected.last_observed, { rel, what: "last time" });
  if (expected.se > 0) expectAllClose([found.lower, found.upper], expected.ci95, { rel, what: "limits" });
  else expect(found.reason).toBe("no-events");
  return found;
}

describe("restricted means against R package survival 3.5.3 and the formulas written out", () => {
  it.each([
    {
      source: "remission trial, Freireich et al. 1963, Blood 21:699",
      id: "freireich_groups",
      a: weeks("6-MP"),
      b: weeks("placebo"),
      names: ["6-MP", "placebo"],
    },
    {
      source: "advanced lung cancer by sex, Loprinzi et al. 1994, J Clin Oncol 12:601",
      id: "lung_by_sex",
      a: days("2"),
      b: days("1"),
      names: ["sex 2", "sex 1"],
    },
  ])("$source: two groups, difference and ratio at several horizons", ({ id, a, b, names }) => {
    for (const part of referenceCase("rmst", id).expected) {
      const first = expectMean(a, part[names[0]!]);
      const second = expectMean(b, part[names[1]!]);
      const expected = part.difference_first_minus_second;
      const difference = differenceOf(first, second);
      expectClose(difference.difference, expected.difference, { rel, what: "difference" });
      expectClose(difference.standardError, expected.se, { rel, what: "error" });
      expectClose(difference.z, expected.z, { rel, what: "z" });
      expectClose(difference.p, expected.p, { rel, what: "p" });
      expectAllClose([difference.lower, difference.upper], expected.ci95, { rel, what: "limits" });
      const ratio = ratioOf(first, second);
      expectClose(ratio.ratio, expected.ratio, { rel, what: "ratio" });
      expectAllClose([ratio.lower, ratio.upper], expected.ratio_ci95, { rel, what: "limits of the ratio" });
      expectClose(ratio.p, expected.ratio_p, { rel, what: "p of the ratio" });
    }
  });

  it("remission trial, 6-MP arm: at the last follow-up (week 35, censored) and beyond it, which is flagged", () => {
    for (const expected of referenceCase("rmst", "freireich_6mp_at_and_beyond_last").expected)
      expect(expectMean(weeks("6-MP"), expected).beyondFollowUp).toBe(expected.tau_beyond_last);
  });

  it("advanced lung cancer, all: area to day 1022 prints as 376 (documentation of R package survival, from memory)", () => {
    for (const expected of referenceCase("rmst", "lung_all").expected) expectMean(days(null), expected);
    expect(restrictedMean(days(null), { horizon: 1022 }).estimate).toBeCloseTo(376.27, 2);
  });
});
