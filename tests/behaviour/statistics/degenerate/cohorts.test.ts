import { describe, expect, it } from "vitest";
import {
  ArgumentError,
  baselineAdjusted,
  completenessOfFollowUp,
  cumulativeIncidence,
  describe as describeValues,
  followUpMedian,
  hazardsRegression,
  incidenceAt,
  linearRegression,
  logRank,
  logRankTrend,
  numberAtRisk,
  pairedMeanChange,
  prepareRiskSets,
  productLimit,
  proportionalityTest,
  quantileTime,
  restrictedMean,
  shareAt,
  standardisedCurves,
  standardisedDifference,
  standardisedDifferenceOfShares,
  welch,
} from "../../../../src/statistics/index.js";

/** time, event, group, covariate */
type Row = readonly [number, number, number, number];

const everyEstimator = {
  productLimit: (rows: readonly Row[]) => productLimit(columns(rows)),
  robustCurve: (rows: readonly Row[]) => productLimit(columns(rows), { variance: "robust" }),
  median: (rows: readonly Row[]) => quantileTime(productLimit(columns(rows)), 0.5),
  shareAt5: (rows: readonly Row[]) => shareAt(productLimit(columns(rows)), 5),
  numberAtRisk: (rows: readonly Row[]) => numberAtRisk(prepareRiskSets(columns(rows)), [0, 5, 100]),
  followUpMedian: (rows: readonly Row[]) => followUpMedian(columns(rows)),
  completeness: (rows: readonly Row[]) =>
    completenessOfFollowUp({ ...columns(rows), potential: rows.map(([time]) => time) }),
  restrictedMean10: (rows: readonly Row[]) => restrictedMean(columns(rows), { horizon: 10 }),
  incidence: (rows: readonly Row[]) => {
    const curves = cumulativeIncidence({
      times: columns(rows).times,
      causes: rows.map(([, event]) => event),
    });
    return { curves, at5: incidenceAt(curves, { time: 5, cause: 1 }) };
  },
  logRank: (rows: readonly Row[]) => logRank(grouped(rows)),
  logRankTrend: (rows: readonly Row[]) => logRankTrend(grouped(rows)),
  hazards: (rows: readonly Row[]) => hazardsRegression({ ...columns(rows), covariates: both(rows) }),
  hazardsClustered: (rows: readonly Row[]) =>
    hazardsRegression({ ...columns(rows), covariates: both(rows), clusters: rows.map((_, at) => at) }),
  proportionality: (rows: readonly Row[]) =>
    proportionalityTest({ ...columns(rows), covariates: both(rows) }),
  linear: (rows: readonly Row[]) =>
    linearRegression({ response: columns(rows).times, covariates: both(rows) }),
  linearRobust: (rows: readonly Row[]) =>
    linearRegression({ response: columns(rows).times, covariates: both(rows) }, { variance: "hc3" }),
  adjusted: (rows: readonly Row[]) =>
    baselineAdjusted({
      baseline: rows.map(([, , , x]) => x),
      followUp: columns(rows).times,
      groups: grouped(rows).groups,
    }),
  standardised: (rows: readonly Row[]) =>
    standardisedCurves(
      { ...grouped(rows), strata: rows.map(() => 0) },
      { horizon: 10, times: [5], smallest: 1 },
    ),
  describe: (rows: readonly Row[]) => describeValues(columns(rows).times),
  welch: (rows: readonly Row[]) => welch(timesOf(rows, 0), timesOf(rows, 1)),
  paired: (rows: readonly Row[]) =>
    pairedMeanChange({ before: columns(rows).times, after: rows.map(([, , , x]) => x) }),
  standardisedDifference: (rows: readonly Row[]) =>
    standardisedDifference(timesOf(rows, 0), timesOf(rows, 1)),
  ofShares: (rows: readonly Row[]) =>
    standardisedDifferenceOfShares(eventCounts(rows, 0), eventCounts(rows, 1)),
} as const;

const columns = (rows: readonly Row[]) => ({
  times: rows.map(([time]) => time),
  events: rows.map(([, event]) => event),
});
const grouped = (rows: readonly Row[]) => ({ ...columns(rows), groups: rows.map(([, , group]) => group) });
const both = (rows: readonly Row[]) => ({
  names: ["group", "x"],
  columns: [rows.map(([, , group]) => group), rows.map(([, , , x]) => x)],
});
const timesOf = (rows: readonly Row[], of: number) =>
  rows.filter(([, , group]) => group === of).map(([time]) => time);
const eventCounts = (rows: readonly Row[], of: number) => {
  const own = rows.filter(([, , group]) => group === of);
  const events = own.filter(([, event]) => event === 1).length;
  return [own.length - events, events];
};

