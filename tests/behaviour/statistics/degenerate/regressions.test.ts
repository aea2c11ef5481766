import { describe, expect, it } from "vitest";
import { lagOneCorrelation } from "../../../../src/statistics/continuous/lag-one-correlation.js";
import { ArgumentError } from "../../../../src/statistics/index.js";
import { solveSymmetric } from "../../../../src/statistics/linear/index.js";
import { testTogether } from "../../../../src/statistics/regression/linear-hypothesis.js";
import { linearRegression } from "../../../../src/statistics/regression/linear-regression.js";
import {
  type LogisticOptions,
  logisticRegression,
  multinomialRegression,
  predictedProbabilities,
} from "../../../../src/statistics/regression/logistic/index.js";
import { type MixedOptions, mixedRegression } from "../../../../src/statistics/regression/mixed/index.js";

/** outcome, group, x */
type Row = readonly [number, number, number];

const covariatesOf = (rows: readonly Row[]) => ({
  names: ["group", "x"],
  columns: [Object.freeze(rows.map(([, group]) => group)), Object.freeze(rows.map(([, , x]) => x))],
});
const logisticOf = (rows: readonly Row[]) => ({
  outcome: Object.freeze(rows.map(([y]) => y)),
  covariates: covariatesOf(rows),
});
const mixedOf = (rows: readonly Row[]) => ({
  response: Object.freeze(rows.map(([y]) => y)),
  groups: Object.freeze(rows.map(([, group]) => group)),
  covariates: { names: ["x"], columns: [rows.map(([, , x]) => x)] },
});

/** Every number in a result is one: nothing in it may be NaN or infinite. */
function numbersIn(value: unknown): number[] {
  if (typeof value === "number") return [value];
  return value !== null && typeof value === "object" ? Object.values(value).flatMap(numbersIn) : [];
}
const expectFinite = (result: unknown) =>
  expect(numbersIn(result).filter((x) => !Number.isFinite(x))).toEqual([]);

const overlapping: readonly Row[] = [
  [0, 0, 1],
  [1, 0, 2],
  [0, 1, 3],
  [1, 1, 4],
  [1, 0, 0],
  [0, 1, 1],
  [1, 1, 2],
  [0, 0, 3],
];

describe("a covariate near a million, apart by thousandths", () => {
  const rows = overlapping.map(([y, group, x]): Row => [y, group, 1e6 + x * 1e-3]);

  it("logistic regressions of every kind are as well as any", () => {
    const atNought = { covariates: { names: ["group", "x"], columns: [[0], [1e6]] } };
    for (const options of [{}, { interval: "profile" }, { penalty: "firth" }] as const) {
      const fit = logisticRegression(logisticOf(rows), options);
      expect(fit.status).toBe("ok");
      expectFinite([fit, predictedProbabilities(fit, atNought)]);
    }
    const categories = rows.map(([y]) => y);
    expect(multinomialRegression({ categories, covariates: covariatesOf(rows) }).status).toBe("ok");
  });

  it("a mixed regression finds no variance between groups, and says so", () => {
    const fit = mixedRegression(mixedOf(rows), { together: [["x"]] });
    expect(fit.status).toBe("boundary");
    expectFinite(fit);
    expectFinite(mixedRegression({ ...mixedOf(rows), slope: rows.map(([, , x]) => x) }));
  });
});

describe("what separation says", () => {
  it("an arm in which all returned: quasi-complete, along that arm", () => {
    const fit = logisticRegression({
      outcome: [1, 1, 1, 0, 1, 0, 0],
      covariates: { names: ["ring"], columns: [[1, 1, 1, 0, 0, 0, 0]] },
    });
    expect(fit.separation).toMatchObject({ kind: "quasi-complete", terms: ["ring"], certain: 3 });
    expect(fit.terms[1]).toMatchObject({ limit: "infinity", reason: "monotone-likelihood" });
    expect(fit.coefficients[0]).toBeCloseTo(Math.log(1 / 3), 12);
    expect(fit.fitted.slice(0, 3)).toEqual([1, 1, 1]);
    const predicted = predictedProbabilities(fit, { covariates: { names: ["ring"], columns: [[1, 0]] } });
    expect(predicted.probability[0]).toBe(1);
    expect(predicted.lower[0]).toBeNull();
    expect(predicted.probability[1]).toBeCloseTo(0.25, 12);
  });

  it("a threshold between 3 and 4: complete, nothing has a finite estimate", () => {
    const fit = logisticRegression({
      outcome: [0, 0, 0, 1, 1],
      covariates: { names: ["mm"], columns: [[1, 2, 3, 4, 5]] },
    });
    expect(fit.separation?.kind).toBe("complete");
    expect(fit.coefficients).toEqual([null, null]);
    expect(fit.terms[1]?.limit).toBe("infinity");
    expect(fit.logLikelihood).toBe(0);
    expect(fit.fitted).toEqual([0, 0, 0, 1, 1]);
  });

  it("one category in one arm only: its terms have no estimate, the others do", () => {
    const fit = multinomialRegression({
      categories: [0, 1, 2, 0, 1, 2, 0, 1, 0, 1],
      covariates: { names: ["arm"], columns: [[0, 0, 0, 0, 0, 0, 1, 1, 1, 1]] },
    });
    expect(fit.status).toBe("separation");
    const [first, second] = fit.comparisons;
    expect(first?.terms[1]?.coefficient).toBeCloseTo(0, 10);
    expect(second?.terms[1]).toMatchObject({ coefficient: null, limit: "zero" });
    expect(fit.fitted.map((by) => by[9])).toEqual([expect.closeTo(0.5, 12), expect.closeTo(0.5, 12), 0]);
  });
});

