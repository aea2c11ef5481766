import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { eigenSymmetric, solveSymmetric } from "../../../src/statistics/linear/index.js";
import {
  logisticRegression,
  multinomialRegression,
} from "../../../src/statistics/regression/logistic/index.js";
import { mixedRegression } from "../../../src/statistics/regression/mixed/index.js";
import { settings } from "./cohorts.js";

const fewer = { ...settings, numRuns: 60 };

const close = (a: number | null | undefined, b: number | null | undefined, within = 1e-6): boolean =>
  a == null || b == null ? a === b : Math.abs(a - b) <= within * (1 + Math.abs(b));
const allClose = (a: readonly (number | null)[], b: readonly (number | null)[], within = 1e-6): boolean =>
  a.length === b.length && a.every((value, at) => close(value, b[at], within));

const row = fc.record({
  y: fc.integer({ min: 0, max: 1 }),
  k: fc.integer({ min: 0, max: 2 }),
  x: fc.integer({ min: -4, max: 4 }),
  z: fc.integer({ min: 0, max: 1 }),
});
type Row = { readonly y: number; readonly k: number; readonly x: number; readonly z: number };
const rows = fc.array(row, { minLength: 6, maxLength: 30 });
const covariatesOf = (list: readonly Row[]) => ({
  names: ["x", "z"],
  columns: [list.map(({ x }) => x), list.map(({ z }) => z)],
});
const logisticOf = (list: readonly Row[]) => ({
  outcome: list.map(({ y }) => y),
  covariates: covariatesOf(list),
});
const multinomialOf = (list: readonly Row[]) => ({
  categories: list.map(({ k }) => k),
  covariates: covariatesOf(list),
});

describe("logistic regression", () => {
  test("a fit is either a maximum, where the score is 0, or comes with a direction that proves there is none", () => {
    let separated = 0;
    fc.assert(
      fc.property(rows, (list) => {
        const fit = logisticRegression(logisticOf(list));
        if (fit.status === "one-outcome") return true;
        if (fit.separation === null) return fit.converged && fit.finalGradient! < 1e-6;
        separated++;
        const { direction } = fit.separation;
        const pulls = list.map(
          ({ y, x, z }) => (y === 1 ? 1 : -1) * (direction[0]! + direction[1]! * x + direction[2]! * z),
        );
        return pulls.every((pull) => pull > -1e-7) && pulls.some((pull) => pull > 1e-6);
      }),
      { ...settings, numRuns: 300 },
    );
    expect(separated).toBeGreaterThan(10);
  });

  test("a weight of 3 is three rows, the penalised fit included", () => {
    fc.assert(
      fc.property(rows, (list) => {
        const weighted = { ...logisticOf(list), weights: list.map(({ z }) => 1 + 2 * z) };
        const listed = logisticOf(list.flatMap((one) => (one.z === 1 ? [one, one, one] : [one])));
        return (["none", "firth"] as const).every((penalty) => {
          const [a, b] = [logisticRegression(weighted, { penalty }), logisticRegression(listed, { penalty })];
          return allClose(a.coefficients, b.coefficients) && close(a.logLikelihood, b.logLikelihood);
        });
      }),
      fewer,
    );
  });

  test("turning outcomes round turns the signs and the limits round", () => {
    fc.assert(
      fc.property(rows, (list) => {
        const options = { penalty: "firth" } as const;
        const a = logisticRegression(logisticOf(list), options);
        const b = logisticRegression(logisticOf(list.map((one) => ({ ...one, y: 1 - one.y }))), options);
        return a.terms.every((term, k) => {
          const other = b.terms[k];
          if (term.reason !== null || other === undefined) return term.reason === other?.reason;
          return (
            close(term.coefficient, -other.coefficient!) &&
            close(term.lower, other.upper === null ? null : -other.upper, 1e-5) &&
            close(term.p, other.p)
          );
        });
      }),
      fewer,
    );
  });

  test("order of rows is immaterial, units scale, origins move the intercept only", () => {
    fc.assert(
      fc.property(rows, (list) => {
        const a = logisticRegression(logisticOf(list));
        const moved = logisticOf([...list].reverse());
        const [x, z] = moved.covariates.columns as [number[], number[]];
        const b = logisticRegression({
          ...moved,
          covariates: { names: ["x", "z"], columns: [x.map((value) => 1000 + value / 7), z] },
        });
        return (
          a.status === b.status &&
          close(a.logLikelihood, b.logLikelihood) &&
          close(a.coefficients[1] ?? null, b.coefficients[1] == null ? null : b.coefficients[1] / 7) &&
          close(a.coefficients[2], b.coefficients[2])
        );
      }),
      fewer,
    );
  });

  test("of a single 0/1 covariate the odds ratio is the cross-product ratio", () => {
    const cell = fc.integer({ min: 1, max: 40 });
    fc.assert(
      fc.property(cell, cell, cell, cell, (a, b, c, d) => {
        const fit = logisticRegression({
          outcome: [1, 0, 1, 0],
          covariates: { names: ["z"], columns: [[1, 1, 0, 0]] },
          weights: [a, b, c, d],
        });
        const error = Math.sqrt(1 / a + 1 / b + 1 / c + 1 / d);
        return (
          close(fit.terms[1]?.oddsRatio.estimate, (a * d) / (b * c), 1e-9) &&
          close(fit.standardErrors[1], error, 1e-9)
        );
      }),
      fewer,
    );
  });

  test("profile interval and likelihood-ratio test agree: at the level 1 - p the interval ends at 0", () => {
    fc.assert(
      fc.property(rows, (list) => {
        const columns = logisticOf(list);
        const fit = logisticRegression(columns, { interval: "profile" });
        if (fit.status !== "ok") return true;
        const p = fit.terms[1]!.p!;
        if (p < 1e-6 || p > 0.999) return true;
        const { terms } = logisticRegression(columns, { interval: "profile", level: 1 - p });
        const ends = [terms[1]!.lower!, terms[1]!.upper!];
        return Math.min(...ends.map(Math.abs)) < 1e-5;
      }),
      fewer,
    );
  });
});