/** What has to come out; the words are reasons. */
interface Outcome {
  readonly median: number | string;
  readonly returnedAt5: number | string;
  readonly followUp: number | string;
  readonly mean10: number | string;
  /** Reason of the missing interval or estimate of the mean, null where there is none. */
  readonly meanReason: string | null;
  readonly logRank: string | null;
  readonly hazards: string;
  readonly linear: string | null;
  readonly standardised: string | null;
}

const degenerate: { name: string; rows: readonly Row[]; outcome: Outcome }[] = [
  {
    name: "no rows",
    rows: [],
    outcome: {
      median: "no-rows",
      returnedAt5: "no-rows",
      followUp: "no-rows",
      mean10: "no-rows",
      meanReason: "no-rows",
      logRank: "no-rows",
      hazards: "no-rows",
      linear: "no-rows",
      standardised: "no-rows",
    },
  },
  {
    name: "one row, with the event at 5",
    rows: [[5, 1, 0, 1]],
    outcome: {
      median: 5,
      returnedAt5: 1,
      followUp: "not-reached",
      mean10: 5,
      meanReason: "no-variance",
      logRank: "one-group",
      hazards: "collinear",
      linear: "too-few-rows",
      standardised: "no-overlap",
    },
  },
  {
    name: "one row, censored at 5",
    rows: [[5, 0, 0, 1]],
    outcome: {
      median: "not-reached",
      returnedAt5: 0,
      followUp: 5,
      mean10: 10,
      meanReason: "no-events",
      logRank: "one-group",
      hazards: "no-events",
      linear: "too-few-rows",
      standardised: "no-overlap",
    },
  },
  {
    name: "all censored",
    rows: [
      [3, 0, 0, 1],
      [6, 0, 1, 2],
      [8, 0, 0, 3],
      [9, 0, 1, 1],
    ],
    outcome: {
      median: "not-reached",
      returnedAt5: 0,
      followUp: 6,
      mean10: 10,
      meanReason: "no-events",
      logRank: "no-events",
      hazards: "no-events",
      linear: null,
      standardised: "no-overlap",
    },
  },
  {
    name: "all with the event",
    rows: [
      [3, 1, 0, 1],
      [6, 1, 1, 2],
      [8, 1, 0, 3],
      [9, 1, 1, 1],
    ],
    outcome: {
      median: 6,
      returnedAt5: 0.25,
      followUp: "not-reached",
      mean10: 6.5,
      meanReason: null,
      logRank: null,
      hazards: "ok",
      linear: null,
      standardised: null,
    },
  },
  {
    name: "a single time, events and censored",
    rows: [
      [5, 1, 0, 1],
      [5, 0, 1, 2],
      [5, 1, 1, 4],
      [5, 0, 0, 3],
    ],
    outcome: {
      median: 5,
      returnedAt5: 0.5,
      followUp: 5,
      mean10: 7.5,
      meanReason: null,
      logRank: null,
      hazards: "ok",
      linear: null,
      standardised: "no-overlap",
    },
  },
  {
    name: "everything at time zero",
    rows: [
      [0, 1, 0, 1],
      [0, 1, 1, 2],
      [0, 1, 0, 3],
      [0, 1, 1, 5],
    ],
    outcome: {
      median: 0,
      returnedAt5: 1,
      followUp: "not-reached",
      mean10: 0,
      meanReason: "no-variance",
      logRank: "no-variance",
      hazards: "ok",
      linear: null,
      standardised: null,
    },
  },
  {
    name: "ties everywhere",
    rows: [
      [4, 1, 0, 1],
      [4, 1, 1, 2],
      [4, 0, 0, 3],
      [4, 0, 1, 1],
      [9, 1, 0, 2],
      [9, 1, 1, 3],
      [9, 0, 0, 1],
      [9, 0, 1, 2],
    ],
    outcome: {
      median: 9,
      returnedAt5: 0.25,
      followUp: 9,
      mean10: 4 + 5 * 0.75 + 0.375,
      meanReason: null,
      logRank: null,
      hazards: "ok",
      linear: null,
      standardised: "no-overlap",
    },
  },
  {
    name: "a group that nobody is in",
    rows: [
      [3, 1, 0, 1],
      [6, 1, 0, 2],
      [8, 0, 0, 3],
      [11, 1, 0, 1],
    ],
    outcome: {
      median: 6,
      returnedAt5: 0.25,
      followUp: 8,
      mean10: 3 + 3 * 0.75 + 4 * 0.5,
      meanReason: null,
      logRank: "one-group",
      hazards: "collinear",
      linear: null,
      standardised: "no-overlap",
    },
  },
  {
    name: "a group without events",
    rows: [
      [3, 1, 0, 1],
      [6, 1, 0, 2],
      [8, 1, 0, 3],
      [11, 0, 1, 1],
      [12, 0, 1, 2],
      [13, 0, 1, 3],
    ],
    outcome: {
      median: 8,
      returnedAt5: 1 / 6,
      followUp: 12,
      mean10: 3 + 3 * (5 / 6) + 2 * (4 / 6) + 2 * 0.5,
      meanReason: null,
      logRank: null,
      hazards: "monotone-likelihood",
      linear: null,
      standardised: null,
    },
  },
  {
    name: "a constant covariate",
    rows: [
      [3, 1, 0, 7],
      [6, 1, 1, 7],
      [8, 1, 0, 7],
      [9, 1, 1, 7],
    ],
    outcome: {
      median: 6,
      returnedAt5: 0.25,
      followUp: "not-reached",
      mean10: 6.5,
      meanReason: null,
      logRank: null,
      hazards: "collinear",
      linear: null,
      standardised: null,
    },
  },
  {
    name: "collinear covariates",
    rows: [
      [3, 1, 0, 5],
      [6, 1, 1, 8],
      [8, 1, 0, 5],
      [9, 1, 1, 8],
    ],
    outcome: {
      median: 6,
      returnedAt5: 0.25,
      followUp: "not-reached",
      mean10: 6.5,
      meanReason: null,
      logRank: null,
      hazards: "collinear",
      linear: null,
      standardised: null,
    },
  },
];

