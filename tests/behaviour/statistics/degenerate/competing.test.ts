import { describe, expect, it } from "vitest";
import {
  type GroupedTimes,
  logRank,
  oneStepHazardRatio,
  permutedLogRank,
} from "../../../../src/statistics/comparison/index.js";
import {
  causeSpecificHazards,
  grayTest,
  type SubdistributionColumns,
  subdistributionIncidence,
  subdistributionRegression,
} from "../../../../src/statistics/competing/index.js";
import { productLimit, seededGenerator } from "../../../../src/statistics/index.js";
import { landmarkContrast } from "../../../../src/statistics/survival/landmark-contrast.js";

/** time, cause, group, covariate */
type Row = readonly [number, number, number, number];

const column = (rows: readonly Row[], at: 0 | 1 | 2 | 3) => rows.map((row) => row[at]);
const subdistribution = (rows: readonly Row[]): SubdistributionColumns => ({
  times: column(rows, 0),
  causes: column(rows, 1),
  covariates: { names: ["group", "x"], columns: [column(rows, 2), column(rows, 3)] },
});
const grouped = (rows: readonly Row[]): GroupedTimes => ({
  times: column(rows, 0),
  events: column(rows, 1).map((cause) => (cause === 1 ? 1 : 0)),
  groups: column(rows, 2),
});
const causes = (rows: readonly Row[]) => ({
  times: column(rows, 0),
  causes: column(rows, 1),
  groups: column(rows, 2),
});

const cohorts: Record<string, readonly Row[]> = {
  "no rows": [],
  "one row, censored": [[5, 0, 0, 1]],
  "one row, event": [[5, 1, 0, 1]],
  "all censored": [
    [3, 0, 0, 1],
    [5, 0, 1, 2],
    [9, 0, 0, 3],
  ],
  "only the other event": [
    [3, 2, 0, 1],
    [5, 2, 1, 2],
    [9, 2, 1, 0],
  ],
  "one group": [
    [3, 1, 0, 1],
    [5, 2, 0, 2],
    [9, 1, 0, 5],
    [9, 0, 0, 4],
  ],
  "a group without the event": [
    [2, 1, 0, 1],
    [3, 1, 0, 2],
    [4, 2, 1, 3],
    [5, 1, 0, 0],
    [6, 0, 1, 1],
    [7, 2, 1, 2],
  ],
  "one distinct time": [
    [5, 1, 0, 1],
    [5, 2, 1, 2],
    [5, 0, 0, 0],
    [5, 1, 1, 3],
  ],
  "all at time 0": [
    [0, 1, 0, 1],
    [0, 2, 1, 2],
    [0, 1, 1, 0],
  ],
  "constant covariate": [
    [2, 1, 0, 7],
    [4, 2, 1, 7],
    [6, 1, 1, 7],
    [8, 0, 0, 7],
    [9, 1, 0, 7],
  ],
  "covariate equal to the group": [
    [2, 1, 0, 0],
    [4, 2, 1, 1],
    [6, 1, 1, 1],
    [8, 0, 0, 0],
    [9, 1, 0, 0],
  ],
  "one group after the other": [
    [1, 1, 0, 1],
    [2, 1, 0, 2],
    [3, 1, 1, 3],
    [4, 1, 1, 4],
  ],
  "everybody has the event at once": [
    [4, 1, 0, 1],
    [4, 1, 1, 3],
    [4, 1, 0, 2],
    [4, 1, 1, 2],
  ],
  "one group censored before the other's events": [
    [1, 0, 0, 1],
    [1, 0, 0, 2],
    [5, 1, 1, 2],
    [6, 2, 1, 3],
    [8, 1, 1, 1],
  ],
  "the common incidence passes 1": [
    ...Array.from({ length: 9 }, (_, at): Row => [1, 1, 0, at]),
    [2, 0, 0, 3],
    ...Array.from({ length: 6 }, (_, at): Row => [3 + at, 1, 1, at % 3]),
  ],
  "huge times and covariates": [
    [1e9, 1, 0, 1e9],
    [2e9, 1, 1, -2e9],
    [2e9, 2, 0, 3e9],
    [3e9, 0, 1, 1e9],
    [4e9, 1, 0, 2e9],
  ],
};

/** Numbers that are no numbers, with where they stand. */
const holes = (value: unknown, path = ""): string[] => {
  if (typeof value === "number") return Number.isFinite(value) ? [] : [`${path} is ${value}`];
  if (value === null || typeof value !== "object") return [];
  return Object.entries(value).flatMap(([name, inner]) => holes(inner, `${path}.${name}`));
};

