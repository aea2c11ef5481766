import { describe, expect, it } from "vitest";
import {
  concordance,
  hazardModel,
  hazardResiduals,
  penalisedHazardsRegression,
} from "../../../../src/statistics/hazards/index.js";
import { rangeSums } from "../../../../src/statistics/hazards/likelihood/range-sums.js";
import { type HazardColumns, hazardsRegression, seededGenerator } from "../../../../src/statistics/index.js";
import { byDefinition, drawn, riskSet } from "./by-definition.js";

const draws = Array.from({ length: 60 }, (_, draw) => draw);
const finite = (coefficients: readonly (number | null)[]): number[] =>
  coefficients.map((value) => value ?? Number.NaN);

describe("hazards regression: sums by columns and recursions against the definition term by term, 60 drawn cohorts", () => {
  it.each(["efron", "breslow", "exact"] as const)(
    "log-likelihood at the maximum, and that it is one, %s",
    (ties) => {
      let fitted = 0;
      for (const draw of draws) {
        const columns = drawn(seededGenerator(31, draw), { weights: ties === "exact" ? "none" : "some" });
        const fit = hazardsRegression(columns, { ties });
        if (fit.status !== "ok") continue;
        fitted++;
        const beta = finite(fit.coefficients);
        const at = (moved: readonly number[]): number => byDefinition(columns, moved, ties).logLikelihood;
        expect(fit.logLikelihood, `draw ${draw}`).toBeCloseTo(at(beta), 9);
        const h = 1e-4;
        beta.forEach((value, j) => {
          const [above, below] = [h, -h].map((by) => at(beta.with(j, value + by))) as [number, number];
          expect(Math.abs(above - below) / (2 * h), `slope, draw ${draw}`).toBeLessThan(1e-6);
          const curvature = (2 * at(beta) - above - below) / h ** 2;
          // from the covariance of two: 1 / (inverse of the inverse) by hand
          const [[p, q], [, r]] = fit.covariance as [[number, number], [number, number]];
          const information = (j === 0 ? r : p) / (p * r - q * q);
          expect(curvature / information, `curvature, draw ${draw}`).toBeCloseTo(1, 3);
        });
      }
      expect(fitted).toBeGreaterThan(40);
    },
  );

  it.each(["efron", "breslow"] as const)(
    "penalised log-likelihood at its maximum, and that it is one, %s",
    (ties) => {
      for (const draw of draws.slice(0, 12)) {
        const columns = drawn(seededGenerator(32, draw), { weights: "some" });
        const fit = penalisedHazardsRegression(columns, { ties });
        if (fit.status !== "ok") continue;
        const beta = finite(fit.coefficients);
        const at = (moved: readonly number[]): number => {
          const { logLikelihood, information } = byDefinition(columns, moved, ties);
          const [[p, q], [, r]] = information as [[number, number], [number, number]];
          return logLikelihood + Math.log(p * r - q * q) / 2;
        };
        expect(fit.logLikelihood, `draw ${draw}`).toBeCloseTo(at(beta), 8);
        beta.forEach((value, j) => {
          const [above, below] = [1e-4, -1e-4].map((by) => at(beta.with(j, value + by))) as [number, number];
          expect(Math.abs(above - below) / 2e-4, `slope, draw ${draw}`).toBeLessThan(1e-5);
        });
      }
    },
  );

  it("martingale and score residuals add up to 0 under weights", () => {
    for (const draw of draws) {
      const columns = drawn(seededGenerator(33, draw), { weights: "some" });
      const model = hazardModel(columns);
      if (model.fit.status !== "ok") continue;
      const { martingale, score } = hazardResiduals(model);
      for (const column of [martingale, ...score]) {
        const sum = column.reduce((total, value, row) => total + columns.weights![row]! * value, 0);
        expect(Math.abs(sum), `draw ${draw}`).toBeLessThan(1e-8);
      }
    }
  });

  it("exact ties without ties are Breslow's", () => {
    const random = seededGenerator(34, 0);
    const columns: HazardColumns = {
      times: Array.from({ length: 30 }, (_, row) => row + 1),
      events: Array.from({ length: 30 }, () => random.integer(2)),
      covariates: { names: ["a"], columns: [Array.from({ length: 30 }, () => random.normal())] },
    };
    const [exact, breslow] = (["exact", "breslow"] as const).map((ties) =>
      hazardsRegression(columns, { ties }),
    );
    expect(exact?.coefficients[0]).toBeCloseTo(breslow!.coefficients[0]!, 12);
    expect(exact?.logLikelihood).toBeCloseTo(breslow!.logLikelihood!, 12);
  });
});

describe("concordance against all pairs one by one, 60 drawn cohorts", () => {
  it("counts, estimate and jackknife error", () => {
    for (const draw of draws) {
      const random = seededGenerator(35, draw);
      const columns = drawn(random, { weights: "some" });
      const { covariates: _, ...rows } = columns;
      const n = columns.times.length;
      const scores = Array.from({ length: n }, () => random.integer(5) - 2);
      const found = concordance({ ...rows, scores, clusters: scores.map((_, row) => row >> 1) });
      const own = Array.from({ length: n }, () => ({ good: 0, bad: 0, equal: 0 }));
      const w = (row: number): number => columns.weights![row]!;
      let good = 0;
      let all = 0;
      for (let i = 0; i < n; i++) {
        if (columns.events[i] !== 1) continue;
        for (const j of riskSet(columns, i)) {
          const later = columns.times[j]! > columns.times[i]! || columns.events[j] === 0;
          if (j === i || !later) continue;
          const sign = Math.sign(scores[i]! - scores[j]!);
          const kind = sign > 0 ? "good" : sign < 0 ? "bad" : "equal";
          own[i]![kind] += w(j);
          own[j]![kind] += w(i);
          good += w(i) * w(j) * (sign > 0 ? 1 : sign < 0 ? 0 : 0.5);
          all += w(i) * w(j);
        }
      }
      expect(found.estimate, `draw ${draw}`).toBeCloseTo(good / all, 12);
      const influence = new Map<number, number>();
      own.forEach((pairs, row) => {
        const value =
          (pairs.good + pairs.equal / 2 - (good / all) * (pairs.good + pairs.bad + pairs.equal)) / all;
        influence.set(row >> 1, (influence.get(row >> 1) ?? 0) + w(row) * value);
      });
      const variance = [...influence.values()].reduce((sum, value) => sum + value * value, 0);
      expect(found.standardError, `draw ${draw}`).toBeCloseTo(Math.sqrt(variance), 12);
    }
  });
});

it("sums of a range are those of its values, whatever stands outside", () => {
  const values = Float64Array.from({ length: 37 }, (_, at) => (at % 7 === 0 ? 1e30 : at + 0.25));
  const sumOf = rangeSums(values);
  for (let from = 0; from < values.length; from++)
    for (let to = from - 1; to < values.length; to++) {
      const wanted = values.subarray(from, Math.max(from, to + 1)).reduce((sum, value) => sum + value, 0);
      expect(Math.abs(sumOf(from, to) - wanted)).toBeLessThanOrEqual(1e-15 * Math.abs(wanted) * 8);
    }
});
