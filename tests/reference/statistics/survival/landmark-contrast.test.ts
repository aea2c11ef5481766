import { describe, expect, it } from "vitest";
import { productLimit } from "../../../../src/statistics/index.js";
import { landmarkContrast } from "../../../../src/statistics/survival/landmark-contrast.js";
import { restrictedMeanContrast } from "../../../../src/statistics/survival/restricted-mean-contrast.js";
import {
  type Expected,
  expectAllClose,
  expectClose,
  numbers,
  referenceCase,
  referenceRows,
} from "../reference-data.js";

const rel = 1e-9;
const rows = referenceRows("logrank", "freireich.csv");
const groupOf = (group: string) => {
  const own = rows.filter((row) => row.group === group);
  return { times: numbers(own, "weeks"), events: numbers(own, "relapse") };
};

describe("two curves at a time: remission trial, Freireich et al. 1963, Blood 21:699", () => {
  it("difference, hybrid interval, ratio and test from the curves of R package survival 3.5.3", () => {
    const expected = referenceCase("competing_ties", "landmarks_freireich").expected as Expected[];
    const curves = { a: productLimit(groupOf("6-MP")), b: productLimit(groupOf("placebo")) };
    const found = landmarkContrast(curves, { times: expected.map((one) => one.time) });
    found.forEach((one, k) => {
      const wanted = expected[k];
      const what = `week ${one.time}`;
      expectClose(one.difference.difference, wanted.difference, { rel, what });
      expectClose(one.difference.standardError, wanted.se, { rel, what });
      expectAllClose([one.difference.lower, one.difference.upper], wanted.plain, { rel, what });
      expectAllClose([one.hybrid.lower, one.hybrid.upper], wanted.hybrid, { rel, what: `${what} hybrid` });
      expectClose(one.ratio.ratio, wanted.ratio, { rel, what });
      expectAllClose([one.ratio.lower, one.ratio.upper], wanted.ratio_ci, { rel, what: `${what} ratio` });
      expectClose(one.test.statistic, wanted.test, { rel, what: `${what} test` });
    });
  });

  it("a level of its own moves every interval, whatever the level of the curves", () => {
    const curves = (level: number) => ({
      a: productLimit(groupOf("6-MP"), { level }),
      b: productLimit(groupOf("placebo"), { level }),
    });
    const at = (own: number, level: number) => landmarkContrast(curves(own), { times: [10], level })[0]!;
    expect(at(0.5, 0.9).hybrid).toEqual(at(0.95, 0.9).hybrid);
    expect(at(0.5, 0.9).hybrid.lower).not.toBe(at(0.5, 0.95).hybrid.lower);
  });
});

describe("restricted means of two groups against R package survival 3.5.3", () => {
  it("remission trial: difference and ratio at every horizon", () => {
    for (const one of referenceCase("rmst", "freireich_groups").expected) {
      const groups = { a: groupOf("6-MP"), b: groupOf("placebo") };
      const found = restrictedMeanContrast(groups, { horizon: one.tau });
      const wanted = one.difference_first_minus_second;
      expectClose(found.difference.difference, wanted.difference, { rel, what: "difference" });
      expectClose(found.ratio.ratio, wanted.ratio, { rel, what: "ratio" });
      expectAllClose([found.ratio.lower, found.ratio.upper], wanted.ratio_ci95, { rel, what: "interval" });
      const lost = [one["6-MP"].lost, one.placebo.lost];
      if (lost[0] > 0) expectClose(found.ratioAfterEvent.ratio, lost[0] / lost[1], { rel, what: "after" });
      else expect(found.ratioAfterEvent.reason).toBe("not-positive");
      expect(found.beyondFollowUp).toEqual([]);
    }
  });

  it("2,000 invented injuries: surgery and ring against tape", () => {
    const cohort = referenceRows("synthetic_cohort", "cohort.csv");
    const treated = (word: string) => {
      const own = cohort.filter((row) => row.treatment === word);
      return {
        times: numbers(own, "days"),
        events: numbers(own, "outcome").map((outcome) => (outcome === 1 ? 1 : 0)),
      };
    };
    for (const one of referenceCase("synthetic_cohort", "rmst").expected)
      for (const word of ["surgery", "ring"]) {
        const found = restrictedMeanContrast({ a: treated(word), b: treated("tape") }, { horizon: one.tau });
        const wanted = one[`${word}_minus_tape`];
        expectClose(found.a.estimate, one[word].estimate, { rel, what: word });
        expectClose(found.a.standardError, one[word].se, { rel, what: `${word} error` });
        expectClose(found.difference.difference, wanted.difference, { rel, what: "difference" });
        expectClose(found.difference.p, wanted.p, { rel: 1e-8, what: "p" });
        expectAllClose([found.ratio.lower, found.ratio.upper], wanted.ratio_ci95, { rel, what: "interval" });
      }
  });
});
