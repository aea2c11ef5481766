import { describe, expect, it } from "vitest";
import {
  automaticHazardsRegression,
  baselineHazard,
  concordance,
  frailtyRegression,
  hazardConcordance,
  hazardModel,
  hazardResiduals,
  penalisedHazardsRegression,
  predictedCurves,
  standardisedPredictions,
} from "../../../../src/statistics/hazards/index.js";
import {
  ArgumentError,
  type HazardColumns,
  hazardsRegression,
  proportionalityTest,
} from "../../../../src/statistics/index.js";

const columns = (times: number[], events: number[], x: number[]): HazardColumns => ({
  times,
  events,
  covariates: { names: ["x"], columns: [x] },
});

const question = {
  settings: [
    { name: "none", values: { x: 0 } },
    { name: "all", values: { x: 1 } },
  ],
  times: [3],
  horizon: 5,
};

/** What each says of itself: its status or reason. */
function said(cohort: HazardColumns): Record<string, string | null> {
  const model = hazardModel(cohort);
  return {
    ordinary: model.fit.status,
    exact: hazardsRegression(cohort, { ties: "exact" }).status,
    penalised: penalisedHazardsRegression(cohort).status,
    automatic: automaticHazardsRegression(cohort).chosen,
    baseline: baselineHazard(model).reason,
    predicted: predictedCurves(model, { rows: [[0]] }).reason,
    standardised: standardisedPredictions(model, question).reason,
    residuals: hazardResiduals(model).reason,
    concordance: hazardConcordance(model).reason,
    frailty: frailtyRegression({ ...cohort, groups: Array.from(cohort.times, (_, row) => row >> 1) }).status,
    drift: proportionalityTest(cohort, { method: "approximation-1994" }).global.reason,
  };
}

const all = (word: string, but: Record<string, string | null>): Record<string, string | null> => ({
  ordinary: word,
  exact: word,
  penalised: word,
  automatic: "ordinary",
  baseline: word,
  predicted: word,
  standardised: word,
  residuals: word,
  concordance: word,
  frailty: word,
  drift: word,
  ...but,
});
const nothingMissing = { baseline: null, predicted: null, standardised: null, residuals: null };

const ladder: { name: string; cohort: HazardColumns; expected: Record<string, string | null> }[] = [
  { name: "no rows", cohort: columns([], [], []), expected: all("no-rows", {}) },
  {
    name: "nobody returned",
    cohort: columns([3, 5, 8], [0, 0, 0], [0, 1, 0]),
    expected: all("no-events", {}),
  },
  {
    name: "one row",
    cohort: columns([3], [1], [1]),
    expected: all("collinear", { ...nothingMissing, concordance: "too-few-rows" }),
  },
  {
    name: "a constant covariate",
    cohort: columns([3, 5, 8, 9], [1, 1, 0, 1], [2, 2, 2, 2]),
    expected: all("collinear", { ...nothingMissing, concordance: null }),
  },
  {
    name: "all on one day",
    cohort: columns([4, 4, 4, 4], [1, 1, 1, 1], [0, 1, 0, 1]),
    // whom to choose out of four when four return is no question: the discrete likelihood is flat
    expected: all("monotone-likelihood", {
      ordinary: "ok",
      exact: "collinear",
      penalised: "ok",
      ...nothingMissing,
      concordance: "too-few-rows",
      frailty: "ok",
      drift: "no-variance",
    }),
  },
  {
    name: "a group without events",
    cohort: columns([1, 2, 3, 4, 5, 6], [1, 0, 1, 0, 1, 0], [1, 0, 1, 0, 1, 0]),
    expected: all("monotone-likelihood", { penalised: "ok", automatic: "penalised" }),
  },
];

describe("degenerate cohorts: each function says what there is to say", () => {
  it.each(ladder)("$name", ({ cohort, expected }) => {
    expect(said(cohort)).toEqual(expected);
  });
});

const plain = columns([1, 2, 3, 4, 5, 6], [1, 0, 1, 1, 1, 0], [1, 0, 1, 0, 0, 1]);
const model = hazardModel(plain);

