import { describe, expect, it } from "vitest";
import {
  baselineHazard,
  hazardConcordance,
  hazardModel,
  hazardResiduals,
  predictedCurves,
} from "../../../../src/statistics/hazards/index.js";
import { type Expected, expectAllClose, expectClose, referenceCase } from "../reference-data.js";
import { hazardCases } from "./cases.js";

const rel = 1e-9;

const cases = hazardCases.map((one) => {
  const whole = referenceCase("cox", one.id).expected;
  const expected: Expected = one.part === undefined ? whole : whole[one.part];
  return { ...one, expected };
});
const having = (what: string) => cases.filter(({ expected }) => expected[what] !== undefined);
const atMeans = (expected: Expected, names: readonly string[]): number[] =>
  names.map((name) => expected.baseline.covariate_means[name]);

describe("what a fitted proportional-hazards regression says, against R package survival 3.5.3", () => {
  it.each(having("concordance"))("concordance: $source", ({ columns, ties = "efron", expected }) => {
    const found = hazardConcordance(hazardModel(columns, { ties }));
    const wanted = expected.concordance;
    expectClose(found.estimate, wanted.c, { rel, what: "concordance" });
    expectClose(found.standardError, wanted.se, { rel, what: "standard error" });
    const counts = [found.concordant, found.discordant, found.tiedScores, found.tiedTimes, found.tiedBoth];
    const keys = ["concordant", "discordant", "tied_x", "tied_y", "tied_xy"];
    expectAllClose(
      counts,
      keys.map((key) => wanted[key]),
      { rel, what: "pairs" },
    );
  });

  it.each(having("baseline"))("baseline hazard: $source", ({ columns, ties = "efron", expected }) => {
    const model = hazardModel(columns, { ties });
    const { names } = columns.covariates;
    const check = (at: "zero" | readonly number[], wanted: Expected, what: string): void => {
      const { strata } = baselineHazard(model, { at });
      expectAllClose(
        strata.flatMap(({ times }) => times),
        wanted.time,
        { rel, what: `times ${what}` },
      );
      expectAllClose(
        strata.flatMap(({ cumulative }) => cumulative),
        wanted.hazard,
        { rel, what },
      );
    };
    check("zero", expected.baseline.covariates_zero, "at zero");
    check(atMeans(expected, names), expected.baseline.at_means, "at the means");
    const predicted: Expected[] = expected.baseline.predicted ?? [];
    predicted.forEach((wanted) => {
      const rows = [names.map((name) => wanted.covariates[name])];
      const [curve] = predictedCurves(model, { rows, times: wanted.time, interval: "log" }).curves;
      expectAllClose(curve?.notYet ?? [], wanted.survival, { rel, what: "share" });
      expectAllClose(curve?.standardError ?? [], wanted.se, { rel, what: "standard error" });
      expectAllClose(curve?.cumulativeHazard ?? [], wanted.cumulative_hazard, { rel, what: "hazard" });
      expectAllClose(curve?.lower ?? [], wanted.ci95_log.lower, { rel, what: "lower" });
      expectAllClose(curve?.upper ?? [], wanted.ci95_log.upper, { rel, what: "upper" });
    });
  });

  it.each(having("predicted_by_stratum"))("curves by stratum: $source", ({ columns, expected }) => {
    const wanted = expected.predicted_by_stratum;
    const { curves } = predictedCurves(hazardModel(columns), {
      rows: [
        [30, 2],
        [70, 3],
      ],
    });
    const of = (row: number) => curves.filter((curve) => curve.row === row).flatMap(({ notYet }) => notYet);
    expectAllClose(of(0), wanted.survival_age30_ecog2, { rel, what: "age 30" });
    expectAllClose(of(1), wanted.survival_age70_ecog3, { rel, what: "age 70" });
  });

  it.each(having("residuals"))("residuals: $source", ({ columns, ties = "efron", expected }) => {
    const found = hazardResiduals(hazardModel(columns, { ties }));
    const wanted = expected.residuals;
    const rows = (byColumn: readonly Float64Array[]): number[] =>
      Array.from(byColumn[0] ?? [], (_, row) => byColumn.map((column) => column[row]!)).flat();
    const check = (values: ArrayLike<number>, key: string): void => {
      if (wanted[key] !== undefined)
        // differences of numbers of size 1 to 100: what is 0 in the one is 1e-16 in the other
        expectAllClose(values, [wanted[key]].flat(3), { rel, abs: 1e-11, what: key });
    };
    check(found.martingale, "martingale");
    check(found.deviance, "deviance");
    check(rows(found.score), "score");
    check(rows(found.dfbeta), "dfbeta");
    check(rows(found.events.residuals), "schoenfeld");
    check(rows(found.events.scaled), "scaled_schoenfeld");
    expect(found.reason).toBeNull();
  });
});
