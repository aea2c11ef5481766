import { describe, expect, it } from "vitest";
import { productLimit } from "../../../../src/statistics/index.js";
import {
  gapWidths,
  type IncidenceBetweenVisits,
  incidenceBetweenVisits,
  incidenceBounds,
  intervalIncidence,
  threeReadings,
} from "../../../../src/statistics/survival/between-visits/index.js";
import { intervalCurve } from "../../../../src/statistics/survival/interval-censored/index.js";
import { expectAllClose, numbers, type Row, referenceCase, referenceRows } from "../reference-data.js";

const visits = referenceRows("visits", "visits.csv");
const right = (row: Row) => (row.right === "" ? null : Number(row.right));
const left = numbers(visits, "left");
const ends = numbers(visits, "end");
const grade = numbers(visits, "grade");
const groups = numbers(visits, "group");
const covariates = { names: ["grade"], columns: [grade] };
const entries = numbers(visits, "entry");
const clusters = numbers(visits, "person");
const asked = { times: [60, 91, 140], horizon: 182, laws: ["log-normal"] as const };

/** In the order of the reference: group 0, group 1, difference; shares, mean time, median. */
function expectFigures(found: IncidenceBetweenVisits, id: string): void {
  const { expected } = referenceCase("visits", id);
  const all = [...found.groups, ...found.differences].flatMap(({ shares, restrictedMean, median }) => [
    ...shares,
    restrictedMean,
    median,
  ]);
  const how = { rel: 1e-5, abs: 1e-5 };
  // the slope at the median is that of a step of less than a day
  const ofErrors = { rel: 1e-3, abs: 1e-4 };
  expectAllClose(
    all.map((one) => one.estimate),
    expected.estimate,
    { ...how, what: "estimate" },
  );
  expectAllClose(
    all.map((one) => one.standardError),
    expected.se,
    { ...ofErrors, what: "error" },
  );
  expectAllClose(
    all.map((one) => one.lower),
    expected.lower,
    { ...ofErrors, what: "lower" },
  );
  expectAllClose(
    all.map((one) => one.upper),
    expected.upper,
    { ...ofErrors, what: "upper" },
  );
}

describe("figures between visits, delta method in R, SYNTHETIC visits", () => {
  it("intervals and exact times, standardised over the grade", () => {
    const returns = ends.map((end) => Number(end === 1));
    const open = visits.map((row) => (row.end === "1" ? right(row) : null));
    const found = incidenceBetweenVisits({ left, right: open, ends: returns, groups, covariates }, asked);
    expect(found.models.map(({ form }) => form)).toEqual(["together"]);
    expectFigures(found, "standardised_intervals");
  });

  it("beside another end, with late entry and several injuries a person", () => {
    const day = visits.map((row) => right(row) ?? Number(row.left));
    const closed = visits.map(right);
    const found = incidenceBetweenVisits(
      { left: day, right: closed, ends, groups, covariates, entries, clusters },
      asked,
    );
    expect(found.models.map(({ form, law }) => [form, law])).toEqual([
      ["together", "log-normal"],
      ["together", "log-normal"],
    ]);
    expectFigures(found, "standardised_competing");
  });
});

describe("what the data alone say", () => {
  const cosmesis = referenceRows("interval_npmle", "breast_cosmesis.csv");
  const looked = {
    left: numbers(cosmesis, "left"),
    right: cosmesis.map((row) => (row.right === "" || row.right === "NA" ? null : Number(row.right))),
  };

  it("one end and no late entry: the curve of Turnbull 1976, breast cosmesis", () => {
    const curve = intervalCurve(looked);
    const found = intervalIncidence(looked);
    const both = [...found.ends[0]!.mass, ...found.open.mass];
    expect(found.ends[0]!.from.concat(found.open.from)).toEqual(curve.from);
    expectAllClose(both, curve.mass, { rel: 1e-4, abs: 1e-6, what: "mass" });
  });

  it("exact times with late entry: the product-limit curve", () => {
    const times = [5, 6, 8, 9, 12, 14, 20, 21];
    const events = [0, 1, 1, 0, 1, 1, 1, 1];
    const late = [0, 0, 0, 3, 0, 5, 9, 13];
    const curve = productLimit({ times, events, entries: late });
    const found = intervalIncidence({
      left: times,
      right: times.map((time, row) => (events[row] === 1 ? time : null)),
      entries: late,
    });
    const bounds = incidenceBounds(found, { end: 1, times: curve.times });
    expect(found.converged).toBe(true);
    const shares = curve.notYet.map((notYet) => 1 - notYet);
    expectAllClose(
      bounds.map(({ lower }) => lower),
      shares,
      { rel: 1e-4, abs: 1e-5, what: "lower" },
    );
    expectAllClose(
      bounds.map(({ upper }) => upper),
      shares,
      { rel: 1e-4, abs: 1e-5, what: "upper" },
    );
  });

  it("two ends at the same two visits: the counted shares, by hand", () => {
    const found = intervalIncidence({
      left: [0, 0, 0, 42, 42, 84],
      right: [42, 42, 42, 84, 84, null],
      ends: [1, 1, 2, 1, 2, 0],
    });
    expect(incidenceBounds(found, { end: 1, times: [42, 60, 84, 100] })).toMatchObject([
      { time: 42, lower: expect.closeTo(2 / 6, 6), upper: expect.closeTo(2 / 6, 6) },
      { time: 60, lower: expect.closeTo(2 / 6, 6), upper: expect.closeTo(3 / 6, 6) },
      { time: 84, lower: expect.closeTo(3 / 6, 6), upper: expect.closeTo(3 / 6, 6) },
      { time: 100, lower: expect.closeTo(3 / 6, 6), upper: expect.closeTo(4 / 6, 6) },
    ]);
  });

  it("one row that ends before others enter leaves nothing to say", () => {
    const found = intervalIncidence({ left: [5, 20, 30], right: [5, 20, 30], entries: [0, 8, 9] });
    expect(found.reason).toBe("too-few-rows");
    expect(found.ends[0]!.mass).toEqual([]);
  });
});

describe("widths and readings, by hand", () => {
  const seen = { left: [10, 42, 0, 84, 30], right: [10, 84, 42, null, 44], groups: [0, 0, 1, 1, 1] };

  it("widths 0 and 42 in one group, 42 and 14 in the other", () => {
    const { groups: byGroup, ...all } = gapWidths(seen);
    expect(all).toMatchObject({
      n: 4,
      exact: 1,
      wide: 2,
      wideShare: 0.5,
      median: 28,
      lowerQuartile: 10.5,
      upperQuartile: 42,
      largest: 42,
      meanWide: 21,
      keepIntervals: true,
      because: ["share", "mean-width"],
    });
    expect(byGroup.map(({ n, median }) => [n, median])).toEqual([
      [2, 21],
      [2, 28],
    ]);
    expect(all.comparison.df).toBe(1);
  });

  it("exact times are no reason to keep intervals", () => {
    expect(gapWidths({ left: [3, 5], right: [3, 5] })).toMatchObject({ keepIntervals: false, because: [] });
  });

  it("earliest, latest and midpoint", () => {
    const { earliest, latest, midpoint } = threeReadings(seen);
    expect([...earliest.times]).toEqual([10, 43, 1, 84, 31]);
    expect([...latest.times]).toEqual([10, 84, 42, 84, 44]);
    expect([...midpoint.times]).toEqual([10, 63, 21, 84, 37]);
    expect([...midpoint.ends]).toEqual([1, 1, 1, 0, 1]);
  });
});
