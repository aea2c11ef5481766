import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  differenceOf,
  type HazardColumns,
  hazardsRegression,
  linearRegression,
  logRank,
  logRankTrend,
  ratioOf,
  restrictedMean,
  standardisedDifference,
  standardisedDifferenceOfShares,
  welch,
} from "../../../src/statistics/index.js";
import { allNear, type CohortRow, cohort, columns, largeCohort, near, settings } from "./cohorts.js";

const hazards = (rows: readonly CohortRow[]): HazardColumns => ({
  ...columns(rows),
  covariates: { names: ["group", "x"], columns: [rows.map((one) => one.group), rows.map((one) => one.x)] },
});
const groupedTimes = (rows: readonly CohortRow[]) => ({
  ...columns(rows),
  groups: rows.map((one) => one.group),
});

describe("contrasts", () => {
  test("swapping the groups inverts the ratio and turns the difference", () => {
    fc.assert(
      fc.property(largeCohort, (rows) => {
        const side = (group: number) =>
          restrictedMean(columns(rows.filter((one) => one.group === group)), { horizon: 20 });
        const [a, b] = [side(0), side(1)];
        const ratio = ratioOf(a, b).ratio;
        const turned = ratioOf(b, a).ratio;
        if (ratio === null || turned === null) return ratio === turned;
        return (
          near(ratio * turned, 1) && near(differenceOf(a, b).difference, -differenceOf(b, a).difference!)
        );
      }),
      settings,
    );
  });

  test("Welch: swapping turns the sign, adding a constant to both changes nothing", () => {
    const sample = fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 2, maxLength: 12 });
    fc.assert(
      fc.property(sample, sample, (a, b) => {
        const one = welch(a, b);
        const turned = welch(b, a);
        const moved = welch(
          a.map((value) => value + 1000),
          b.map((value) => value + 1000),
        );
        return (
          near(one.difference, -turned.difference!) &&
          near(one.p, turned.p) &&
          near(one.difference, moved.difference) &&
          near(one.standardError, moved.standardError)
        );
      }),
      settings,
    );
  });

  test("standardised difference: units are immaterial; of shares: the order of categories is", () => {
    const sample = fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 2, maxLength: 12 });
    const counts = fc.array(fc.integer({ min: 1, max: 30 }), { minLength: 3, maxLength: 3 });
    fc.assert(
      fc.property(sample, sample, counts, counts, (a, b, c, d) => {
        const inUnits = standardisedDifference(a, b).value;
        const inOthers = standardisedDifference(
          a.map((value) => value * 10 + 7),
          b.map((value) => value * 10 + 7),
        ).value;
        const shares = standardisedDifferenceOfShares(c, d).value;
        const turned = standardisedDifferenceOfShares([...c].reverse(), [...d].reverse()).value;
        return near(inUnits, inOthers) && near(shares, turned, 1e-7);
      }),
      settings,
    );
  });
});

describe("log-rank", () => {
  test("order of rows and names of groups are immaterial; observed and expected add up to the same", () => {
    fc.assert(
      fc.property(cohort, (rows) => {
        const found = logRank(groupedTimes(rows));
        const turned = [...rows].reverse();
        const renamed = logRank({ ...groupedTimes(turned), groups: turned.map((one) => 7 - one.group) });
        const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
        return near(found.chiSquare, renamed.chiSquare) && near(sum(found.observed), sum(found.expected));
      }),
      settings,
    );
  });

  test("epochs that do not overlap in time (delayed entry) are strata", () => {
    fc.assert(
      fc.property(cohort, (rows) => {
        const times = rows.map((one) => one.time + 1 + 100 * one.stratum);
        const entries = rows.map((one) => 100 * one.stratum);
        const byTime = logRank({ ...groupedTimes(rows), times, entries });
        const byStratum = logRank({ ...groupedTimes(rows), strata: rows.map((one) => one.stratum) });
        return near(byTime.chiSquare, byStratum.chiSquare) && allNear(byTime.expected, byStratum.expected);
      }),
      settings,
    );
  });

  test("two groups: chi-square is z squared, and the trend test's", () => {
    fc.assert(
      fc.property(cohort, (rows) => {
        const found = logRank(groupedTimes(rows));
        if (found.chiSquare === null || found.z === null) return found.reason !== null;
        const trend = logRankTrend(groupedTimes(rows));
        return near(found.chiSquare, found.z ** 2) && near(trend.z! ** 2, found.chiSquare);
      }),
      settings,
    );
  });

  test("without tied events it is the score test of the hazards regression, within strata too", () => {
    fc.assert(
      fc.property(largeCohort, (rows) => {
        const times = rows.map((one, at) => one.time + at / 1000);
        const strata = rows.map((one) => one.stratum);
        const found = logRank({ ...groupedTimes(rows), times, strata });
        const covariates = { names: ["group"], columns: [rows.map((one) => one.group)] };
        const { score } = hazardsRegression({ ...columns(rows), times, strata, covariates });
        return near(found.chiSquare, score.statistic, 1e-8);
      }),
      settings,
    );
  });
});