describe("wrong questions are errors that name the place", () => {
  const covariates = { names: ["x"], columns: [[1, 2, 3]] };
  const outcome = [0, 1, 1];
  const cases: readonly { name: string; ask: () => unknown; message: RegExp }[] = [
    {
      name: "outcome 2",
      ask: () => logisticRegression({ outcome: [0, 2, 1], covariates }),
      message: /outcome\[1\] must be 0 or 1; found 2/,
    },
    {
      name: "NaN",
      ask: () => logisticRegression({ outcome, covariates: { names: ["x"], columns: [[1, Number.NaN, 3]] } }),
      message: /covariate "x"\[1\]/,
    },
    {
      name: "a negative weight",
      ask: () => logisticRegression({ outcome, covariates, weights: [1, 1, -1] }),
      message: /weights\[2\]/,
    },
    {
      name: "short clusters",
      ask: () => logisticRegression({ outcome, covariates, clusters: [1, 2] }),
      message: /clusters must be as long as outcome/,
    },
    {
      name: "profile with clusters",
      ask: () => logisticRegression({ outcome, covariates, clusters: [1, 2, 3] }, { interval: "profile" }),
      message: /interval must be "wald"/,
    },
    {
      name: "level 95",
      ask: () => logisticRegression({ outcome, covariates }, { level: 95 } as LogisticOptions),
      message: /level/,
    },
    {
      name: "a category of 1.5",
      ask: () => multinomialRegression({ categories: [0, 1.5, 1], covariates }),
      message: /categories\[1\]/,
    },
    {
      name: "a reference that is none",
      ask: () => multinomialRegression({ categories: outcome, covariates }, { reference: 7 }),
      message: /reference must be one of the categories \(0, 1\); found 7/,
    },
    {
      name: "one covariate too many to predict",
      ask: () =>
        predictedProbabilities(logisticRegression({ outcome: [0, 1, 0], covariates }), {
          covariates: { names: ["x", "z"], columns: [[1], [2]] },
        }),
      message: /covariates of the fit/,
    },
    {
      name: "an infinite response",
      ask: () =>
        mixedRegression({ response: [1, 2, Number.POSITIVE_INFINITY], groups: [1, 1, 2], covariates }),
      message: /response\[2\]/,
    },
    {
      name: "group 1.5",
      ask: () => mixedRegression({ response: [1, 2, 3], groups: [1, 1.5, 2], covariates }),
      message: /groups\[1\]/,
    },
    {
      name: "a short slope",
      ask: () => mixedRegression({ response: [1, 2, 3], groups: [1, 1, 2], covariates, slope: [1] }),
      message: /slope must be as long as response/,
    },
    {
      name: "Kenward-Roger with ml",
      ask: () =>
        mixedRegression({ response: [1, 2, 3], groups: [1, 1, 2], covariates }, {
          method: "ml",
          inference: "kenward-roger",
        } as MixedOptions),
      message: /inference must be "satterthwaite" or "normal"/,
    },
    {
      name: "an unknown name together",
      ask: () =>
        mixedRegression({ response: [1, 2, 3], groups: [1, 1, 2], covariates }, { together: [["y"]] }),
      message: /together\[0\] must be names of covariates \(x\); found "y"/,
    },
    {
      name: "an unknown term",
      ask: () => testTogether(linearRegression({ response: [1, 2, 4], covariates }), ["y"]),
      message: /terms\[0\] must be one of intercept, x; found "y"/,
    },
    {
      name: "a matrix that is not symmetric",
      ask: () => solveSymmetric({ matrix: [1, 2, 3, 4], right: [1, 1] }),
      message: /matrix\[2\] must be equal to its mirror image, 2; found 3/,
    },
    { name: "a lag of NaN", ask: () => lagOneCorrelation([1, Number.NaN]), message: /values\[1\]/ },
  ];
  it.each(cases)("$name", ({ ask, message }) => {
    expect(ask).toThrow(ArgumentError);
    expect(ask).toThrow(message);
  });
});

describe("systems without full rank", () => {
  it.each([
    { name: "indefinite", matrix: [0, 1, 1, 0], right: [3, 5], rank: 2, leftOut: [], consistent: true },
    {
      name: "a column twice, right side in its range",
      matrix: [1, 1, 1, 1],
      right: [2, 2],
      rank: 1,
      leftOut: [1],
      consistent: true,
    },
    {
      name: "a column twice, right side out of its range",
      matrix: [1, 1, 1, 1],
      right: [2, 3],
      rank: 1,
      leftOut: [1],
      consistent: false,
    },
    { name: "nothing", matrix: [0], right: [0], rank: 0, leftOut: [0], consistent: true },
    { name: "no rows", matrix: [], right: [], rank: 0, leftOut: [], consistent: true },
  ])("$name", ({ matrix, right, rank, leftOut, consistent }) => {
    expect(solveSymmetric({ matrix, right })).toMatchObject({ rank, leftOut, consistent });
  });

  it("lag-1 correlation of nothing, one value, equal values", () => {
    expect([[], [4], [4, 4, 4]].map(lagOneCorrelation)).toEqual(
      ["no-rows", "too-few-rows", "no-variance"].map((reason) => ({ value: null, reason })),
    );
  });
});