describe("degenerate cohorts: what is said", () => {
  const say = (cohort: string) => cohorts[cohort]!;
  it.each([
    ["no rows", "no-rows", "no-rows", "no-rows"],
    ["all censored", "no-events", "no-events", "no-events"],
    ["only the other event", "no-events", "no-events", "no-events"],
    ["one group", "one-group", "one-group", "collinear"],
    ["one group after the other", null, null, "monotone-likelihood"],
    ["everybody has the event at once", "no-variance", "no-variance", "ok"],
    ["covariate equal to the group", null, null, "collinear"],
    ["a group without the event", null, null, "monotone-likelihood"],
  ])("%s: Gray %s, permuted %s, subdistribution %s", (cohort, gray, permuted, status) => {
    expect(grayTest(causes(say(cohort))).reason).toBe(gray);
    expect(permutedLogRank(grouped(say(cohort))).reason).toBe(permuted);
    expect(subdistributionRegression(subdistribution(say(cohort))).status).toBe(status);
  });

  it("a group without the event: ratio on its way to 0, the limit of the other coefficient stands", () => {
    const fit = subdistributionRegression(subdistribution(say("a group without the event")));
    expect(fit.ratios[0]).toMatchObject({ estimate: null, reason: "monotone-likelihood", limit: "zero" });
    expect(fit.coefficients[1]).not.toBeNull();
    expect(fit.wald.reason).toBe("monotone-likelihood");
    expect(fit.baseline).toBeNull();
  });

  it("beyond the follow-up of a group: the contrast says so and draws nothing", () => {
    const [late] = landmarkContrast(
      {
        a: productLimit({ times: [3, 9], events: [1, 0] }),
        b: productLimit({ times: [4, 20], events: [1, 0] }),
      },
      { times: [15] },
    );
    expect(late?.difference).toMatchObject({ difference: null, reason: "beyond-follow-up" });
    expect(late?.hybrid).toEqual({ lower: null, upper: null, reason: "beyond-follow-up" });
    expect(late?.test.reason).toBe("beyond-follow-up");
  });

  it("nobody yet in one group: a difference without hybrid interval, no ratio", () => {
    const [early] = landmarkContrast(
      {
        a: productLimit({ times: [3, 9], events: [1, 1] }),
        b: productLimit({ times: [7, 8], events: [1, 1] }),
      },
      { times: [5] },
    );
    expect(early?.difference.difference).toBe(0.5);
    expect(early?.hybrid.reason).toBe("no-events");
    expect(early?.ratio.reason).toBe("not-positive");
  });

  it("groups never at risk together: no clustered statistic out of rounding", () => {
    const columns = {
      times: [0.1, 0.2, 0.3, 0.5, 0.6, 0.7],
      entries: [0, 0, 0, 0.4, 0.4, 0.4],
      events: [1, 1, 1, 1, 1, 1],
    };
    const found = logRank({ ...columns, groups: [0, 0, 0, 1, 1, 1], clusters: [1, 2, 3, 1, 2, 3] });
    expect(found).toMatchObject({ chiSquare: null, p: null, reason: "no-variance" });
  });

  it("one cluster only: too few rows, where the statistic once was 1 whatever the data", () => {
    const columns = {
      times: [1, 2, 3, 4],
      events: [1, 1, 1, 1],
      groups: [0, 0, 1, 1],
      clusters: [7, 7, 7, 7],
    };
    expect(logRank(columns)).toMatchObject({ chiSquare: null, p: null, reason: "too-few-rows" });
  });

  it("three groups and two clusters: too few rows, where the statistic once was 2 whatever the data", () => {
    const columns = {
      times: [1, 2, 3, 4, 5, 6],
      events: [1, 1, 1, 1, 1, 0],
      groups: [0, 1, 2, 0, 1, 2],
      clusters: [7, 8, 7, 7, 8, 8],
    };
    expect(logRank(columns)).toMatchObject({ chiSquare: null, p: null, reason: "too-few-rows" });
    expect(logRank({ ...columns, clusters: [7, 8, 9, 7, 8, 8] })).toMatchObject({ df: 2, reason: null });
  });
});

describe("1,500 tiny cohorts, drawn with ties, clusters and censoring groups", () => {
  it("subdistribution regression: a finite answer or a reason; a runaway coefficient is never called sound (once 337, status ok)", () => {
    for (let draw = 0; draw < 1500; draw++) {
      const { integer, normal } = seededGenerator(5, draw);
      const n = 1 + integer(16);
      const drawn = (one: () => number) => Array.from({ length: n }, one);
      const columns: SubdistributionColumns = {
        times: drawn(() => integer(9)),
        causes: drawn(() => integer(3)),
        covariates: {
          names: ["a", "b", "c"],
          columns: [
            drawn(() => integer(2)),
            drawn(() => Math.round(10 * normal()) / 10),
            drawn(() => integer(2)),
          ],
        },
        ...(draw % 2 === 1 && { clusters: drawn(() => integer(5)) }),
        ...(draw % 3 === 0 && { censoringGroups: drawn(() => integer(2)) }),
      };
      const fit = subdistributionRegression(columns);
      const question = { covariates: [1, 0, 1], times: [0, 3, 8, 20] };
      expect(holes([fit, subdistributionIncidence({ columns, fit }, question)]), `draw ${draw}`).toEqual([]);
      if (fit.status === "monotone-likelihood") continue;
      expect(fit.status, `draw ${draw}`).not.toBe("not-converged");
      for (const coefficient of fit.coefficients)
        expect(Math.abs(coefficient ?? 0), `draw ${draw}`).toBeLessThan(30);
    }
  });
});