const said = (figure: { value: number | null; reason?: string }) => figure.value ?? figure.reason;

describe.each(degenerate)("degenerate cohort: $name", ({ rows, outcome }) => {
  it("says what it should", () => {
    const curve = productLimit(columns(rows));
    const at5 = shareAt(curve, 5);
    const mean = restrictedMean(columns(rows), { horizon: 10 });
    const rounded = (value: number | null) => (value === null ? null : Math.round(value * 1e12) / 1e12);
    const standardised = everyEstimator.standardised(rows);
    expect({
      median: said(quantileTime(curve, 0.5).estimate),
      returnedAt5: rounded(at5.returned) ?? at5.reason,
      followUp: said(followUpMedian(columns(rows)).estimate),
      mean10: rounded(mean.estimate) ?? mean.reason,
      meanReason: mean.reason,
      logRank: everyEstimator.logRank(rows).reason,
      hazards: everyEstimator.hazards(rows).status,
      linear: everyEstimator.linear(rows).reason,
      standardised: standardised.reason,
    }).toEqual({
      ...outcome,
      returnedAt5:
        typeof outcome.returnedAt5 === "number" ? rounded(outcome.returnedAt5) : outcome.returnedAt5,
      mean10: typeof outcome.mean10 === "number" ? rounded(outcome.mean10) : outcome.mean10,
    });
  });
});

describe("degenerate covariates in the hazards regression", () => {
  const rows = degenerate.find(({ name }) => name === "collinear covariates")?.rows ?? [];

  it("of two that say the same the first is kept, the second has a reason", () => {
    const fit = hazardsRegression({ ...columns(rows), covariates: both(rows) });
    expect(fit.coefficients[0]).toBeTypeOf("number");
    expect(fit.hazardRatios[1]).toMatchObject({ estimate: null, reason: "collinear", limit: null });
    expect(fit.likelihoodRatio.df).toBe(1);
  });

  it("a covariate that is constant within every stratum", () => {
    const fit = hazardsRegression({
      ...columns(rows),
      strata: rows.map(([, , group]) => group),
      covariates: both(rows),
    });
    expect(fit.status).toBe("collinear");
    expect(fit.coefficients).toEqual([null, null]);
    expect(fit.likelihoodRatio).toMatchObject({ statistic: null, df: 0, reason: "collinear" });
  });

  it("iterations that run out are said", () => {
    const own = degenerate.find(({ name }) => name === "ties everywhere")?.rows ?? [];
    const fit = hazardsRegression({ ...columns(own), covariates: both(own) }, { maximumIterations: 1 });
    expect(fit).toMatchObject({ status: "not-converged", converged: false, iterations: 1 });
  });

  it("no covariates at all: a null model", () => {
    const fit = hazardsRegression({ ...columns(rows), covariates: { names: [], columns: [] } });
    expect(fit).toMatchObject({ status: "ok", coefficients: [] });
    expect(fit.logLikelihood).toBe(fit.logLikelihoodNull);
  });

  it("a limit in the other direction: all events in group 1", () => {
    const turned = (degenerate.find(({ name }) => name === "a group without events")?.rows ?? []).map(
      ([time, event, group, x]): Row => [time, event, 1 - group, x],
    );
    const fit = hazardsRegression({ ...columns(turned), covariates: both(turned) });
    expect(fit.hazardRatios[0]).toMatchObject({ estimate: null, limit: "infinity" });
  });
});

