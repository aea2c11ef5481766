import { describe, expect, it } from "vitest";
import { logRank } from "../../../../src/statistics/comparison/log-rank.js";
import {
  type IntervalCurve,
  intervalCurve,
  intervalPermutationTest,
  intervalQuantile,
  intervalScoreTest,
  intervalShares,
} from "../../../../src/statistics/survival/interval-censored/index.js";
import {
  type Expected,
  expectAllClose,
  expectClose,
  numbers,
  type Row,
  referenceCase,
  referenceRows,
} from "../reference-data.js";
import { visits } from "./visits.js";

const cosmesis = referenceRows("interval_npmle", "breast_cosmesis.csv");
const turnbull = referenceRows("interval_npmle", "turnbull1974.csv");
const cohort = referenceRows("synthetic_cohort", "cohort.csv");

const endsOf = (rows: readonly Row[], left: string, right: string) => ({
  left: rows.map((row) => Number(row[left])),
  right: rows.map((row) => (row[right] === "" || row[right] === "NA" ? null : Number(row[right]))),
});

function expectSame(curve: IntervalCurve, expected: Expected): void {
  // the masses come from iterations that end at a distance of 1e-9 from the maximum or less
  const how = { rel: 1e-9, abs: 1e-10 };
  const { support } = expected;
  expectAllClose(curve.from, support.from, { ...how, what: "from" });
  expectAllClose(
    curve.to,
    support.to.map((to: unknown) => (to === "Infinity" ? null : to)),
    { ...how, what: "to" },
  );
  expect(curve.exact).toEqual(support.exact_time);
  expectAllClose(curve.mass, support.mass, { ...how, what: "mass" });
  expectAllClose(curve.notYetAfter, support.survival_after, { ...how, what: "share after" });
  expectClose(curve.logLikelihood, expected.log_likelihood, { rel: 1e-12, what: "log-likelihood" });
  expect(curve.candidates).toBe(expected.candidate_intervals);
  expect(curve.total).toBe(expected.n);
  expect(curve.unique).toBe(expected.unique_solution);
  expect(curve.converged).toBe(true);
  const shares = intervalShares(curve, expected.at_times.time);
  expectAllClose(
    shares.map((share) => share.lower),
    expected.at_times.survival_lower,
    { ...how, what: "lower" },
  );
  expectAllClose(
    shares.map((share) => share.upper),
    expected.at_times.survival_upper,
    { ...how, what: "upper" },
  );
  expect(shares.map((share) => share.undetermined)).toEqual(expected.at_times.undetermined);
}

describe("interval-censored curve", () => {
  it.each([
    ["cosmesis_radiotherapy", "radiotherapy"],
    ["cosmesis_radio_chemo", "radio+chemo"],
    ["cosmesis_all", null],
  ])("breast cosmesis, Finkelstein & Wolfe 1985, Biometrics 41:933: %s", (id, treatment) => {
    const rows = cosmesis.filter((row) => treatment === null || row.treatment === treatment);
    expectSame(
      intervalCurve(endsOf(rows, "left", "right")),
      referenceCase("interval_npmle", id as string).expected,
    );
  });

  it("doubly censored counts, Turnbull 1974, J Am Stat Assoc 69:169", () => {
    const times = numbers(turnbull, "time");
    const curve = intervalCurve({
      left: turnbull.map((row, at) => (row.kind === "left" ? 0 : times[at]!)),
      right: turnbull.map((row, at) => (row.kind === "right" ? null : times[at]!)),
      weights: numbers(turnbull, "count"),
    });
    expectSame(curve, referenceCase("interval_npmle", "turnbull_1974").expected);
  });

  it.each(["tape", "ring", "surgery"])("SYNTHETIC cohort of 2,000, R 4.2.2: %s", (treatment) => {
    const rows = cohort.filter((row) => row.treatment === treatment);
    const { expected } = referenceCase("synthetic_cohort", "interval_npmle");
    expectSame(intervalCurve(endsOf(rows, "visit_left", "visit_right")), expected[treatment]);
  });

  it("1,000 rows of visits: log-likelihood -2702.40574838 (R 4.2.2, a package for mixture likelihoods)", () => {
    const curve = intervalCurve(visits(1000));
    expect(curve.distanceFromMaximum).toBeLessThan(1e-9);
    expectClose(curve.logLikelihood, -2702.40574838, { rel: 1e-11, what: "log-likelihood" });
  });

  it("three rows by hand: (0,3], (2,5], (4, no end): half on (2,3], half on (4,5]", () => {
    // candidates (2,3] and (4,5]; likelihood p (p + q) q with p + q = 1
    const curve = intervalCurve({ left: [0, 2, 4], right: [3, 5, null] });
    expect(curve.from).toEqual([2, 4]);
    expect(curve.to).toEqual([3, 5]);
    expectAllClose(curve.mass, [0.5, 0.5], { rel: 1e-12, what: "mass" });
    expect(intervalQuantile(curve, 0.5)).toEqual({ earliest: { value: 2 }, latest: { value: 3 } });
  });

  it("half-open: (0,5] and (5,9] do not touch, an event at exactly 5 belongs to the first", () => {
    const apart = intervalCurve({ left: [0, 5], right: [5, 9] });
    expect([apart.from, apart.to]).toEqual([
      [0, 5],
      [5, 9],
    ]);
    const exactToo = intervalCurve({ left: [0, 5, 5], right: [5, 5, 9] });
    expect([exactToo.from, exactToo.to, exactToo.exact]).toEqual([
      [5, 5],
      [5, 9],
      [true, false],
    ]);
    expectAllClose(exactToo.mass, [2 / 3, 1 / 3], { rel: 1e-12, what: "mass" });
  });

  it("time 0: a negative left end takes it in, 0 leaves it out", () => {
    const curve = intervalCurve({ left: [-1, 0], right: [0, 4] });
    expect([curve.from, curve.to]).toEqual([
      [-1, 0],
      [0, 4],
    ]);
    expect(intervalShares(curve, [0])[0]).toEqual({ time: 0, lower: 0.5, upper: 0.5, undetermined: false });
  });
});

