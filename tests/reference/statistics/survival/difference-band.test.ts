import { describe, expect, it } from "vitest";
import { normalCritical, tCritical } from "../../../../src/statistics/shared/distributions.js";
import { differenceBand } from "../../../../src/statistics/survival/bands/index.js";
import type { CausesInStrata } from "../../../../src/statistics/survival/standardised-types.js";
import { expectAllClose, numbers, type Row, referenceCase, referenceRows } from "../reference-data.js";

const mgus = referenceRows("competing_means", "mgus2.csv");
const fingers = referenceRows("competing_means", "fingers.csv");
const causesOf = (rows: readonly Row[], time: string) => ({
  times: numbers(rows, time),
  causes: numbers(rows, "cause"),
});
const one = (rows: readonly Row[]) => rows.map(() => 0);
const inPersons = {
  ...causesOf(fingers, "time"),
  groups: numbers(fingers, "group"),
  clusters: numbers(fingers, "person"),
};

describe("band for a difference over time, R 4.2.2 with survival: influences of survfit, 200,000 draws", () => {
  const cases: readonly (readonly [string, CausesInStrata])[] = [
    [
      "mgus2",
      {
        ...causesOf(mgus, "months"),
        groups: mgus.map(({ sex }) => (sex === "M" ? 1 : 0)),
        strata: one(mgus),
      },
    ],
    ["fingers", { ...inPersons, strata: one(fingers) }],
    ["fingers_late_entry", { ...inPersons, strata: one(fingers), entries: numbers(fingers, "entry") }],
    ["fingers_standardised", { ...inPersons, strata: numbers(fingers, "grade") }],
  ];

  it.each(cases)("%s: differences and errors", (id, columns) => {
    const { expected } = referenceCase("difference_band", id);
    const horizon = expected.times.at(-1);
    const band = differenceBand(columns, { times: expected.times, horizon, smallest: 1, seed: 5 });
    expectAllClose(
      band.points.map(({ difference }) => difference),
      expected.difference,
      { rel: 1e-9, abs: 1e-12, what: "difference" },
    );
    expectAllClose(
      band.points.map(({ standardError }) => standardError),
      expected.se,
      { rel: 1e-9, abs: 1e-12, what: "error" },
    );
    expect(band.units).toBe(expected.units);
  });

  // both sides are drawn: with 50,000 draws here the Monte Carlo errors together are below 0.008, so that 0.03 is four of them
  it.each(cases)("%s: critical values at 95 and 90 %%", (id, columns) => {
    const { expected } = referenceCase("difference_band", id);
    const horizon = expected.times.at(-1);
    for (const level of [0.95, 0.9]) {
      const band = differenceBand(columns, {
        times: expected.times,
        horizon,
        smallest: 1,
        seed: 5,
        draws: 50_000,
        level,
      });
      const widening = tCritical(level, band.units - 2 * band.used.length) / normalCritical(level);
      expect(Math.abs(band.criticalValue! / widening - expected[`critical_${100 * level}`])).toBeLessThan(
        0.03,
      );
    }
  });
});

describe("band for a difference over time", () => {
  const columns = { ...inPersons, strata: one(fingers) };
  const asked = { times: [10, 20, 40, 60], horizon: 60, smallest: 1, seed: 1 };
  const band = differenceBand(columns, asked);

  it("holds the limits of each time within it, and stays within -1 to 1", () => {
    for (const { lower, upper, bandLower, bandUpper } of band.points) {
      expect(bandLower!).toBeLessThan(lower);
      expect(bandUpper!).toBeGreaterThan(upper);
      expect(Math.max(-bandLower!, bandUpper!)).toBeLessThanOrEqual(1);
    }
  });

  it("of one time alone is that time's limits, but for what few units widen it by", () => {
    const single = differenceBand(columns, { ...asked, times: [40], draws: 50_000 });
    const widening = tCritical(0.95, single.units - 2) / normalCritical(0.95);
    expect(single.criticalValue! / widening).toBeCloseTo(normalCritical(0.95), 1);
  });

  it("excludes no difference somewhere exactly where p is below one less the level", () => {
    for (const level of [0.5, 0.8, 0.95]) {
      const { points, p } = differenceBand(columns, { ...asked, level, draws: 2000 });
      const excluded = points.some(({ bandLower, bandUpper }) => bandLower! > 0 || bandUpper! < 0);
      // the widening for few units depends on the level: told apart by it where p lies close to it
      if (Math.abs(p! - (1 - level)) > 0.02) expect(excluded).toBe(p! < 1 - level);
    }
  });

  it("mirrors when the groups change places, with the same seed", () => {
    const mirrored = differenceBand({ ...columns, groups: columns.groups.map((group) => 1 - group) }, asked);
    expect(mirrored.criticalValue).toBeCloseTo(band.criticalValue!, 12);
    expectAllClose(
      mirrored.points.map(({ bandUpper }) => -bandUpper!),
      band.points.map(({ bandLower }) => bandLower!),
      { rel: 1e-9, what: "band" },
    );
  });
});
