import { describe, expect, it } from "vitest";
import {
  type CompetingEvents,
  differenceOf,
  incidenceCurve,
  quantileTime,
  restrictedIncidenceMean,
  shareAt,
  standardisedCurves,
} from "../../../../src/statistics/index.js";
import {
  type Expected,
  expectAllClose,
  expectClose,
  numbers,
  type Row,
  referenceCase,
  referenceRows,
} from "../reference-data.js";

const rel = 1e-9;
const mgus = referenceRows("competing_means", "mgus2.csv");
const fingers = referenceRows("competing_means", "fingers.csv");
const causesOf = (rows: readonly Row[], time: string): CompetingEvents => ({
  times: numbers(rows, time),
  causes: numbers(rows, "cause"),
});
const inPersons = { ...causesOf(fingers, "time"), clusters: numbers(fingers, "person") };

function expectBlock(columns: CompetingEvents, expected: Expected): void {
  const { horizon } = expected;
  const { clusters: _, ...apart } = columns;
  const kinds = [
    ["se_delta", apart, "greenwood"],
    ["se_rows", apart, "robust"],
    ["se_clusters", columns, "robust"],
  ] as const;
  for (const [name, given, variance] of kinds) {
    const what = `${name} at ${horizon}`;
    const mean = restrictedIncidenceMean(given, { horizon, variance });
    expectClose(mean.estimate, expected.estimate, { rel, what: `area to ${horizon}` });
    expectClose(mean.standardError, expected[name], { rel, what });
    const share = shareAt(incidenceCurve(given, { variance }), horizon);
    expectClose(share.notYet, expected.not_yet, { rel, what: `share at ${horizon}` });
    expectClose(share.standardError, expected[`not_yet_${name}`], { rel, what: `share, ${what}` });
    if (variance === "greenwood")
      expectAllClose([share.lower, share.upper], expected.loglog_from_se_delta, { rel, what: "limits" });
  }
}

describe("incidence curve and restricted mean beside competing ends, against R package survival 3.5.3", () => {
  it.each([
    ["monoclonal gammopathy, women, Kyle et al. 2002, N Engl J Med 346:564", "mgus2_women", "F"],
    ["monoclonal gammopathy, men", "mgus2_men", "M"],
  ])("%s", (_, id, sex) => {
    const rows = mgus.filter((row) => row.sex === sex);
    for (const part of referenceCase("competing_means", id).expected)
      expectBlock(causesOf(rows, "months"), part);
  });

  it.each([
    ["bone marrow transplant, Klein & Moeschberger 2003, Survival Analysis", "bmt", "t_dfs"],
    ["melanoma, Andersen et al. 1993, Statistical Models Based on Counting Processes", "melanoma", "time"],
  ])("%s", (_, id, time) => {
    const rows = referenceRows("competing", `${id}.csv`);
    for (const part of referenceCase("competing_means", id).expected) expectBlock(causesOf(rows, time), part);
  });

  it("synthetic fingers, several of a person", () => {
    for (const part of referenceCase("competing_means", "fingers").expected) expectBlock(inPersons, part);
  });

  it("synthetic fingers with late entry", () => {
    const columns = { ...inPersons, entries: numbers(fingers, "entry") };
    for (const part of referenceCase("competing_means", "fingers_late_entry").expected)
      expectBlock(columns, part);
  });
});