describe("multinomial regression", () => {
  test("fitted shares do not depend on the reference and are right on average", () => {
    fc.assert(
      fc.property(rows, (list) => {
        const a = multinomialRegression(multinomialOf(list));
        const last = a.categories.at(-1);
        if (last === undefined || a.status === "one-outcome") return true;
        const b = multinomialRegression(multinomialOf(list), { reference: last });
        return a.categories.every((code, k) => {
          const own = a.fitted[k]!;
          const seen = list.filter((one) => one.k === code).length;
          const total = own.reduce((sum, share) => sum + share, 0);
          return allClose(own, b.fitted[b.categories.indexOf(code)]!) && close(total, seen);
        });
      }),
      fewer,
    );
  });

  test("two categories are a logistic regression, separated or not", () => {
    fc.assert(
      fc.property(rows, (list) => {
        const a = multinomialRegression({
          categories: list.map(({ y }) => y),
          covariates: covariatesOf(list),
        });
        const b = logisticRegression(logisticOf(list));
        const terms = a.comparisons[0]?.terms ?? [];
        return (
          a.status === b.status &&
          (a.comparisons.length === 0 ||
            allClose(
              terms.map((term) => term.coefficient),
              b.coefficients,
            )) &&
          (a.comparisons.length === 0 ||
            allClose(
              terms.map((term) => term.standardError),
              b.standardErrors,
            )) &&
          close(a.logLikelihood, b.logLikelihood)
        );
      }),
      fewer,
    );
  });
});

const reading = fc.record({
  y: fc.integer({ min: -50, max: 50 }),
  g: fc.integer({ min: 1, max: 5 }),
  t: fc.integer({ min: 0, max: 6 }),
});
type Reading = { readonly y: number; readonly g: number; readonly t: number };
const readings = fc.array(reading, { minLength: 12, maxLength: 40 });
const mixedOf = (list: readonly Reading[]) => ({
  response: list.map(({ y }) => y),
  groups: list.map(({ g }) => g),
  covariates: { names: ["t"], columns: [list.map(({ t }) => t)] },
});

