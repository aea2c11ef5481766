import { describe, expect, it } from "vitest";
import {
  completenessOfFollowUp,
  followUpMedian,
  productLimit,
  quantileTime,
  shareAt,
} from "../../../../src/statistics/index.js";
import { numbers, referenceRows } from "../reference-data.js";

describe("follow-up", () => {
  it("reverse product-limit median by hand, Schemper & Smith 1996: censored at 4, 6, 9; the event at 5 leaves the risk set", () => {
    // at 4 of 4: 3/4; at 6 of 2: 3/8, so the median is 6
    expect(followUpMedian({ times: [4, 5, 6, 9], events: [0, 1, 0, 0] }).estimate).toEqual({ value: 6 });
  });

  it("advanced lung cancer, Loprinzi et al. 1994: the median of the curve with event and censoring exchanged", () => {
    const rows = referenceRows("km", "lung.csv");
    const columns = { times: numbers(rows, "time"), events: numbers(rows, "status") };
    const exchanged = { ...columns, events: columns.events.map((event) => 1 - event) };
    expect(followUpMedian(columns)).toEqual(quantileTime(productLimit(exchanged), 0.5));
  });

  it("completeness by hand, Clark, Altman & De Stavola 2002, Lancet 359:1309: observed over possible person-time", () => {
    // event at 10 (possible until then), lost at 20 of 40, followed to the end at 30: 60 of 80
    const found = completenessOfFollowUp({ times: [10, 20, 30], events: [1, 0, 0], potential: [50, 40, 30] });
    expect(found).toEqual({ share: { value: 0.75 }, observed: 60, potential: 80 });
  });
});

describe("what a curve says at a time", () => {
  const curve = productLimit({ times: [42, 56, 56, 70, 91, 120], events: [1, 1, 0, 1, 0, 0] });

  it("the interval of the share returned is that of the share not yet, turned round", () => {
    const found = shareAt(curve, 60);
    expect(found.returned).toBe(1 - found.notYet!);
    expect(found.returnedLower).toBe(1 - found.upper!);
    expect(found.returnedUpper).toBe(1 - found.lower!);
    expect(found.returnedLower!).toBeLessThan(found.returned!);
  });

  it("after the last follow-up nothing, with the counts that are known", () => {
    expect(shareAt(curve, 120)).toMatchObject({ reason: null, atRisk: 1 });
    expect(shareAt(curve, 121)).toMatchObject({
      notYet: null,
      returned: null,
      lower: null,
      reason: "beyond-follow-up",
      atRisk: 0,
      cumulativeEvents: 3,
      cumulativeCensored: 3,
    });
  });

  it("after everybody is back the share returned is 1 for good", () => {
    const all = productLimit({ times: [3, 5], events: [1, 1] });
    expect(shareAt(all, 900)).toMatchObject({
      returned: 1,
      standardError: null,
      reason: null,
      limitsReason: "all-returned",
    });
  });

  it("before the first event everybody is waiting, without an interval", () => {
    expect(shareAt(curve, 41)).toMatchObject({
      returned: 0,
      standardError: 0,
      lower: null,
      reason: null,
      limitsReason: "no-events",
      atRisk: 6,
    });
  });

  it("a curve that falls to 0 while others are still to enter is flagged (retirement home, Klein & Moeschberger 2003)", () => {
    const rows = referenceRows("km", "channing_men.csv");
    const entered = productLimit({
      times: numbers(rows, "exit_months"),
      events: numbers(rows, "death"),
      entries: numbers(rows, "entry_months"),
    });
    expect(entered.reachedZeroEarly).toBe(true);
    expect(curve.reachedZeroEarly).toBe(false);
    expect(productLimit({ times: [3, 5], events: [1, 1] }).reachedZeroEarly).toBe(false);
  });
});