describe("standardised over strata beside competing ends, against weighted sums of R package survival 3.5.3", () => {
  function expectStandardised(columns: Parameters<typeof standardisedCurves>[0], expected: Expected): void {
    const { horizon } = expected;
    const kind = "clusters" in columns ? "clusters" : "delta";
    const found = standardisedCurves(columns, { horizon, times: [horizon] });
    const [share, mean] = [found.shares![0]!, found.restrictedMean!];
    for (const side of [0, 1] as const) {
      const what = `group ${side} at ${horizon}`;
      expectClose(share.returned[side].estimate, expected.share[side], { rel, what });
      expectClose(share.returned[side].standardError, expected[`share_se_${kind}`][side], { rel, what });
      expectClose(mean.groups[side].estimate, expected.mean[side], { rel, what });
      expectClose(mean.groups[side].standardError, expected[`mean_se_${kind}`][side], { rel, what });
    }
    const errors = [mean.difference.standardError, share.difference.standardError];
    expectAllClose(errors, expected[`difference_se_${kind}`], { rel, what: "errors of the differences" });
    const limits = expected[`limits_${kind}`];
    const how = { rel, abs: 1e-11, what: `${kind}, recovered limits at ${horizon}` };
    expectAllClose([share.returned[0].lower!, share.returned[1].lower!], limits.lower, how);
    expectAllClose([share.returned[0].upper!, share.returned[1].upper!], limits.upper, how);
    expectAllClose([share.difference.lower!, share.difference.upper!], limits.difference, how);
  }

  it("synthetic fingers over grades, several of a person", () => {
    const placed = { groups: numbers(fingers, "group"), strata: numbers(fingers, "grade") };
    for (const part of referenceCase("competing_means", "fingers_standardised").expected) {
      expectStandardised({ ...inPersons, ...placed }, part);
      expectStandardised({ ...causesOf(fingers, "time"), ...placed }, part);
    }
  });

  it("monoclonal gammopathy, men and women over bands of age", () => {
    const age = numbers(mgus, "age");
    const placed = {
      groups: mgus.map(({ sex }) => (sex === "M" ? 1 : 0)),
      strata: age.map((years) => (years > 64 ? 1 : 0) + (years > 75 ? 1 : 0)),
    };
    for (const part of referenceCase("competing_means", "mgus2_standardised").expected)
      expectStandardised({ ...causesOf(mgus, "months"), ...placed }, part);
  });
});

describe("by hand: back on days 2, 6 and 8, given up on day 4", () => {
  const four = { times: [2, 4, 6, 8], causes: [1, 2, 1, 1] };

  it("a quarter never is back: half are by day 6, nine tenths never, and the curve is known for ever", () => {
    const curve = incidenceCurve(four);
    expect(curve.notYet).toEqual([0.75, 0.75, 0.5, 0.25]);
    expect(curve.competing).toEqual([0, 1, 0, 0]);
    expect(curve.complete).toBe(true);
    expect(quantileTime(curve, 0.5).estimate).toEqual({ value: 6 });
    expect(quantileTime(curve, 0.9).estimate).toEqual({ value: null, reason: "not-reached" });
    const later = shareAt(curve, 400);
    expect(later).toMatchObject({ returned: 0.75, reason: null, limitsReason: null, atRisk: 0 });
    expect(later).toMatchObject({ cumulativeEvents: 3, cumulativeCompeting: 1, cumulativeCensored: 0 });
  });

  it("mean of 2, 8, 6 and 8 days up to day 8; of 2, 10, 6 and 8 up to day 10, which is not beyond follow-up", () => {
    expect(restrictedIncidenceMean(four, { horizon: 8 }).estimate).toBe(6);
    const longer = restrictedIncidenceMean(four, { horizon: 10 });
    expect(longer).toMatchObject({ estimate: 6.5, beyondFollowUp: false });
    expectClose(longer.standardError, Math.sqrt(35) / 4, { rel, what: "error of the mean" });
    expect(restrictedIncidenceMean(four, { horizon: 10, cause: 2 }).estimate).toBe((10 * 3 + 4) / 4);
    expect(differenceOf(longer, restrictedIncidenceMean(four, { horizon: 8 })).difference).toBe(0.5);
  });

  it("with somebody still followed on day 7 nothing is known after it, and the mean to day 8 is carried flat", () => {
    const open = { times: [2, 4, 6, 7], causes: [1, 2, 1, 0] };
    expect(shareAt(incidenceCurve(open), 8).reason).toBe("beyond-follow-up");
    expect(restrictedIncidenceMean(open, { horizon: 8 }).beyondFollowUp).toBe(true);
  });

  it("late entry: nobody left on day 3, others later, is flagged", () => {
    const late = { times: [1, 3, 6, 8], causes: [1, 2, 1, 0], entries: [-1, -1, 4, 4] };
    expect(incidenceCurve(late)).toMatchObject({ reachedZeroEarly: true, complete: true });
    expect(incidenceCurve({ ...late, entries: [-1, -1, 2, 2] }).reachedZeroEarly).toBe(false);
  });
});