describe("hazards regression", () => {
  const ties = fc.constantFrom("efron" as const, "breslow" as const);

  test("the order of rows is immaterial", () => {
    fc.assert(
      fc.property(largeCohort, ties, (rows, kind) => {
        const a = hazardsRegression(hazards(rows), { ties: kind });
        const b = hazardsRegression(hazards([...rows].reverse()), { ties: kind });
        return (
          allNear(a.coefficients, b.coefficients, 1e-7) && allNear(a.standardErrors, b.standardErrors, 1e-7)
        );
      }),
      settings,
    );
  });

  test("adding a constant to a covariate leaves the ratios; its unit scales the coefficient", () => {
    fc.assert(
      fc.property(largeCohort, ties, (rows, kind) => {
        const a = hazardsRegression(hazards(rows), { ties: kind });
        const moved = rows.map((one) => ({ ...one, x: one.x * 10 + 2000 }));
        const b = hazardsRegression(hazards(moved), { ties: kind });
        if (a.status !== "ok") return b.status === a.status;
        return (
          near(a.hazardRatios[0]?.estimate, b.hazardRatios[0]?.estimate, 1e-7) &&
          near(a.coefficients[1], b.coefficients[1]! * 10, 1e-6)
        );
      }),
      settings,
    );
  });

  test("swapping the groups inverts the ratio", () => {
    fc.assert(
      fc.property(largeCohort, (rows) => {
        const a = hazardsRegression(hazards(rows)).hazardRatios[0];
        const b = hazardsRegression(hazards(rows.map((one) => ({ ...one, group: 1 - one.group }))))
          .hazardRatios[0];
        if (a?.estimate == null || b?.estimate == null) return a?.estimate === b?.estimate;
        return near(a.estimate * b.estimate, 1, 1e-7);
      }),
      settings,
    );
  });

  test("splitting rows into start-stop pieces changes nothing, robust errors by subject neither", () => {
    fc.assert(
      fc.property(largeCohort, ties, (rows, kind) => {
        const late = rows.map((one) => ({ ...one, time: one.time + 2 }));
        const clusters = late.map((_, at) => at);
        const whole = hazardsRegression({ ...hazards(late), clusters }, { ties: kind });
        const pieces = late.flatMap((one, subject) => {
          const middle = Math.max(1, Math.floor(one.time / 2));
          return [
            { ...one, time: middle, event: 0, entry: -1, subject },
            { ...one, entry: middle, subject },
          ];
        });
        const split = hazardsRegression(
          {
            ...hazards(pieces),
            entries: pieces.map((one) => one.entry),
            clusters: pieces.map((one) => one.subject),
          },
          { ties: kind },
        );
        return (
          whole.status === split.status &&
          allNear(whole.coefficients, split.coefficients, 1e-6) &&
          allNear(whole.standardErrors, split.standardErrors, 1e-6) &&
          allNear(whole.robustStandardErrors ?? [], split.robustStandardErrors ?? [], 1e-6)
        );
      }),
      settings,
    );
  });

  test("epochs that do not overlap in time are strata, risk sets running empty between them", () => {
    fc.assert(
      fc.property(largeCohort, ties, (rows, kind) => {
        const times = rows.map((one) => one.time + 1 + 100 * one.stratum);
        const entries = rows.map((one) => 100 * one.stratum);
        const strata = rows.map((one) => one.stratum);
        const clusters = rows.map((_, at) => at);
        const byTime = hazardsRegression({ ...hazards(rows), times, entries, clusters }, { ties: kind });
        const byStratum = hazardsRegression({ ...hazards(rows), strata, clusters }, { ties: kind });
        return (
          byTime.status === byStratum.status &&
          allNear(byTime.coefficients, byStratum.coefficients, 1e-6) &&
          // at an infinite coefficient the residuals lose digits: compared at finite ones
          (byTime.status !== "ok" ||
            allNear(byTime.robustStandardErrors ?? [], byStratum.robustStandardErrors ?? [], 1e-6))
        );
      }),
      settings,
    );
  });

  test("weight 2 is the row listed twice, under Breslow's ties", () => {
    fc.assert(
      fc.property(largeCohort, (rows) => {
        const weights = rows.map((one) => 1 + one.stratum);
        const repeated = rows.flatMap((one) => Array.from({ length: 1 + one.stratum }, () => one));
        const a = hazardsRegression({ ...hazards(rows), weights }, { ties: "breslow" });
        const b = hazardsRegression(hazards(repeated), { ties: "breslow" });
        return allNear(a.coefficients, b.coefficients, 1e-7) && near(a.logLikelihood, b.logLikelihood);
      }),
      settings,
    );
  });

  test("at the maximum the first derivative vanishes and the likelihood is above that at 0", () => {
    fc.assert(
      fc.property(largeCohort, ties, (rows, kind) => {
        const fit = hazardsRegression(hazards(rows), { ties: kind });
        if (fit.status !== "ok")
          return (
            fit.status === "no-events" || fit.status === "monotone-likelihood" || fit.status === "collinear"
          );
        return fit.finalGradient! < 1e-6 && fit.likelihoodRatio.statistic! >= -1e-9;
      }),
      settings,
    );
  });

  test("each of two neighbouring coefficients has a lower likelihood: an independent evaluation by definition, no ties", () => {
    const rows = Array.from(
      { length: 25 },
      (_, at): CohortRow => ({
        time: (at * 7) % 25,
        event: at % 3 === 0 ? 0 : 1,
        group: at % 2,
        stratum: 0,
        x: ((at * 11) % 7) - 3,
      }),
    );
    const by = (b: readonly [number, number]): number => {
      const eta = rows.map((one) => b[0] * one.group + b[1] * one.x);
      return rows.reduce((sum, one, at) => {
        if (one.event === 0) return sum;
        const risk = rows.reduce(
          (total, other, k) => (other.time >= one.time ? total + Math.exp(eta[k]!) : total),
          0,
        );
        return sum + eta[at]! - Math.log(risk);
      }, 0);
    };
    const fit = hazardsRegression(hazards(rows));
    const [b0, b1] = fit.coefficients as [number, number];
    expect(near(fit.logLikelihood, by([b0, b1]))).toBe(true);
    for (const [d0, d1] of [
      [0.01, 0],
      [-0.01, 0],
      [0, 0.01],
      [0, -0.01],
    ] as const)
      expect(by([b0 + d0, b1 + d1])).toBeLessThan(by([b0, b1]));
  });
});

describe("linear regression", () => {
  test("residuals are at right angles to every covariate, and fitted values do not depend on the covariates' units", () => {
    fc.assert(
      fc.property(largeCohort, (rows) => {
        const response = rows.map((one) => one.time);
        const x = rows.map((one) => one.x);
        const group = rows.map((one) => one.group);
        const fit = linearRegression({
          response,
          covariates: { names: ["x", "group"], columns: [x, group] },
        });
        const moved = linearRegression({
          response,
          covariates: { names: ["x", "group"], columns: [x.map((value) => value * 1e4 + 3e5), group] },
        });
        const product = (values: readonly number[]) =>
          fit.residuals.reduce((sum, e, at) => sum + e * values[at]!, 0);
        const vanishes = [rows.map(() => 1), x, group].every((values) => Math.abs(product(values)) < 1e-8);
        return vanishes && fit.residuals.every((e, at) => Math.abs(e - moved.residuals[at]!) < 1e-6);
      }),
      settings,
    );
  });
});
