import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { acceleratedModel } from "../../../src/statistics/survival/accelerated/index.js";
import {
  equalPrecisionCritical,
  hallWellnerCritical,
  simultaneousBand,
} from "../../../src/statistics/survival/bands/index.js";
import { cumulativeHazard } from "../../../src/statistics/survival/cumulative-hazard.js";
import {
  type IntervalCurve,
  intervalCurve,
  intervalPermutationTest,
  intervalScoreTest,
  intervalShares,
} from "../../../src/statistics/survival/interval-censored/index.js";
import { productLimit } from "../../../src/statistics/survival/product-limit.js";
import { allNear, cohort, columns, near, settings } from "./cohorts.js";

interface Seen {
  readonly left: number;
  readonly right: number | null;
  readonly group: number;
  readonly weight: number;
  readonly x: number;
}

/** Exact, right-, left- and interval-censored times in whole days. */
const seen: fc.Arbitrary<Seen> = fc
  .record({
    left: fc.integer({ min: -1, max: 25 }),
    width: fc.option(fc.integer({ min: 0, max: 12 }), { freq: 3 }),
    group: fc.integer({ min: 0, max: 2 }),
    weight: fc.integer({ min: 0, max: 4 }),
    x: fc.integer({ min: -4, max: 4 }),
  })
  .map(({ left, width, ...rest }) => ({
    left,
    right: width === null ? null : Math.max(0, left + width),
    ...rest,
  }));
const seenRows = fc.array(seen, { minLength: 1, maxLength: 40 });

const ends = (rows: readonly Seen[]) => ({
  left: rows.map((row) => row.left),
  right: rows.map((row) => row.right),
});

const sameCurve = (a: IntervalCurve, b: IntervalCurve): boolean =>
  allNear(a.from, b.from) &&
  allNear(a.to, b.to) &&
  a.mass.length === b.mass.length &&
  a.mass.every((mass, at) => Math.abs(mass - b.mass[at]!) < 1e-8);

/** The conditions for the maximum, from the rows themselves. */
function worstMiss(rows: readonly Seen[], curve: IntervalCurve): number {
  const contains = (row: Seen, at: number): boolean => {
    const [from, to] = [curve.from[at]!, curve.to[at] ?? Number.POSITIVE_INFINITY];
    const right = row.right ?? Number.POSITIVE_INFINITY;
    if (row.left === right) return curve.exact[at] === true && to === right;
    return (curve.exact[at] === true ? from > row.left : from >= row.left) && to <= right;
  };
  const probability = rows.map((row) =>
    curve.mass.reduce((sum, mass, at) => (contains(row, at) ? sum + mass : sum), 0),
  );
  return Math.max(
    ...curve.mass.map((_, at) => {
      const gradient = rows.reduce((sum, row, i) => (contains(row, at) ? sum + 1 / probability[i]! : sum), 0);
      return Math.abs(gradient / rows.length - 1);
    }),
  );
}

describe("interval-censored curve", () => {
  it("every row has mass, masses add up to 1, and where there is mass the gradient is the number of rows", () => {
    fc.assert(
      fc.property(seenRows, (rows) => {
        const curve = intervalCurve(ends(rows));
        const sum = curve.mass.reduce((total, mass) => total + mass, 0);
        return curve.converged && near(sum, 1) && worstMiss(rows, curve) < 1e-8;
      }),
      settings,
    );
  });

  it("the order of the rows is immaterial", () => {
    fc.assert(
      fc.property(seenRows, (rows) =>
        sameCurve(intervalCurve(ends(rows)), intervalCurve(ends(rows.toReversed()))),
      ),
      settings,
    );
  });

  it("whole weights are repeated rows", () => {
    fc.assert(
      fc.property(seenRows, (rows) => {
        const repeated = rows.flatMap((row) => new Array<Seen>(row.weight).fill(row));
        const weighted = intervalCurve({ ...ends(rows), weights: rows.map((row) => row.weight) });
        return sameCurve(weighted, intervalCurve(ends(repeated)));
      }),
      settings,
    );
  });

  it("exact and right-censored times give the product-limit curve", () => {
    fc.assert(
      fc.property(cohort, (rows) => {
        const limit = productLimit(columns(rows));
        const curve = intervalCurve({
          left: rows.map((row) => row.time),
          right: rows.map((row) => (row.event === 1 ? row.time : null)),
        });
        return intervalShares(curve, limit.times).every((share, at) => {
          const expected = limit.notYet[at]!;
          return (
            Math.abs(share.upper! - expected) < 1e-9 ||
            // past the last event a censored row leaves the curve undetermined
            (share.undetermined && share.lower! <= expected)
          );
        });
      }),
      settings,
    );
  });

  it("days to weeks changes the times only", () => {
    fc.assert(
      fc.property(seenRows, (rows) => {
        const days = intervalCurve(ends(rows.filter((row) => row.left >= 0)));
        const weeks = intervalCurve(
          ends(
            rows
              .filter((row) => row.left >= 0)
              .map((row) => ({
                ...row,
                left: row.left / 7,
                right: row.right === null ? null : row.right / 7,
              })),
          ),
        );
        return allNear(
          days.from.map((day) => day / 7),
          weeks.from,
        );
      }),
      settings,
    );
  });
});