describe("score test", () => {
  const groups = cosmesis.map((row) => Number(row.treatment === "radio+chemo"));
  const ends = endsOf(cosmesis, "left", "right");

  it("remission trial, Freireich et al. 1963, Blood 21:699: exact and right-censored times give the log-rank surplus", () => {
    const rows = referenceRows("km", "freireich.csv");
    const times = numbers(rows, "weeks");
    const events = numbers(rows, "relapse");
    const arm = rows.map((row) => Number(row.group === "placebo"));
    const ours = intervalScoreTest({
      left: times,
      right: times.map((time, at) => (events[at] === 1 ? time : null)),
      groups: arm,
    });
    const { observed, expected } = logRank({ times, events, groups: arm });
    expectAllClose(
      ours.surplus,
      observed.map((value, g) => value - expected[g]!),
      { rel: 1e-9, what: "surplus" },
    );
  });

  it("proportional hazards: the surplus is the slope of the likelihood at no effect, by central differences", () => {
    const curve = intervalCurve(ends);
    const shareAfter = (time: number): number => intervalShares(curve, [time])[0]!.upper!;
    const likelihood = (effect: number): number =>
      groups.reduce((sum, group, at) => {
        const power = Math.exp(effect * group);
        const right = ends.right[at] as number | null;
        const upper = shareAfter(ends.left[at]!) ** power;
        const lower = right === null ? 0 : shareAfter(right) ** power;
        return sum + Math.log(upper - lower);
      }, 0);
    const h = 1e-4;
    const slope = (likelihood(h) - likelihood(-h)) / (2 * h);
    const test = intervalScoreTest({ ...ends, groups }, { scores: "proportional-hazards" });
    expectClose(test.surplus[1], slope, { rel: 1e-6, what: "slope" });
  });

  it("four rows by hand: exact times 1, 2 against 3, 4", () => {
    // log-rank scores 1 - 1/4, 1 - 1/4 - 1/3, 1 - 13/12, 1 - 25/12
    const test = intervalScoreTest({ left: [1, 2, 3, 4], right: [1, 2, 3, 4], groups: [0, 0, 1, 1] });
    const scores = [3 / 4, 5 / 12, -1 / 12, -13 / 12];
    const squares = scores.reduce((sum, score) => sum + score * score, 0);
    expectClose(test.surplus[0], 7 / 6, { rel: 1e-12, what: "surplus" });
    expectClose(test.variance[0]?.[0], squares / 3, { rel: 1e-12, what: "variance" });
    expectClose(test.chiSquare, (7 / 6) ** 2 / (squares / 3), { rel: 1e-12, what: "chi-square" });
  });

  it("permutations: 2 of the 6 permutations of those rows are as extreme", () => {
    const data = { left: [1, 2, 3, 4], right: [1, 2, 3, 4], groups: [0, 0, 1, 1] };
    const { permutationP } = intervalPermutationTest(data, { seed: 3, draws: 20000 });
    // four standard errors of 20,000 draws
    expect(Math.abs(permutationP! - 1 / 3)).toBeLessThan(4 * Math.sqrt(2 / 9 / 20000));
  });

  it("breast cosmesis: chi-square and random permutations agree at this size (within 0.003)", () => {
    const test = intervalPermutationTest({ ...ends, groups }, { seed: 1, draws: 4999 });
    expect(Math.abs(test.p! - test.permutationP!)).toBeLessThan(0.003);
  });
});