describe("mixed regression", () => {
  test("of balanced groups: the variances of the analysis of variance, and one degree of freedom less than groups", () => {
    const balanced = fc.array(fc.array(fc.integer({ min: -20, max: 20 }), { minLength: 3, maxLength: 3 }), {
      minLength: 3,
      maxLength: 7,
    });
    fc.assert(
      fc.property(balanced, (groups) => {
        const means = groups.map((own) => own.reduce((sum, y) => sum + y, 0) / 3);
        const mean = means.reduce((sum, m) => sum + m, 0) / means.length;
        const between = (3 * means.reduce((sum, m) => sum + (m - mean) ** 2, 0)) / (means.length - 1);
        const within =
          groups.flatMap((own, g) => own.map((y) => (y - means[g]!) ** 2)).reduce((sum, s) => sum + s, 0) /
          (2 * groups.length);
        if (within === 0 || between < 1.01 * within) return true;
        const columns = {
          response: groups.flat(),
          groups: groups.flatMap((own, g) => own.map(() => g)),
          covariates: { names: [], columns: [] },
        };
        const fit = mixedRegression(columns, { varianceIntervals: "none" });
        const satterthwaite = mixedRegression(columns, {
          varianceIntervals: "none",
          inference: "satterthwaite",
        });
        return (
          close(fit.components.residualDeviation.estimate, Math.sqrt(within)) &&
          close(fit.components.interceptDeviation.estimate! ** 2, (between - within) / 3) &&
          close(fit.terms[0]?.df, groups.length - 1) &&
          close(satterthwaite.terms[0]?.df, groups.length - 1) &&
          close(fit.standardErrors[0], Math.sqrt(between / (3 * groups.length)))
        );
      }),
      fewer,
    );
  });

  test("order of rows and names of groups are immaterial; units of the response scale everything", () => {
    fc.assert(
      fc.property(readings, (list) => {
        const a = mixedRegression(mixedOf(list), { varianceIntervals: "none" });
        const other = [...list].reverse().map(({ y, g, t }) => ({ y: 1000 + y * 16, g: -7 * g, t }));
        const b = mixedRegression(mixedOf(other), { varianceIntervals: "none" });
        if (a.coefficients[0] == null) return a.status === b.status;
        return (
          a.status === b.status &&
          close(b.coefficients[0], 1000 + 16 * a.coefficients[0]!) &&
          close(b.standardErrors[1], a.standardErrors[1] == null ? null : 16 * a.standardErrors[1], 1e-5) &&
          close(
            b.components.residualDeviation.estimate,
            16 * a.components.residualDeviation.estimate!,
            1e-5,
          ) &&
          close(b.terms[0]?.df, a.terms[0]?.df, 1e-4)
        );
      }),
      fewer,
    );
  });

  test("more freedom never lowers the likelihood, and intervals hold their estimate", () => {
    fc.assert(
      fc.property(readings, (list) => {
        const columns = mixedOf(list);
        const [one, two] = [
          mixedRegression(columns, { method: "ml" }),
          mixedRegression(
            { ...columns, slope: columns.covariates.columns[0]! },
            { method: "ml", varianceIntervals: "none" },
          ),
        ];
        if (one.logLikelihood === null || two.logLikelihood === null) return true;
        const { interceptDeviation: between, residualDeviation: within } = one.components;
        return (
          two.logLikelihood >= one.logLikelihood - 1e-6 &&
          one.logLikelihood >= one.varianceTest.logLikelihoodWithout! - 1e-9 &&
          [between, within].every(
            ({ estimate, lower, upper }) =>
              (lower ?? 0) <= estimate! + 1e-9 && (upper ?? Infinity) >= estimate! - 1e-9,
          )
        );
      }),
      fewer,
    );
  });

  test("groups listed apart with the same rows: joined or one by one, the same fit", () => {
    fc.assert(
      fc.property(readings, (list) => {
        // enough copies of each group for them to be joined; twelve times the data have the same estimates by maximum likelihood
        const copies = Array.from({ length: 12 }, (_, copy) =>
          list.map((one) => ({ ...one, g: one.g + 10 * copy })),
        ).flat();
        const options = { method: "ml", varianceIntervals: "none" } as const;
        const [a, b] = [mixedRegression(mixedOf(list), options), mixedRegression(mixedOf(copies), options)];
        if (a.logLikelihood === null || b.logLikelihood === null) return a.status === b.status;
        return close(b.logLikelihood, 12 * a.logLikelihood) && allClose(a.coefficients, b.coefficients);
      }),
      fewer,
    );
  });
});

describe("small symmetric systems", () => {
  const entries = fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 16, maxLength: 16 });
  const symmetric = entries.map((list) =>
    list.map((_, k) => list[Math.min(k, (k % 4) * 4 + Math.floor(k / 4))]!),
  );
  const times = (matrix: readonly number[], x: readonly number[]) =>
    x.map((_, i) => x.reduce((sum, value, j) => sum + matrix[i * 4 + j]! * value, 0));

  test("the solution solves, and with less than full rank any right side in the range is solved", () => {
    fc.assert(
      fc.property(
        symmetric,
        fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 4, maxLength: 4 }),
        (matrix, x) => {
          const right = times(matrix, x);
          const { solution, consistent, rank, leftOut } = solveSymmetric({ matrix, right });
          return consistent && rank + leftOut.length === 4 && allClose(times(matrix, solution), right, 1e-8);
        },
      ),
      settings,
    );
  });

  test("eigenvectors give the matrix back and stand at right angles", () => {
    fc.assert(
      fc.property(symmetric, (matrix) => {
        const { values, vectors } = eigenSymmetric(matrix, 4);
        const back = matrix.map((_, k) =>
          values.reduce(
            (sum, value, m) => sum + value * vectors[m]![Math.floor(k / 4)]! * vectors[m]![k % 4]!,
            0,
          ),
        );
        const products = vectors.flatMap((a, i) =>
          vectors.map((b, j) => a.reduce((sum, x, k) => sum + x * b[k]!, 0) - (i === j ? 1 : 0)),
        );
        return allClose(back, matrix, 1e-10) && products.every((value) => Math.abs(value) < 1e-12);
      }),
      settings,
    );
  });
});