describe("wrong arguments are named", () => {
  const times = [1, 2];
  const covariates = { names: ["x"], columns: [[1, 2]] };
  const fit = subdistributionRegression({
    times: [1, 2, 3],
    causes: [1, 2, 1],
    covariates: { names: [], columns: [] },
  });
  it.each([
    [
      "a cause that is no event",
      () => grayTest({ times, causes: [1, 2], groups: [0, 1] }, { cause: 0 }),
      "cause must be a whole number, 1 or more; found 0",
    ],
    [
      "a negative cause",
      () => subdistributionRegression({ times, causes: [1, -1], covariates }),
      "causes[1] must be a whole number, 0 or more; found -1",
    ],
    [
      "too few causes",
      () => causeSpecificHazards({ times, causes: [1], covariates }),
      "causes must be as long as times (2 values); found 1 values",
    ],
    [
      "a time that is missing",
      () => grayTest({ times: [1, Number.NaN], causes: [1, 2], groups: [0, 1] }),
      "times[1] must be a finite number, 0 or more; found NaN",
    ],
    [
      "a stratum that is no whole number",
      () => grayTest({ times, causes: [1, 2], groups: [0, 1], strata: [0.5, 1] }),
      "strata[0] must be a whole number; found 0.5",
    ],
    [
      "a power that is no number",
      () => grayTest({ times, causes: [1, 2], groups: [0, 1] }, { rho: Number.NaN }),
      "rho must be a finite number; found NaN",
    ],
    [
      "a covariate that is missing",
      () =>
        subdistributionRegression({
          times,
          causes: [1, 2],
          covariates: { names: ["x"], columns: [[1, Number.NaN]] },
        }),
      'covariate "x"[1] must be a finite number; found NaN',
    ],
    [
      "clusters of another length",
      () => subdistributionRegression({ times, causes: [1, 2], covariates, clusters: [1] }),
      "clusters must be as long as times (2 values); found 1 values",
    ],
    [
      "a negative weight power",
      () => permutedLogRank({ times, events: [1, 1], groups: [0, 1] }, { weight: { rho: -1 } }),
      "weight.rho must be a finite number, 0 or more; found -1",
    ],
    [
      "random permutations without a seed",
      () => permutedLogRank({ times, events: [1, 1], groups: [0, 1] }, { method: "random" }),
      "seed must be a whole number; found undefined",
    ],
    [
      "a person in two groups permuted as a whole",
      () => permutedLogRank({ times, events: [1, 1], groups: [0, 1], clusters: [4, 4] }),
      "clusters[1] must be a cluster within one group and one stratum",
    ],
    [
      "every permutation of many",
      () =>
        permutedLogRank(
          {
            times: [...Array(60).keys()],
            events: Array(60).fill(1),
            groups: [...Array(60).keys()].map((at) => at % 2),
          },
          { method: "exact" },
        ),
      'method must be "random" for',
    ],
    [
      "three groups for one ratio",
      () => oneStepHazardRatio({ times: [1, 2, 3], events: [1, 1, 1], groups: [0, 1, 2] }),
      "groups must be two codes, one for each group; found 0, 1, 2",
    ],
    [
      "a negative landmark",
      () =>
        landmarkContrast(
          { a: productLimit({ times, events: [1, 1] }), b: productLimit({ times, events: [1, 1] }) },
          { times: [-1] },
        ),
      "times[0] must be a finite number, 0 or more; found -1",
    ],
    [
      "covariates of another fit",
      () =>
        subdistributionIncidence(
          { columns: { times: [1, 2, 3], causes: [1, 2, 1], covariates: { names: [], columns: [] } }, fit },
          { covariates: [1], times: [1] },
        ),
      "covariates must be as long as the covariates of the fit (0 values); found 1 values",
    ],
    [
      "rows of another fit",
      () =>
        subdistributionIncidence(
          { columns: { times, causes: [1, 2], covariates: { names: [], columns: [] } }, fit },
          { covariates: [], times: [1] },
        ),
      "columns must be the 3 rows that were fitted; found 2 rows",
    ],
  ])("%s", (_, ask, message) => {
    expect(ask).toThrow(message);
  });
});