describe("wrong arguments are errors that name the column, the index and what was found", () => {
  it("carries argument, index, expected and found apart", () => {
    try {
      productLimit({ times: [1, Number.NaN], events: [1, 0] });
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(ArgumentError);
      expect(error).toMatchObject({
        argument: "times",
        index: 1,
        expected: "a finite number, 0 or more",
        found: "NaN",
      });
    }
  });

  const times = [3, 6];
  const events = [1, 0];
  it.each([
    [
      "unequal lengths",
      () => productLimit({ times, events: [1] }),
      "events must be as long as times (2 values); found 1 values",
    ],
    ["an event of 2", () => productLimit({ times, events: [1, 2] }), "events[1] must be 0 or 1; found 2"],
    [
      "an entry at the time",
      () => productLimit({ times, events, entries: [0, 6] }),
      "entries[1] must be before times[1], which is 6; found 6",
    ],
    [
      "an event at entry on day 0",
      () => productLimit({ times: [0], events: [1], entries: [0] }),
      "entries[0] must be before times[0], which is 0; found 0",
    ],
    [
      "a negative weight",
      () => productLimit({ times, events, weights: [1, -2] }),
      "weights[1] must be a finite number, 0 or more; found -2",
    ],
    [
      "a cluster that is no whole number",
      () => productLimit({ times, events, clusters: [1, 0.5] }),
      "clusters[1] must be a whole number; found 0.5",
    ],
    [
      "a level of 95",
      () => productLimit({ times, events }, { level: 95 }),
      "level must be a number between 0 and 1, both excluded; found 95",
    ],
    [
      "a share of 1",
      () => quantileTime(productLimit({ times, events }), 1),
      "p must be a number between 0 and 1, both excluded; found 1",
    ],
    [
      "a negative time asked for",
      () => shareAt(productLimit({ times, events }), -1),
      "time must be a finite number, 0 or more; found -1",
    ],
    [
      "a horizon of 0",
      () => restrictedMean({ times, events }, { horizon: 0 }),
      "horizon must be a finite number above 0; found 0",
    ],
    [
      "a potential shorter than the time",
      () => completenessOfFollowUp({ times, events, potential: [3, 5] }),
      "potential[1] must be at least times[1], which is 6; found 5",
    ],
    [
      "a negative cause",
      () => cumulativeIncidence({ times, causes: [1, -1] }),
      "causes[1] must be a whole number, 0 or more; found -1",
    ],
    [
      "a group that is no whole number",
      () => logRank({ times, events, groups: [0, 0.5] }),
      "groups[1] must be a whole number; found 0.5",
    ],
    [
      "scores for other groups",
      () => logRankTrend({ times, events, groups: [0, 1] }, { scores: [1, 2, 3] }),
      "scores must be as long as the groups (2 values); found 3 values",
    ],
    [
      "a covariate that is missing",
      () => hazardsRegression({ times, events, covariates: { names: ["x"], columns: [[1, Number.NaN]] } }),
      'covariate "x"[1] must be a finite number; found NaN',
    ],
    [
      "a short covariate",
      () => linearRegression({ response: [1, 2], covariates: { names: ["x"], columns: [[1]] } }),
      'covariate "x" must be as long as response (2 values); found 1 values',
    ],
    [
      "a third group to standardise",
      () => standardisedCurves({ times, events, groups: [0, 2], strata: [0, 0] }, { horizon: 5 }),
      "groups[1] must be 0 or 1; found 2",
    ],
    [
      "weights beside causes",
      () =>
        standardisedCurves(
          { times, causes: events, weights: [1, 1], groups: [0, 1], strata: [0, 0] } as never,
          { horizon: 5 },
        ),
      'there is no column "weights"',
    ],
    [
      "events and causes together",
      () =>
        standardisedCurves({ times, events, causes: events, groups: [0, 1], strata: [0, 0] } as never, {
          horizon: 5,
        }),
      'there is no column "events"',
    ],
    [
      "a cause that is no number of one",
      () => standardisedCurves({ times, causes: [1, -1], groups: [0, 1], strata: [0, 0] }, { horizon: 5 }),
      "causes[1] must be",
    ],
    [
      "a time past the horizon",
      () => standardisedCurves({ times, events, groups: [0, 1], strata: [0, 0] }, { horizon: 5, times: [6] }),
      "times[0] must be between 0 and the horizon, which is 5; found 6",
    ],
    [
      "a reference that is no group",
      () => baselineAdjusted({ baseline: [1, 2], followUp: [1, 2], groups: [0, 1] }, { reference: 2 }),
      "reference must be one of the groups (0, 1); found 2",
    ],
    [
      "an infinite value",
      () => welch([1, Number.POSITIVE_INFINITY], [1, 2]),
      "a[1] must be a finite number; found Infinity",
    ],
  ])("%s", (_, ask, message) => {
    expect(ask).toThrow(message);
  });
});
