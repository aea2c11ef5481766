import { describe, expect, it } from "vitest";
import { oneStepHazardRatio, permutedLogRank } from "../../../../src/statistics/comparison/index.js";
import {
  type GroupedTimes,
  logRank,
  logRankTrend,
  type TimeWeight,
} from "../../../../src/statistics/index.js";
import {
  codes,
  type Expected,
  expectAllClose,
  expectClose,
  numbers,
  referenceCase,
  referenceRows,
} from "../reference-data.js";

const madeUp = (id: string) =>
  referenceCase("competing_ties", id) as never as { expected: Expected; data: Record<string, number[]> };

describe("clustered log-rank against the robust score test of R package survival 3.5.3, Breslow ties", () => {
  it.each([1, 2, 3, 4, 5, 6])("made-up set %i: plain, within strata, with delayed entry", (number) => {
    const { expected, data } = madeUp(`clustered_${number}`);
    const columns: GroupedTimes = {
      times: data.time!,
      events: data.event!,
      groups: data.group!,
      clusters: data.cluster!,
    };
    const rel = 1e-9;
    expectClose(logRank(columns).chiSquare, expected.plain, { rel, what: "plain" });
    const stratified = logRank({ ...columns, strata: data.stratum! });
    expectClose(stratified.chiSquare, expected.strata, { rel, what: "strata" });
    const late = logRank({ ...columns, entries: data.entry! });
    expectClose(late.chiSquare, expected.entry, { rel, what: "entry" });
  });
});

describe("permuted log-rank against every permutation, listed by brute force with R package survival 3.5.3", () => {
  it.each([
    ["deals_two_groups", "equal"],
    ["deals_two_groups_rho1", { rho: 1 }],
    ["deals_three_groups", "equal"],
    ["deals_strata", "equal"],
  ] as [string, TimeWeight][])("%s", (id, weight) => {
    const { expected, data } = madeUp(id);
    const { time: times, event: events, group: groups, stratum: strata } = data as Record<string, number[]>;
    const found = permutedLogRank(
      { times: times!, events: events!, groups: groups!, strata: strata! },
      { weight },
    );
    const rel = 1e-9;
    expect(found.method).toBe("exact");
    expect(found.permutations).toBe(expected.deals);
    expectClose(found.chiSquare, expected.chisq, { rel, what: "chi-square" });
    expectClose(found.p, expected.p, { rel, what: "p" });
    if (found.oneSided === null) return;
    expectClose(found.oneSided.more, expected.more, { rel, what: "more" });
    expectClose(found.oneSided.fewer, expected.fewer, { rel, what: "fewer" });
  });

  it("random permutations come within four of their own errors of every permutation", () => {
    const { data } = madeUp("deals_two_groups");
    const columns = { times: data.time!, events: data.event!, groups: data.group! };
    const exact = permutedLogRank(columns).p!;
    const drawn = permutedLogRank(columns, { method: "random", seed: 20240304, draws: 4000 });
    expect(Math.abs(drawn.p! - exact)).toBeLessThan(4 * drawn.monteCarloError!);
  });
});

describe("one-step hazard ratio", () => {
  it("remission trial, Freireich et al. 1963, from O, E and V of R package survival 3.5.3", () => {
    const rows = referenceRows("logrank", "freireich.csv");
    const { expected } = referenceCase("competing_ties", "one_step_ratio_freireich");
    const found = oneStepHazardRatio({
      times: numbers(rows, "weeks"),
      events: numbers(rows, "relapse"),
      groups: codes(rows, "group", ["placebo", "6-MP"]),
    });
    expectClose(found.ratio, expected.ratio, { rel: 1e-9, what: "ratio" });
    expectAllClose([found.lower, found.upper], expected.ci, { rel: 1e-9, what: "interval" });
  });
});

describe("log-rank tests of 2,000 invented injuries against R package survival 3.5.3", () => {
  const rows = referenceRows("synthetic_cohort", "cohort.csv");
  const times = numbers(rows, "days");
  const events = numbers(rows, "outcome").map((outcome) => (outcome === 1 ? 1 : 0));
  const groups = codes(rows, "treatment", ["tape", "ring", "surgery"]);
  const { expected } = referenceCase("synthetic_cohort", "logrank");
  const weights: Record<string, TimeWeight> = {
    logrank: "equal",
    peto_rho1: { rho: 1 },
    gehan: "at-risk",
    tarone_ware: "root-at-risk",
    rho0_gamma1: { rho: 0, gamma: 1 },
  };
  const expectSame = (columns: GroupedTimes, weight: TimeWeight, wanted: Expected): void => {
    const found = logRank(columns, { weight });
    const rel = 1e-9;
    expectAllClose(found.observed, wanted.observed, { rel, what: "observed" });
    expectAllClose(found.expected, wanted.expected, { rel, what: "expected" });
    expectClose(found.chiSquare, wanted.chisq, { rel, what: "chi-square" });
    expectClose(found.p, wanted.p, { rel: 1e-7, what: "p" });
  };

  it.each(Object.entries(weights))("weights %s", (name, weight) => {
    const wanted = expected[name];
    expectSame({ times, events, groups }, weight, wanted.treatment);
    expectSame(
      { times, events, groups, strata: numbers(rows, "site") },
      weight,
      wanted.treatment_strata_site,
    );
    const grades = { times, events, groups: numbers(rows, "grade") };
    expectSame(grades, weight, wanted.grade_trend);
    const trend = logRankTrend(grades, { weight, scores: wanted.grade_trend.trend.scores });
    expectClose(trend.z, wanted.grade_trend.trend.z, { rel: 1e-9, what: "trend" });
  });

  it("with delayed entry", () => {
    const wanted = referenceCase("synthetic_cohort", "logrank_delayed_entry").expected;
    expectSame({ times, events, groups, entries: numbers(rows, "entry_days") }, "equal", wanted);
  });
});

describe("weights by the product of (1 - d / (n + 1)), Prentice 1978, Biometrika 65:167", () => {
  it("four records by hand: 4/5, 4/5 x 3/4, 4/5 x 3/4 x 2/3", () => {
    // groups 0, 1, 0, 1 with events at 1, 2, 3, 4: the last time has one at risk
    const { observed } = logRank(
      { times: [1, 2, 3, 4], events: [1, 1, 1, 1], groups: [0, 1, 0, 1] },
      { weight: "peto-prentice" },
    );
    expectAllClose(observed, [0.8 + 0.4, 0.6 + 0.2], { rel: 1e-12, what: "observed" });
  });
});
