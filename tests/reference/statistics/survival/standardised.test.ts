import { describe, expect, it } from "vitest";
import {
  differenceOf,
  productLimit,
  restrictedMean,
  shareAt,
  standardisedCurves,
} from "../../../../src/statistics/index.js";
import { expectClose, numbers, referenceRows } from "../reference-data.js";

/** time, event, group, stratum */
const byHand = [
  [2, 1, 0, 7],
  [4, 1, 0, 7],
  [6, 1, 0, 7],
  [8, 1, 0, 7],
  [1, 1, 1, 7],
  [3, 1, 1, 7],
  [5, 1, 0, 9],
  [9, 1, 0, 9],
  [4, 1, 1, 9],
  [6, 1, 1, 9],
  [8, 1, 1, 9],
  [10, 1, 1, 9],
] as const;
const hand = {
  times: byHand.map(([time]) => time),
  events: byHand.map(([, event]) => event),
  groups: byHand.map(([, , group]) => group),
  strata: byHand.map(([, , , stratum]) => stratum),
};
const rel = 1e-12;

describe("direct standardisation by hand: two strata of six rows, nobody censored", () => {
  // by day 4, group 0: 2/4 in stratum 7, 0/2 in stratum 9; group 1: 2/2 and 1/4; weights 1/2 each
  it("shares and their variance: sum of w^2 p (1 - p) / n", () => {
    const found = standardisedCurves(hand, { horizon: 10, times: [4], smallest: 2 });
    expect(found.used).toEqual([
      { stratum: 7, n: [4, 2], weight: 0.5 },
      { stratum: 9, n: [2, 4], weight: 0.5 },
    ]);
    const share = found.shares?.[0];
    expectClose(share?.returned[0].estimate, (0.5 + 0) / 2, { rel, what: "group 0" });
    expectClose(share?.returned[1].estimate, (1 + 0.25) / 2, { rel, what: "group 1" });
    expectClose(share?.difference.difference, 0.375, { rel, what: "difference" });
    const variance = 0.25 * (0.25 / 4 + 0) + 0.25 * (0 + 0.1875 / 4);
    expectClose(share?.difference.standardError, Math.sqrt(variance), { rel, what: "error" });
  });

  it("restricted means are means of the times: 5 and 7 in group 0, 2 and 7 in group 1", () => {
    const found = standardisedCurves(hand, { horizon: 10, smallest: 2 }).restrictedMean;
    expectClose(found?.groups[0].estimate, 6, { rel, what: "group 0" });
    expectClose(found?.groups[1].estimate, 4.5, { rel, what: "group 1" });
    // squares about the mean over n^2: 20/16 and 8/4 in group 0, 2/4 and 20/16 in group 1
    const variance = 0.25 * (20 / 16 + 8 / 4 + 2 / 4 + 20 / 16);
    expectClose(found?.difference.standardError, Math.sqrt(variance), { rel, what: "error" });
  });

  it("weights of strata that are asked for", () => {
    const stratumWeights = new Map([
      [7, 3],
      [9, 1],
    ]);
    const found = standardisedCurves(hand, { horizon: 10, smallest: 2, stratumWeights });
    expectClose(found.restrictedMean?.groups[1].estimate, 0.75 * 2 + 0.25 * 7, { rel, what: "group 1" });
  });

  it("a stratum with too few rows, and one whose curve ends before the horizon, are left out and listed", () => {
    const censored = { ...hand, events: hand.events.map((event, at) => (at === 1 + 2 ? 0 : event)) };
    const found = standardisedCurves(censored, { horizon: 10, smallest: 2 });
    expect(found.leftOut).toEqual([{ stratum: 7, n: [4, 2], reason: "beyond-follow-up" }]);
    expect(found.used).toEqual([{ stratum: 9, n: [2, 4], weight: 1 }]);
    const none = standardisedCurves(hand, { horizon: 10, times: [4] });
    expect(none).toMatchObject({ shares: null, restrictedMean: null, reason: "no-overlap", used: [] });
    expect(none.leftOut.map(({ reason }) => reason)).toEqual(["too-few-rows", "too-few-rows"]);
  });
});

describe("direct standardisation, advanced lung cancer, Loprinzi et al. 1994, J Clin Oncol 12:601", () => {
  const rows = referenceRows("km", "lung.csv").filter((row) => ["0", "1", "2"].includes(row.ecog ?? ""));
  const columns = {
    times: numbers(rows, "time"),
    events: numbers(rows, "status"),
    groups: numbers(rows, "sex").map((sex) => sex - 1),
    strata: numbers(rows, "ecog"),
  };
  const cell = (group: number, stratum: number) => {
    const at = rows
      .map((_, row) => row)
      .filter((row) => columns.groups[row] === group && columns.strata[row] === stratum);
    return {
      times: at.map((row) => columns.times[row]!),
      events: at.map((row) => columns.events[row]!),
    };
  };

  it("is the weighted mean of the curves and restricted means within performance status, one by one", () => {
    const found = standardisedCurves(columns, { horizon: 365, times: [180] });
    expect(found.leftOut).toEqual([]);
    const side = (group: number) => {
      const sums = { share: 0, shareVariance: 0, mean: 0, meanVariance: 0 };
      for (const stratum of [0, 1, 2]) {
        const w = columns.strata.filter((code) => code === stratum).length / rows.length;
        const share = shareAt(productLimit(cell(group, stratum)), 180);
        const mean = restrictedMean(cell(group, stratum), { horizon: 365 });
        sums.share += w * share.returned!;
        sums.shareVariance += (w * share.standardError!) ** 2;
        sums.mean += w * mean.estimate!;
        sums.meanVariance += (w * mean.standardError!) ** 2;
      }
      return {
        share: { estimate: sums.share, standardError: Math.sqrt(sums.shareVariance) },
        mean: { estimate: sums.mean, standardError: Math.sqrt(sums.meanVariance) },
      };
    };
    const [first, second] = [side(0), side(1)];
    const share = differenceOf(second.share, first.share);
    const mean = differenceOf(second.mean, first.mean);
    for (const part of ["difference", "standardError"] as const)
      expectClose(found.shares?.[0]?.difference[part], share[part], { rel: 1e-9, what: `share, ${part}` });
    for (const part of ["difference", "standardError", "lower", "upper", "z", "p"] as const)
      expectClose(found.restrictedMean?.difference[part], mean[part], { rel: 1e-9, what: `mean, ${part}` });
  });
});