describe("wrong questions: an error that names the argument", () => {
  it.each<{ name: string; ask: () => unknown; argument: string; index: number | null }>([
    {
      name: "exact ties with weights",
      ask: () => hazardModel({ ...plain, weights: [1, 1, 1, 1, 1, 1] }, { ties: "exact" }),
      argument: "weights",
      index: null,
    },
    {
      name: "exact ties with clusters",
      ask: () => hazardModel({ ...plain, clusters: [1, 1, 2, 2, 3, 3] }, { ties: "exact" }),
      argument: "clusters",
      index: null,
    },
    {
      name: "exact ties beyond all patience",
      ask: () => {
        const n = 1200;
        const each = (make: (row: number) => number) => Array.from({ length: n }, (_, row) => make(row));
        return hazardModel(
          columns(
            each(() => 1),
            each((row) => row & 1),
            each((row) => row % 3),
          ),
          { ties: "exact" },
        );
      },
      argument: "ties",
      index: null,
    },
    {
      name: "exact ties, curves",
      ask: () => baselineHazard(hazardModel(plain, { ties: "exact" })),
      argument: "ties",
      index: null,
    },
    {
      name: "a covariate that is no number",
      ask: () => penalisedHazardsRegression(columns([1, 2], [1, 1], [0, Number.NaN])),
      argument: 'covariate "x"',
      index: 1,
    },
    {
      name: "a negative time",
      ask: () => hazardModel(columns([1, -2], [1, 1], [0, 1])),
      argument: "times",
      index: 1,
    },
    {
      name: "a row too long",
      ask: () => predictedCurves(model, { rows: [[1, 2]] }),
      argument: "rows[0]",
      index: null,
    },
    {
      name: "an unknown stratum",
      ask: () => predictedCurves(model, { rows: [[1]], strata: [7] }),
      argument: "strata",
      index: 0,
    },
    {
      name: "an unknown covariate",
      ask: () => standardisedPredictions(model, { ...question, settings: [{ name: "a", values: { y: 1 } }] }),
      argument: "settings",
      index: 0,
    },
    {
      name: "no setting",
      ask: () => standardisedPredictions(model, { ...question, settings: [] }),
      argument: "settings",
      index: null,
    },
    {
      name: "scores too few",
      ask: () => concordance({ times: [1, 2], events: [1, 0], scores: [1] }),
      argument: "scores",
      index: null,
    },
    {
      name: "groups too few",
      ask: () => frailtyRegression({ ...plain, groups: [1] }),
      argument: "groups",
      index: null,
    },
    {
      name: "a frailty with weights",
      ask: () => frailtyRegression({ ...plain, weights: [1, 1, 1, 1, 1, 1], groups: [1, 1, 2, 2, 3, 3] }),
      argument: "weights",
      index: null,
    },
    {
      name: "a variance of 0",
      ask: () => frailtyRegression({ ...plain, groups: [1, 1, 2, 2, 3, 3] }, { theta: 0 }),
      argument: "theta",
      index: null,
    },
  ])("$name", ({ ask, argument, index }) => {
    expect(ask).toThrow(ArgumentError);
    try {
      ask();
    } catch (error) {
      expect(error).toMatchObject({ argument, index });
    }
  });

  it("frozen columns are left alone", () => {
    const frozen = Object.freeze({
      times: Object.freeze([1, 2, 2, 4, 5, 6]) as number[],
      events: Object.freeze([1, 0, 1, 1, 1, 0]) as number[],
      entries: Object.freeze([0, 0, 1, 0, 2, 0]) as number[],
      covariates: Object.freeze({ names: ["x"], columns: [Object.freeze([1, 0, 1, 0, 0, 1]) as number[]] }),
    });
    const found = hazardModel(frozen);
    hazardResiduals(found);
    penalisedHazardsRegression(frozen);
    expect(standardisedPredictions(found, question).reason).toBeNull();
  });
});