describe("score test", () => {
  it("surpluses add up to 0, and swapping two groups turns the sign", () => {
    fc.assert(
      fc.property(seenRows, (rows) => {
        const groups = rows.map((row) => Math.min(row.group, 1));
        const test = intervalScoreTest({ ...ends(rows), groups });
        const swapped = intervalScoreTest({ ...ends(rows), groups: groups.map((group) => 1 - group) });
        const sum = test.surplus.reduce((total, value) => total + value, 0);
        return (
          Math.abs(sum) < 1e-7 &&
          near(test.chiSquare, swapped.chiSquare, 1e-6) &&
          (test.z === null ? swapped.z === null : near(test.z, -swapped.z!, 1e-6))
        );
      }),
      settings,
    );
  });

  it("the same seed permutes alike", () => {
    fc.assert(
      fc.property(seenRows, fc.integer({ min: 0, max: 1000 }), (rows, seed) => {
        const data = { ...ends(rows), groups: rows.map((row) => row.group) };
        const once = intervalPermutationTest(data, { seed, draws: 50 });
        return once.permutationP === intervalPermutationTest(data, { seed, draws: 50 }).permutationP;
      }),
      { ...settings, numRuns: 30 },
    );
  });
});

describe("bands", () => {
  it("lie around the curve and outside the pointwise limits of the same scale", () => {
    fc.assert(
      fc.property(cohort, (rows) => {
        const curve = productLimit(columns(rows));
        const band = simultaneousBand(columns(rows));
        return band.times.every((time, at) => {
          const index = curve.times.indexOf(time);
          const [lower, upper] = [band.lower[at]!, band.upper[at]!];
          return (
            lower <= curve.lower[index]! + 1e-12 &&
            upper >= curve.upper[index]! - 1e-12 &&
            lower <= band.notYet[at]! &&
            upper >= band.notYet[at]!
          );
        });
      }),
      { ...settings, numRuns: 60 },
    );
  });

  it("a wider range or a higher level needs a larger critical value", () => {
    const share = fc.double({ min: 0.01, max: 0.98, noNaN: true });
    fc.assert(
      fc.property(share, share, share, (a, b, c) => {
        const [from, middle, to] = [a, b, c].sort((p, q) => p - q) as [number, number, number];
        if (from === middle || middle === to) return true;
        const inner = { from, to: middle };
        const outer = { from, to };
        return (
          equalPrecisionCritical(inner) < equalPrecisionCritical(outer) + 1e-9 &&
          hallWellnerCritical(inner) <= hallWellnerCritical(outer) + 1e-9 &&
          equalPrecisionCritical(inner, { level: 0.9 }) < equalPrecisionCritical(inner) &&
          hallWellnerCritical(inner, { level: 0.9 }) < hallWellnerCritical(inner)
        );
      }),
      { ...settings, numRuns: 12 },
    );
  });

  it("exp(-cumulative hazard) is not below the product-limit curve", () => {
    fc.assert(
      fc.property(cohort, (rows) => {
        const { notYet } = productLimit(columns(rows));
        const { hazard } = cumulativeHazard(columns(rows));
        return hazard.every((value, at) => Math.exp(-value) >= notYet[at]! - 1e-12);
      }),
      settings,
    );
  });
});

describe("accelerated failure-time models", () => {
  const laws = ["exponential", "weibull", "log-normal", "log-logistic"] as const;
  const many = fc.array(seen, { minLength: 40, maxLength: 60 }).map((rows) =>
    rows
      .map((row) => ({ ...row, left: Math.max(0, row.left) + (row.right === row.left ? 1 : 0) }))
      .map((row) => ({
        ...row,
        right: row.right === null ? null : Math.max(row.right, row.left, 1),
      })),
  );
  const model = (rows: readonly Seen[], law: (typeof laws)[number], unit = 1, weights?: number[]) =>
    acceleratedModel(
      {
        left: rows.map((row) => row.left * unit),
        right: rows.map((row) => (row.right === null ? null : row.right * unit)),
        covariates: { names: ["x"], columns: [rows.map((row) => row.x)] },
        ...(weights && { weights }),
      },
      { law },
    );

  it("a unit of time moves the intercept only", () => {
    fc.assert(
      fc.property(many, fc.constantFrom(...laws), (rows, law) => {
        const days = model(rows, law);
        const weeks = model(rows, law, 1 / 7);
        return (
          days.status === weeks.status &&
          (days.intercept === null ||
            (near(days.intercept - Math.log(7), weeks.intercept, 1e-7) &&
              near(days.coefficients[0], weeks.coefficients[0], 1e-6) &&
              near(days.scale, weeks.scale, 1e-6)))
        );
      }),
      { ...settings, numRuns: 80 },
    );
  });

  it("whole weights are repeated rows; the order of the rows is immaterial", () => {
    fc.assert(
      fc.property(many, fc.constantFrom(...laws), (rows, law) => {
        const weighted = model(
          rows,
          law,
          1,
          rows.map((row) => row.weight),
        );
        const repeated = model(
          rows.flatMap((row) => new Array<Seen>(row.weight).fill(row)).toReversed(),
          law,
        );
        return (
          weighted.status === repeated.status &&
          near(weighted.logLikelihood, repeated.logLikelihood) &&
          near(weighted.coefficients[0], repeated.coefficients[0], 1e-6) &&
          near(weighted.standardErrors[0], repeated.standardErrors[0], 1e-6)
        );
      }),
      { ...settings, numRuns: 80 },
    );
  });

  it("ends at a gradient of 0 with a likelihood no lower than without the covariate", () => {
    fc.assert(
      fc.property(many, fc.constantFrom(...laws), (rows, law) => {
        const fit = model(rows, law);
        if (fit.status !== "ok") return true;
        expect(fit.finalGradient).toBeLessThan(1e-6);
        return fit.logLikelihood! >= fit.logLikelihoodNull! - 1e-9;
      }),
      { ...settings, numRuns: 80 },
    );
  });
});
